import { useState } from 'react';
import { Button } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { DoerFields, wholeDoer } from '../revisions/DoerFields.tsx';
import { useSession } from '../session/SessionContext.ts';
import { useDoer } from './useDoer.ts';

/** Asked once: whose name stands with each piece that is counted. */
export function WhoDialog({ onNamed, onClose }: { onNamed: () => void; onClose: () => void }) {
  const session = useSession();
  const { doer } = useDoer();
  const [given, setGiven] = useState({ ...doer, role: doer.role === '' ? 'packer' : doer.role });
  const [asked, setAsked] = useState(false);
  return (
    <Dialog title="Who packs?" onClose={onClose} className="bw-pack-dialog">
      <form
        className="bw-accept"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setAsked(true);
          const whole = wholeDoer(given);
          if (whole === null) return;
          session.prefer({ person: whole.name, personRole: whole.role });
          onNamed();
        }}
      >
        <p className="bw-second">Name and role stand with everything that is counted, and in the settings.</p>
        <DoerFields given={given} onGiven={setGiven} asked={asked} />
        <div className="bw-form-foot">
          <Button type="submit" variant="filled">
            Pack under this name
          </Button>
          <Button onClick={onClose}>Only look</Button>
        </div>
      </form>
    </Dialog>
  );
}
