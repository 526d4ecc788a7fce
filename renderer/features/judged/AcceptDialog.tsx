import { useState } from 'react';
import { Button } from '@mantine/core';
import type { Finding } from '../../../shared-types/judged.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { findingText } from './findingWords.ts';
import { ReasonAndName, wholeOf } from './ReasonAndName.tsx';
import type { Given } from './ReasonAndName.tsx';

export interface AcceptDialogProps {
  finding: Finding;
  /** "callout B" */
  of: string;
  person: string;
  units: UnitsShown;
  onAccept: (given: Given) => void;
  onClose: () => void;
}

/** Takes a finding as it is: who, and why. The judgement does not change by it. */
export function AcceptDialog({ finding, of, person: known, units, onAccept, onClose }: AcceptDialogProps) {
  const [given, setGiven] = useState<Given>({ reason: '', person: known });
  const [asked, setAsked] = useState(false);
  return (
    <Dialog title={`Accept a finding on ${of}`} onClose={onClose}>
      <form
        className="bw-accept"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setAsked(true);
          const whole = wholeOf(given);
          if (whole !== null) onAccept(whole);
        }}
      >
        <p>{findingText(finding.message, units)}</p>
        <p className="bw-second">
          The judgement stays {finding.severity === 'reject' ? 'Nonconforming' : 'Indeterminate'}; that you accept it
          stands beside it, with your reason and name, in the record and in the report. Where the finding comes to say
          something else, it is open again.
        </p>
        <ReasonAndName
          given={given}
          onGiven={setGiven}
          description="as the drawing note, the deviation or the waiver that allows it"
          asked={asked}
        />
        <div className="bw-form-foot">
          <Button type="submit" variant="filled">
            Accept {finding.rule}
          </Button>
          <Button onClick={onClose}>Leave it open</Button>
        </div>
      </form>
    </Dialog>
  );
}
