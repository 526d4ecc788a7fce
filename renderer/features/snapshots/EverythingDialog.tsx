import { useEffect, useState } from 'react';
import { Button, Radio, Stack } from '@mantine/core';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { SnapshotHost } from '../../../shared-types/host.ts';
import { recordsVersion } from '../../../shared-types/records/index.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import { whatRemains } from '../../components/RecordForm/refusedSave.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { Differing } from '../../engine/everything/intoHere.ts';
import type { Looked } from '../../engine/everything/lookedInto.ts';
import { nameOf, tableWords } from '../../store/recordNames.ts';
import { refusalOf } from '../../store/session.ts';
import { startEverything } from '../../workers/everything.ts';
import type { EverythingRead, EverythingReading } from '../../workers/everything.ts';
import { useStore } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { contraryRefusal, everythingAct, fieldsApart } from './everythingIn.ts';
import { whenText } from './snapshotWords.ts';
import './snapshots.css';

const comparing = 'Comparing it with what is kept';

export interface EverythingDialogProps {
  host: Pick<SnapshotHost, 'make'>;
  /** A snapshot, or everything saved as one text, as it was chosen or dropped. */
  file: { name: string; text: string };
  /** What was done, in a sentence; null where it was left. */
  onClose: (done: string | null) => void;
}

interface Read {
  file: EverythingRead;
  reading: EverythingReading;
}

type State =
  | { doing: string; writes?: true }
  | { refused: Refusal }
  | { failed: string; looked: Looked }
  | { looked: Looked };

/** Everything of another copy of the program, or of this one from before: what it would bring, and one press that brings it. */
export function EverythingDialog({ host, file, onClose }: EverythingDialogProps) {
  const store = useStore();
  const [read, setRead] = useState<Read | null>(null);
  const [differing, setDiffering] = useState<Differing>('keep');
  const [state, setState] = useState<State>({ doing: `Reading ${file.name}` });

  useEffect(() => {
    let left = false;
    const reading = startEverything();
    const show = (next: State): void => void (left || setState(next));
    const work = async (): Promise<void> => {
      const said = await reading.read(file, (doing) => show({ doing }));
      show({ doing: comparing });
      await reading.hold(await store.readAll());
      if (!left) setRead({ file: said, reading });
    };
    work().catch((error: unknown) => show({ refused: refusalOf(error) }));
    return () => {
      left = true;
      reading.end();
    };
  }, [file, store]);

  useEffect(() => {
    if (read === null) return;
    let left = false;
    read.reading.look(differing).then(
      (found) => {
        if (left) return;
        if ('looked' in found) setState({ looked: found.looked });
        else setState({ refused: contraryRefusal(found.contrary, found.more) });
      },
      (error: unknown) => void (left || setState({ refused: refusalOf(error) })),
    );
    return () => void (left = true);
  }, [read, differing]);

  const choose = (next: Differing): void => {
    setState({ doing: comparing });
    setDiffering(next);
  };
  const bring = async ({ reading }: Read, looked: Looked): Promise<void> => {
    setState({ doing: 'Making a snapshot of what is kept now', writes: true });
    try {
      await host.make({ why: 'before-restore' });
      setState({ doing: `Bringing in ${countOf(looked.puts, 'record')}`, writes: true });
      await store.commit(everythingAct(await reading.puts(), looked.lasts, file.name));
      const undo = looked.lasts
        ? 'A snapshot from before is there.'
        : 'Undo takes all of it back, and a snapshot from before is there too.';
      onClose(`Brought in ${countOf(looked.puts, 'record')} of ${file.name}. ${undo}`);
    } catch (error) {
      setState({ failed: `${refusalOf(error).message} ${whatRemains(error)}`, looked });
    }
  };
  const isWriting = 'doing' in state && state.writes === true;
  const looked = 'looked' in state ? state.looked : null;
  return (
    <Dialog title={`Bring in ${file.name}`} onClose={() => isWriting || onClose(null)} className="bw-restore">
      {'refused' in state ? (
        <ErrorSummary
          name={file.name}
          verb="was not brought in"
          refusal={state.refused}
          remains="Nothing of it was written. What is kept stays as it was."
          onClose={() => onClose(null)}
        />
      ) : (
        <>
          <div role="status">
            {'doing' in state && <p>{state.doing}…</p>}
            {'failed' in state && (
              <p>
                <StateMark state="not-saved" text="Not brought in" /> {state.failed}
              </p>
            )}
          </div>
          {read !== null && looked !== null && (
            <Preview file={read.file} looked={looked} differing={differing} onDiffering={choose} />
          )}
          <div className="bw-form-foot">
            {read !== null && looked !== null && looked.puts > 0 && (
              <Button variant="filled" onClick={() => void bring(read, looked)}>
                Bring in {countOf(looked.puts, 'record')}
              </Button>
            )}
            <Button disabled={isWriting} onClick={() => onClose(null)}>
              {'doing' in state && !isWriting ? 'Stop reading the file' : 'Leave the file'}
            </Button>
          </div>
        </>
      )}
    </Dialog>
  );
}

interface PreviewProps {
  file: EverythingRead;
  looked: Looked;
  differing: Differing;
  onDiffering: (differing: Differing) => void;
}

function Preview({ file, looked, differing, onDiffering }: PreviewProps) {
  const { kind, made, records, by } = file;
  return (
    <>
      <p>
        {kind === 'snapshot' ? 'A snapshot' : 'Everything as one text'}, made {whenText(made)} by the clock of the
        machine it is from. Every record was looked through.
        {records < recordsVersion && ` Its records are of version ${records} and come in version ${recordsVersion}.`}
      </p>
      {by?.half === 'copy' && (
        <p>
          <b>Its journal cannot be gone by</b>: {by.because}. The records are those of its working copy, {by.name}.
        </p>
      )}
      <table className="bw-snapshots-table">
        <caption className="bw-hidden">What it would bring, table by table</caption>
        <thead>
          <tr>
            <th scope="col">Records</th>
            {['New', 'Differ', 'The same', 'Only here'].map((word) => (
              <th key={word} scope="col" className="bw-number">
                {word}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {looked.tables.map(({ table, added, differs, same, onlyHere }) => (
            <tr key={table}>
              <td>{tableWords[table].many}</td>
              {[added, differs, same, onlyHere].map((count, at) => (
                <td key={['new', 'differ', 'same', 'here'][at]} className="bw-number">
                  {count}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {looked.differing.count > 0 && <Differ looked={looked} differing={differing} onDiffering={onDiffering} />}
      {looked.withoutLabel.count > 0 && (
        <p>
          {countOf(looked.withoutLabel.count, 'item')} {looked.withoutLabel.count === 1 ? 'comes' : 'come'} without the
          number on {looked.withoutLabel.count === 1 ? 'its label' : 'their labels'}, which names another thing here:{' '}
          {looked.withoutLabel.first.map(({ id, code, tag }, at) => (
            <span key={id}>
              {at > 0 && ', '}
              <bdi>{code}</bdi> ({tag})
            </span>
          ))}
          {looked.withoutLabel.count > looked.withoutLabel.first.length && ' …'}
        </p>
      )}
      <p>{consequence(looked)}</p>
    </>
  );
}

function consequence({ puts, lasts }: Looked): string {
  if (puts === 0) return 'Nothing of it is to be written.';
  const first =
    'Nothing that is kept is taken away. It is one act, with what is kept now in a snapshot of its own before';
  return lasts
    ? `${first}. It brings frozen manifests, what was done with them or numbers of labels, which nothing takes away again: it cannot be undone.`
    : `${first}, and one Undo takes it back.`;
}

/** The dot stands out from its disc in both schemes. */
const dotted = { size: 'md', color: 'var(--bw-act)', iconColor: 'var(--bw-onact)' };

function Differ({ looked, differing, onDiffering }: Omit<PreviewProps, 'file'>) {
  const { first: rows, count, choices: chosen } = looked.differing;
  return (
    <>
      {chosen === 0 ? (
        <p>Settings and planned bags stay as they are here.</p>
      ) : (
        <Radio.Group
          className="bw-everything-choice"
          label={`${countOf(chosen, 'record')} ${chosen === 1 ? 'is' : 'are'} here and in the file, and not the same`}
          value={differing}
          onChange={(value) => onDiffering(value === 'take' ? 'take' : 'keep')}
        >
          <Stack gap={6}>
            <Radio {...dotted} value="keep" label="Keep what is here" />
            <Radio {...dotted} value="take" label="Take what the file says; settings and planned bags stay" />
          </Stack>
        </Radio.Group>
      )}
      <details className="bw-everything-differ">
        <summary>Which, and in which fields</summary>
        <ul>
          {rows.map(({ table, here, file }) => (
            <li key={`${table} ${here.id}`}>
              <bdi>{nameOf(table, here)}</bdi>: {fieldsApart(here, file).join(', ')}
            </li>
          ))}
          {count > rows.length && <li>and {count - rows.length} more</li>}
        </ul>
      </details>
    </>
  );
}
