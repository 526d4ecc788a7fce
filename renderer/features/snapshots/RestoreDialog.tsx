import { useEffect, useState } from 'react';
import { Button } from '@mantine/core';
import type { SnapshotHost } from '../../../shared-types/host.ts';
import type { KeptSnapshot } from '../../../shared-types/snapshot.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { whatRemains } from '../../components/RecordForm/refusedSave.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { restoring } from '../../store/recovery/restore.ts';
import type { Restoring } from '../../store/recovery/restore.ts';
import { tableWords } from '../../store/recordNames.ts';
import { refusalOf } from '../../store/session.ts';
import { useStore } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { readSnapshotWhole } from './readSnapshotWhole.ts';
import { whenText } from './snapshotWords.ts';

export interface RestoreDialogProps {
  host: SnapshotHost;
  snapshot: KeptSnapshot;
  /** What was done, in a sentence; null where it was left. */
  onClose: (done: string | null) => void;
}

type State = { doing: string } | { plan: Restoring } | { failed: string };

/** What going back to a snapshot would change, before it is done. */
export function RestoreDialog({ host, snapshot, onClose }: RestoreDialogProps) {
  const store = useStore();
  const [state, setState] = useState<State>({ doing: 'Reading the snapshot' });
  const { name, utc, seq, further } = snapshot;
  useEffect(() => {
    let left = false;
    const show = (next: State): void => void (left || setState(next));
    readSnapshotWhole(host, name)
      .then(async ({ tables }) => show({ plan: await restoring(await store.readAll(), tables) }))
      .catch((error: unknown) => show({ failed: refusalOf(error).message }));
    return () => void (left = true);
  }, [host, name, store]);

  const restore = async (plan: Restoring): Promise<void> => {
    setState({ doing: 'Making a snapshot of what is kept now' });
    try {
      await host.make({ why: 'before-restore' });
      setState({ doing: 'Restoring' });
      await store.commit({
        ...{ action: 'restore', title: `Restore ${whenText(utc)}`, snapshotMade: true, undoable: !plan.lasts },
        proposals: plan.proposals,
      });
      // Its records are here now, and not those of one that goes further still. Not noted, it is named once more before the work.
      if (further) await host.meant({ what: 'snapshots-go-further', through: seq }).catch(() => undefined);
      const undo = plan.lasts
        ? 'A snapshot from before is there.'
        : 'Undo takes all of it back, and a snapshot from before is there too.';
      onClose(`Restored as of ${whenText(utc)}. ${undo}`);
    } catch (error) {
      setState({ failed: `${refusalOf(error).message} ${whatRemains(error)}` });
    }
  };
  return (
    <Dialog title={`Restore what was kept on ${whenText(utc)}`} onClose={() => onClose(null)} className="bw-restore">
      <div role="status">
        {'doing' in state && <p>{state.doing}…</p>}
        {'failed' in state && (
          <p>
            <StateMark state="not-saved" text="Not restored" /> {state.failed}
          </p>
        )}
      </div>
      {'plan' in state && <Preview plan={state.plan} />}
      <div className="bw-form-foot">
        {'plan' in state && state.plan.proposals.length > 0 && (
          <Button variant="filled" onClick={() => void restore(state.plan)}>
            Restore {countOf(state.plan.proposals.length, 'record')}
          </Button>
        )}
        <Button disabled={'doing' in state && state.doing === 'Restoring'} onClick={() => onClose(null)}>
          Leave
        </Button>
      </div>
    </Dialog>
  );
}

function Preview({ plan: { tables, proposals, lasts } }: { plan: Restoring }) {
  if (proposals.length === 0) return <p>What is kept now is what the snapshot holds: nothing would change.</p>;
  return (
    <>
      <p>
        It is one act, with what is kept now in a snapshot of its own before
        {lasts
          ? '. It brings frozen manifests, what was done with them or numbers of labels back, which nothing takes away again: it cannot be undone.'
          : ', and one Undo takes it back.'}{' '}
        Settings that are set here stay; frozen manifests, what was done with them, discrepancies and things with a
        label are never taken away.
      </p>
      <table className="bw-snapshots-table">
        <caption className="bw-hidden">What would change, table by table</caption>
        <thead>
          <tr>
            <th scope="col">Records</th>
            <th scope="col" className="bw-number">
              Come back
            </th>
            <th scope="col" className="bw-number">
              Change back
            </th>
            <th scope="col" className="bw-number">
              Go
            </th>
            <th scope="col" className="bw-number">
              Stay
            </th>
          </tr>
        </thead>
        <tbody>
          {tables.map(({ table, comes, changes, goes, stays, kept }) => (
            <tr key={table}>
              <td>{tableWords[table].many}</td>
              <td className="bw-number">{comes}</td>
              <td className="bw-number">{changes}</td>
              <td className="bw-number">{goes}</td>
              <td className="bw-number">{kept === 0 ? stays : `${stays + kept}, of them ${kept} newer`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
