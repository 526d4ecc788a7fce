import { useState } from 'react';
import { Button, Textarea } from '@mantine/core';
import type { Doer, Revision } from '../../../shared-types/records/revision.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { reasonOf } from '../../components/RecordForm/refusedSave.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { whyNotFrozen } from '../../engine/frozen/index.ts';
import type { ToFreeze } from '../../engine/frozen/index.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useSaveState, useStore } from '../session/useStore.ts';
import { DoerFields, wholeDoer } from './DoerFields.tsx';
import { freezeAct, revisionOf, whyNotNow } from './freezeAct.ts';
import { isCurrent } from './isCurrent.ts';

export interface FreezeDialogProps {
  task: { id: string; name: string };
  state: ToFreeze;
  number: number;
  /** The newest, where the task says the same as it. */
  same: Revision | null;
  now: () => Date;
  onClose: () => void;
}

/** Asked before a manifest is frozen: who does it, as what, and why; or why it cannot be done. */
export function FreezeDialog({ task, state, number, same, now, onClose }: FreezeDialogProps) {
  const store = useStore();
  const session = useSession();
  const { preferences } = useSessionState();
  const saving = useSaveState();
  const [by, setBy] = useState<Doer>({ name: preferences.person, role: preferences.personRole ?? '' });
  const [why, setWhy] = useState('');
  const [asked, setAsked] = useState(false);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  const title = `Freeze as revision ${number}`;
  const hindered = whyNotFrozen(state)?.message ?? null;
  const freeze = async (): Promise<void> => {
    setAsked(true);
    const doer = wholeDoer(by);
    if (doer === null || why.trim() === '' || busy) return;
    const notNow =
      whyNotNow(saving) ??
      (isCurrent(store, task.id, state.text)
        ? null
        : 'The task was changed just now and is being read: press it again.');
    if (notNow !== null) {
      setRefused(notNow);
      return;
    }
    setBusy(true);
    try {
      const at = isoWithOffset(now());
      const revision = await revisionOf({ state, task, id: store.newId(), number, by: doer, why: why.trim(), at });
      await store.commit(freezeAct(revision));
      // Named once, a person is asked no more.
      if (preferences.person === '') session.prefer({ person: doer.name });
      if (preferences.personRole === undefined || preferences.personRole === '')
        session.prefer({ personRole: doer.role });
      onClose();
      goTo({ at: 'revisions', number: String(number) });
    } catch (error) {
      setRefused(reasonOf(error));
      setBusy(false);
    }
  };
  return (
    <Dialog title={title} onClose={onClose}>
      {hindered === null ? (
        <form
          className="bw-accept"
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            void freeze();
          }}
        >
          <p className="bw-second">
            The plan, the bag and what the catalog says of each thing in it are kept as they are now, under this number.
            A frozen manifest is never changed and never removed; what is edited later makes the next one.
          </p>
          {same === null ? null : (
            <p>
              <b>Nothing differs from revision {same.number}:</b> this one would say the same under another number.
            </p>
          )}
          <DoerFields given={by} onGiven={setBy} asked={asked} />
          <Textarea
            className="bw-field"
            label="Why it is frozen"
            description="as first issue, or what was changed since the last"
            autosize
            minRows={2}
            maxRows={8}
            maxLength={2000}
            value={why}
            error={asked && why.trim() === '' ? 'Why it is frozen is missing.' : undefined}
            onChange={({ currentTarget }) => setWhy(currentTarget.value)}
          />
          {refused === null ? null : (
            <div className="bw-form-notsaved" role="alert">
              <StateMark state="not-saved" text="Not frozen" />
              <p>{refused}</p>
            </div>
          )}
          <div className="bw-form-foot">
            <Button type="submit" variant="filled" aria-disabled={busy} data-disabled={busy}>
              {title}
            </Button>
            <Button onClick={onClose}>Leave it open</Button>
          </div>
        </form>
      ) : (
        <>
          <p role="alert">
            <b>It cannot be frozen yet.</b> {hindered}.
          </p>
          <div className="bw-form-foot">
            <Button variant="filled" onClick={onClose}>
              Leave it open
            </Button>
          </div>
        </>
      )}
    </Dialog>
  );
}
