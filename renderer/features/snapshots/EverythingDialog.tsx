import { useEffect, useState } from 'react';
import { Button, Radio, Stack } from '@mantine/core';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { SnapshotHost } from '../../../shared-types/host.ts';
import { recordsVersion } from '../../../shared-types/records/index.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { readEverything } from '../../engine/everything/readEverything.ts';
import type { AllTables } from '../../engine/everything/readSnapshotText.ts';
import type { Differing, Into } from '../../engine/everything/intoHere.ts';
import type { Everything } from '../../engine/everything/readEverything.ts';
import { nameOf, tableWords } from '../../store/recordNames.ts';
import { refusalOf } from '../../store/session.ts';
import { sha256 } from '../../store/sha256.ts';
import { useStore } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { everythingAct, fieldsApart, lookedInto } from './everythingIn.ts';
import { whenText } from './snapshotWords.ts';
import './snapshots.css';

export interface EverythingDialogProps {
  host: Pick<SnapshotHost, 'make'>;
  /** A snapshot, or everything saved as one text, as it was chosen or dropped. */
  file: { name: string; text: string };
  /** What was done, in a sentence; null where it was left. */
  onClose: (done: string | null) => void;
}

interface Read {
  file: Everything;
  here: AllTables;
}

type State = { doing: string; writes?: true } | { refused: Refusal } | { failed: string; into: Into } | { into: Into };

/** Everything of another copy of the program, or of this one from before: what it would bring, and one press that brings it. */
export function EverythingDialog({ host, file, onClose }: EverythingDialogProps) {
  const store = useStore();
  const [read, setRead] = useState<Read | null>(null);
  const [differing, setDiffering] = useState<Differing>('keep');
  const [state, setState] = useState<State>({ doing: `Reading ${file.name}` });

  useEffect(() => {
    let left = false;
    const work = async (): Promise<void> => {
      const everything = await readEverything(file.text, file.name, sha256);
      const here = await store.readAll();
      if (!left) setRead({ file: everything, here });
    };
    work().catch((error: unknown) => void (left || setState({ refused: refusalOf(error) })));
    return () => void (left = true);
  }, [file, store]);

  useEffect(() => {
    if (read === null) return;
    let left = false;
    lookedInto(read.here, read.file, differing).then(
      (into) => void (left || setState({ into })),
      (error: unknown) => void (left || setState({ refused: refusalOf(error) })),
    );
    return () => void (left = true);
  }, [read, differing]);

  const choose = (next: Differing): void => {
    setState({ doing: 'Comparing it with what is kept' });
    setDiffering(next);
  };
  const bring = async (into: Into): Promise<void> => {
    setState({ doing: 'Making a snapshot of what is kept now', writes: true });
    try {
      await host.make({ why: 'before-restore' });
      setState({ doing: `Bringing in ${countOf(into.puts.length, 'record')}`, writes: true });
      await store.commit(everythingAct(into, file.name));
      const undo = into.lasts
        ? 'A snapshot from before is there.'
        : 'Undo takes all of it back, and a snapshot from before is there too.';
      onClose(`Brought in ${countOf(into.puts.length, 'record')} of ${file.name}. ${undo}`);
    } catch (error) {
      setState({ failed: `${refusalOf(error).message} Everything is as it was before.`, into });
    }
  };
  const isWriting = 'doing' in state && state.writes === true;
  const into = 'into' in state ? state.into : null;
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
          {read !== null && into !== null && (
            <Preview file={read.file} into={into} differing={differing} onDiffering={choose} />
          )}
          <div className="bw-form-foot">
            {into !== null && into.puts.length > 0 && (
              <Button variant="filled" onClick={() => void bring(into)}>
                Bring in {countOf(into.puts.length, 'record')}
              </Button>
            )}
            <Button disabled={isWriting} onClick={() => onClose(null)}>
              Leave the file
            </Button>
          </div>
        </>
      )}
    </Dialog>
  );
}

interface PreviewProps {
  file: Everything;
  into: Into;
  differing: Differing;
  onDiffering: (differing: Differing) => void;
}

function Preview({ file, into, differing, onDiffering }: PreviewProps) {
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
          {into.tables.map(({ table, added, differs, same, onlyHere }) => (
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
      {into.differing.length > 0 && <Differ into={into} differing={differing} onDiffering={onDiffering} />}
      {into.withoutLabel.length > 0 && (
        <p>
          {countOf(into.withoutLabel.length, 'item')} {into.withoutLabel.length === 1 ? 'comes' : 'come'} without the
          number on {into.withoutLabel.length === 1 ? 'its label' : 'their labels'}, which names another thing here:{' '}
          {into.withoutLabel.slice(0, 20).map(({ id, code, tag }, at) => (
            <span key={id}>
              {at > 0 && ', '}
              <bdi>{code}</bdi> ({tag})
            </span>
          ))}
          {into.withoutLabel.length > 20 && ' …'}
        </p>
      )}
      <p>{consequence(into)}</p>
    </>
  );
}

function consequence({ puts, lasts }: Into): string {
  if (puts.length === 0) return 'Nothing of it is to be written.';
  const first =
    'Nothing that is kept is taken away. It is one act, with what is kept now in a snapshot of its own before';
  return lasts
    ? `${first}. It brings frozen manifests, what was done with them or numbers of labels, which nothing takes away again: it cannot be undone.`
    : `${first}, and one Undo takes it back.`;
}

/** The dot stands out from its disc in both schemes. */
const dotted = { size: 'md', color: 'var(--bw-act)', iconColor: 'var(--bw-onact)' };

/** So many are listed; the number of all is said. */
const listed = 100;

function Differ({ into: { differing: rows }, differing, onDiffering }: Omit<PreviewProps, 'file'>) {
  const chosen = rows.filter(({ isChoice }) => isChoice).length;
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
          {rows.slice(0, listed).map(({ table, here, file }) => (
            <li key={`${table} ${here.id}`}>
              <bdi>{nameOf(table, here)}</bdi>: {fieldsApart(here, file).join(', ')}
            </li>
          ))}
          {rows.length > listed && <li>and {rows.length - listed} more</li>}
        </ul>
      </details>
    </>
  );
}
