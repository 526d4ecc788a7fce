import { useEffect, useState } from 'react';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import type { AsRunTableState } from '../../workers/asRun.ts';
import { countOf } from '../steps/words.ts';

export interface FileNotesProps {
  state: AsRunTableState | null;
  /** Of a file; null where the list is kept. */
  name: string | null;
  onClose: () => void;
}

/** What a person is to know of how a table was read: what was refused, all of it at once, and what no rule looks at. */
export function FileNotes({ state, name, onClose }: FileNotesProps) {
  const [shows, setShows] = useState(true);
  useEffect(() => setShows(true), [state?.turn]);
  const judged = state?.judged ?? null;
  const unread = judged?.calloutRefusals.length ?? 0;
  return (
    <>
      {unread === 0 ? null : (
        <p className="bw-form-notsaved">
          {unread === 1 ? '1 cell' : `${unread} cells`} of the callouts cannot be read: what was recorded against those
          callouts cannot be judged.
        </p>
      )}
      {name === null || state?.refusal == null ? null : (
        <ErrorSummary
          name={name}
          verb="cannot be judged"
          refusal={state.refusal}
          remains="Nothing of it is kept."
          onClose={onClose}
        />
      )}
      {name === null || judged === null || judged.refusals.length === 0 || !shows ? null : (
        <ErrorSummary
          name={name}
          verb="holds cells that cannot be read"
          refusal={{ code: 'unreadable-file', message: '', rows: judged.refusals }}
          remains={`${countOf(judged.summary.unreadable, 'row')} of ${state?.lines.length ?? 0} could not be judged; the others are. Nothing of the file is kept yet.`}
          onClose={() => setShows(false)}
        />
      )}
      {name === null || judged === null || judged.notes.length === 0 ? null : (
        <p className="bw-second">{judged.notes.join(' ')}</p>
      )}
      {name === null || judged === null || judged.unknownColumns.length === 0 ? null : (
        <p className="bw-second">Columns that no rule reads: {judged.unknownColumns.join(', ')}.</p>
      )}
    </>
  );
}

/** Why the table is empty. */
export function NothingShown({
  state,
  file,
  isPlain,
}: {
  state: AsRunTableState | null;
  file: string | null;
  isPlain: boolean;
}) {
  if (state?.kind === 'judging') return <p>Judging the records…</p>;
  if (state?.kind === 'cancelled') return <p>Judging was cancelled. Nothing of {file} is kept.</p>;
  if (state?.refusal != null) return <p role="alert">The records cannot be judged: {state.refusal.message}</p>;
  if ((state?.lines ?? []).length === 0) return <p>This list has no records yet.</p>;
  return <p>No record is as asked for. {isPlain ? '' : 'Show all brings the others back.'}</p>;
}

export function FileName({ name }: { name: string }) {
  return (
    <>
      <b className="bw-callouts-file" title={name}>
        {name}
      </b>
      <span className="bw-second">judged, not kept</span>
    </>
  );
}
