import { useState } from 'react';
import { Button } from '@mantine/core';
import type { WatchOut } from '../../../shared-types/records/watchOut.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { ReasonAndName, wholeOf } from '../judged/ReasonAndName.tsx';
import type { Given } from '../judged/ReasonAndName.tsx';

export interface RetireWatchOutProps {
  record: WatchOut;
  person: string;
  onRetire: (given: Given) => void;
  onClose: () => void;
}

/** Asked before a watch-out is not said any more: why, and who says so. */
export function RetireWatchOut({ record, person, onRetire, onClose }: RetireWatchOutProps) {
  const [given, setGiven] = useState<Given>({ reason: '', person });
  const [asked, setAsked] = useState(false);
  return (
    <Dialog title="Retire the watch-out" onClose={onClose}>
      <form
        className="bw-accept"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setAsked(true);
          const whole = wholeOf(given);
          if (whole !== null) onRetire(whole);
        }}
      >
        <p dir="auto">{record.text}</p>
        <p className="bw-second">
          It is said before no step any more. It stays here with your reason and name, and can be brought back.
        </p>
        <ReasonAndName
          given={given}
          onGiven={setGiven}
          description="as the part that was changed, or the drawing that takes care of it"
          asked={asked}
        />
        <div className="bw-form-foot">
          <Button type="submit" variant="filled">
            Retire watch-out
          </Button>
          <Button onClick={onClose}>Keep it</Button>
        </div>
      </form>
    </Dialog>
  );
}
