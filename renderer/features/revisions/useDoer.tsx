import { useMemo, useState } from 'react';
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { Doer } from '../../../shared-types/records/revision.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { DoerFields, wholeDoer } from './DoerFields.tsx';

export interface AskedDoer {
  /** Who acts, and as what; null where either is not known. */
  doer: Doer | null;
  /** Asks first, where that is not known; then does it. */
  withDoer: (act: (by: Doer) => void) => void;
  dialog: ReactNode;
}

/**
 * Who acts, and as what. Where either is not known yet it is asked before the first act, and kept.
 *
 * @param x.role - what is proposed where no role is kept
 * @param x.atOnce - asked on the way in, before anything was done
 */
export function useDoer({ role = '', atOnce = false }: { role?: string; atOnce?: boolean } = {}): AskedDoer {
  const session = useSession();
  const { person, personRole = '' } = useSessionState().preferences;
  const doer = useMemo(() => wholeDoer({ name: person.slice(0, 200), role: personRole }), [person, personRole]);
  const [waiting, setWaiting] = useState<{ act: (by: Doer) => void } | null>(() =>
    atOnce && doer === null ? { act: () => undefined } : null,
  );
  return {
    doer,
    withDoer: (act) => (doer === null ? setWaiting({ act }) : act(doer)),
    dialog:
      waiting === null ? null : (
        <DoerDialog
          first={{ name: person.slice(0, 200), role: personRole === '' ? role : personRole }}
          onGiven={(given) => {
            session.prefer({ person: given.name, personRole: given.role });
            setWaiting(null);
            waiting.act(given);
          }}
          onClose={() => setWaiting(null)}
        />
      ),
  };
}

function DoerDialog({ first, onGiven, onClose }: { first: Doer; onGiven: (by: Doer) => void; onClose: () => void }) {
  const [given, setGiven] = useState(first);
  const [asked, setAsked] = useState(false);
  return (
    <Dialog title="Who does this?" onClose={onClose}>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          const whole = wholeDoer(given);
          if (whole === null) setAsked(true);
          else onGiven(whole);
        }}
      >
        <p>
          The record keeps with each event who did it, and as what. It is kept for the next time, and changed in the
          settings.
        </p>
        <DoerFields given={given} onGiven={setGiven} asked={asked} />
        <div className="bw-form-foot">
          <Button type="submit" variant="filled">
            Keep name and role
          </Button>
          <Button onClick={onClose}>Leave it</Button>
        </div>
      </form>
    </Dialog>
  );
}
