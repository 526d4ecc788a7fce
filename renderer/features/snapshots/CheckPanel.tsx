import { useState } from 'react';
import { Button } from '@mantine/core';
import type { SnapshotHost } from '../../../shared-types/host.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { tableWords } from '../../store/recordNames.ts';
import { refusalOf } from '../../store/session.ts';
import { useStore } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { checkKept } from './checkKept.ts';
import type { CheckedKept } from './checkKept.ts';

type State = { doing: string } | { checked: CheckedKept } | { failed: string } | null;

/** So many faults are listed; the number of all is said. */
const listed = 200;

/** Looks everything kept through, and says what it found; it mends nothing by itself. */
export function CheckPanel({ host, onChecked }: { host: SnapshotHost; onChecked: () => void }) {
  const store = useStore();
  const [state, setState] = useState<State>(null);
  const check = async (): Promise<void> => {
    setState({ doing: 'Beginning' });
    try {
      setState({ checked: await checkKept(store, host, (doing) => setState({ doing })) });
    } catch (error) {
      setState({ failed: refusalOf(error).message });
    }
    onChecked();
  };
  const isBusy = state !== null && 'doing' in state;
  return (
    <section className="bw-snapshots-check" aria-labelledby="check-heading">
      <h2 id="check-heading">Check the database</h2>
      <p>
        Reads the journal from its first entry, holds the working copy against it table by table, and looks through
        every record, what it names, and the chain of every frozen manifest.
      </p>
      <Button loading={isBusy} onClick={() => void check()}>
        Check the database
      </Button>
      <div role="status">
        {isBusy && <p>{state.doing}…</p>}
        {state !== null && 'failed' in state && (
          <p>
            <StateMark state="not-saved" text="Not checked" /> {state.failed}
          </p>
        )}
        {state !== null && 'checked' in state && <Checked checked={state.checked} />}
      </div>
    </section>
  );
}

function Checked({ checked: { records, faults, apart, seq, journalFault } }: { checked: CheckedKept }) {
  const count = faults.length + apart.length + (journalFault === null ? 0 : 1);
  if (count === 0)
    return (
      <p>
        <StateMark state="saved" text="Whole" /> {countOf(records, 'record')}, {countOf(seq, 'entry', 'entries')}: the
        journal holds from its first entry on, the working copy is the same by SHA-256, and no record is at fault.
      </p>
    );
  return (
    <>
      <p>
        <StateMark state="not-saved" text={countOf(count, 'fault')} /> in {countOf(records, 'record')} and{' '}
        {countOf(seq, 'entry', 'entries')}. {faults.length > listed ? `The first ${listed} are listed.` : ''}
      </p>
      <ul>
        {journalFault !== null && <li>The journal: {journalFault}</li>}
        {apart.map(({ table, journal, copy }) => (
          <li key={table}>
            The working copy holds {countOf(copy, tableWords[table].one, tableWords[table].many)}, the journal{' '}
            {journal === copy ? 'as many, and not the same' : journal}.
          </li>
        ))}
        {faults.slice(0, listed).map(({ table, id, rule, message }) => (
          <li key={`${table} ${id} ${rule} ${message}`}>
            {tableWords[table].one} <span className="bw-code">{id}</span>: {message}
          </li>
        ))}
      </ul>
    </>
  );
}
