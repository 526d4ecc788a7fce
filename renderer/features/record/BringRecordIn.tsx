import { useEffect, useMemo, useState } from 'react';
import { Button } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import { reasonOf } from '../../components/RecordForm/refusedSave.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { recordBytesMax } from '../../engine/record/recordFile.ts';
import { shortHash } from '../../engine/record/shortHash.ts';
import { useKeptWork } from '../import/useKeptWork.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { spoken } from '../manifest/pageFurniture.ts';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { goTo } from '../session/usePlace.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { bringingIn, verifiedFile } from './bringIn.ts';
import type { ClashWay, VerifiedFile } from './bringIn.ts';
import { LabelClashes } from './LabelClashes.tsx';
import './record.css';

export interface BringRecordInProps {
  host: Host;
  now: () => Date;
  /** As it was chosen or dropped; absent: it is asked for. */
  file?: { name: string; text: string };
  onClose: () => void;
}

type Door = { name: string; verified: VerifiedFile };

/** A manifest with its record at the door: verified first, shown what it holds, kept as one act. */
export function BringRecordIn({ host, now, file, onClose }: BringRecordInProps) {
  const store = useStore();
  const session = useSession();
  const { person } = useSessionState().preferences;
  const work = useKeptWork();
  const revisions = useTable('revisions');
  const events = useTable('events');
  const discrepancies = useTable('discrepancies');
  const [door, setDoor] = useState<Door | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const [keeping, setKeeping] = useState<'not' | 'now' | 'done'>('not');
  const [clashWay, setClashWay] = useState<ClashWay | null>(null);
  const [at] = useState(() => isoWithOffset(now()));

  useEffect(() => {
    let wanted = true;
    const read = async (): Promise<void> => {
      const given = file ?? (await host.openText({ extensions: ['json'], maxBytes: recordBytesMax }));
      if (!wanted) return;
      if (given === null) return onClose();
      const verified = await verifiedFile(given);
      if (wanted) setDoor({ name: given.name, verified });
    };
    read().catch((error: unknown) => wanted && setSaid(error instanceof Error ? error.message : String(error)));
    return () => void (wanted = false);
    // The file is asked for once.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [file]);

  const kept = work.kind === 'ready' && revisions.ready && events.ready && discrepancies.ready ? work.kept : null;
  const bringing = useMemo(() => {
    if (door?.verified.kind !== 'whole' || kept === null) return null;
    const rows = <R,>(table: { rows: ReadonlyMap<string, R> }): R[] => [...table.rows.values()];
    return bringingIn(
      { name: door.name, file: door.verified.file },
      { ...kept, revisions: rows(revisions), events: rows(events), discrepancies: rows(discrepancies) },
      {
        broughtIn: { file: door.name.slice(0, 2000), at, person: person === '' ? 'not named' : person },
        newId: () => store.newId(),
        clashWay,
      },
    );
  }, [door, kept, revisions, events, discrepancies, at, person, clashWay, store]);

  const keep = async (): Promise<void> => {
    if (bringing?.kind !== 'act') return;
    if (bringing.clashes.length > 0 && clashWay === null) {
      setSaid('Say first what becomes of the label numbers that name another thing here.');
      return;
    }
    setKeeping('now');
    setSaid(null);
    try {
      await store.commit(bringing.act);
      setKeeping('done');
    } catch (error) {
      setSaid(`Nothing of it was written: ${reasonOf(error)}`);
      setKeeping('not');
    }
  };
  const open = (task: string, number: number): void => {
    onClose();
    session.openTask(task);
    goTo({ at: 'record', number: String(number) });
  };
  return (
    <Dialog title="Bring a manifest with its record in" onClose={onClose} className="bw-record-in">
      {door === null ? (
        <p role="status">Reading and verifying the file…</p>
      ) : door.verified.kind === 'refused' ? (
        <ErrorSummary
          name={door.name}
          verb="was not brought in"
          refusal={door.verified.refusal}
          remains="Nothing of it was written. What is kept stays as it was."
          onClose={onClose}
        />
      ) : (
        <>
          <Holds name={door.name} file={door.verified.file} />
          {bringing === null ? (
            <p role="status">Comparing it with what is kept…</p>
          ) : bringing.kind === 'refused' ? (
            <p role="alert">
              <b>Not brought in.</b> {bringing.reason}. What is kept stays as it was.
            </p>
          ) : keeping === 'done' || bringing.kind === 'same' ? (
            <p role="status">
              {keeping === 'done' ? (
                <StateMark state="saved" text="Saved: all of the file is kept." />
              ) : (
                'Everything in the file is kept already: there is nothing to write.'
              )}
            </p>
          ) : (
            <>
              <p>
                {bringing.newTask
                  ? 'No task here has its code: its plan comes in as a new task. '
                  : 'It goes to the task that has its code. '}
                It is kept as one act, and no undo takes it away.
              </p>
              {bringing.clashes.length === 0 ? null : (
                <LabelClashes
                  clashes={bringing.clashes}
                  renumbered={bringing.renumbered}
                  way={clashWay}
                  onWay={(way) => {
                    setSaid(null);
                    setClashWay(way);
                  }}
                />
              )}
            </>
          )}
          <div className="bw-form-foot">
            {bringing?.kind === 'act' && keeping !== 'done' ? (
              <Button variant="filled" disabled={keeping === 'now'} onClick={() => void keep()}>
                Keep {bringing.words.join(', ')}
              </Button>
            ) : null}
            {bringing !== null && bringing.kind !== 'refused' && (keeping === 'done' || bringing.kind === 'same') ? (
              <Button
                variant="filled"
                onClick={() =>
                  open(bringing.task, door.verified.kind === 'whole' ? door.verified.file.revision.number : 1)
                }
              >
                Open its record
              </Button>
            ) : null}
            <Button onClick={onClose}>{keeping === 'done' ? 'Close' : 'Leave the file'}</Button>
          </div>
        </>
      )}
      {said === null ? null : <p role="alert">{said}</p>}
    </Dialog>
  );
}

/** What a verified file holds. */
function Holds({ name, file }: { name: string; file: Extract<VerifiedFile, { kind: 'whole' }>['file'] }) {
  const { revision, events, discrepancies, head } = file;
  const open = discrepancies.filter(({ closed }) => closed === undefined).length;
  return (
    <>
      <p className="bw-record-said">
        <StateMark state="conforming" text="Whole" />
        <span>
          <bdi>{name}</bdi>: frozen content, {countOf(events.length, 'event')} and its own hash were verified.
        </span>
      </p>
      <dl className="bw-task-facts">
        <dt>Manifest</dt>
        <dd>
          <bdi>{revision.called}</bdi>, revision {revision.number}, content{' '}
          <span className="bw-code">{shortHash(revision.hash)}</span>
        </dd>
        <dt>Frozen</dt>
        <dd>
          {spoken(revision.at)} by <bdi>{revision.by.name}</bdi>, <bdi>{revision.by.role}</bdi>:{' '}
          <bdi>{revision.why}</bdi>
        </dd>
        <dt>Head</dt>
        <dd>
          event {events.length}, <span className="bw-code">{shortHash(head)}</span>
        </dd>
        <dt>Discrepancies</dt>
        <dd>{discrepancies.length === 0 ? 'none' : `${discrepancies.length}, ${open} open`}</dd>
      </dl>
    </>
  );
}
