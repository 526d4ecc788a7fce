import { Button } from '@mantine/core';
import { useEffect, useRef, useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { KeepingProgress } from '../../store/store.ts';
import type { RunResult } from '../../workers/tableImport.ts';
import { BadCells } from './BadCells.tsx';
import { ChangedCells } from './ChangedCells.tsx';
import type { TableImportState } from './useTableImport.ts';
import { writesText } from './writesText.ts';

export interface RunPanelProps {
  state: TableImportState;
  fileName: string;
  host: Host;
  /** Why the last attempt to write was not taken. */
  refused: string | null;
  /** How far writing has come; null where nothing is being written. */
  writing: KeepingProgress | null;
  onWrite: (result: RunResult) => void;
  onStopWriting: () => void;
}

/** All rows tried out, and what would come of them; then the one button that writes. */
export function RunPanel(props: RunPanelProps) {
  const { run, fault } = props.state;
  return (
    <section aria-labelledby="table-import-run" className="bw-table-run">
      <h3 id="table-import-run">What would come of it</h3>
      {run.kind === 'running' ? (
        <div className="bw-table-progress">
          <progress max={Math.max(1, run.count)} value={run.done} aria-label="Rows tried" />
          <span>
            {run.done} of {run.count} rows tried
          </span>
          <Button onClick={props.state.stop}>Stop</Button>
        </div>
      ) : run.kind === 'done' ? (
        <Outcome {...props} result={run.result} />
      ) : (
        <>
          {run.kind === 'stopped' ? <p role="status">Stopped. Nothing was written.</p> : null}
          {run.kind === 'refused' ? (
            <p role="alert" className="bw-table-fault">
              {run.refusal.message}
            </p>
          ) : null}
          <Button variant="filled" disabled={fault !== null} onClick={props.state.tryAll}>
            Try all rows
          </Button>
          <p className="bw-second">Every row is read as if it were brought in. Nothing is written.</p>
        </>
      )}
    </section>
  );
}

function Outcome({
  result,
  state,
  fileName,
  host,
  refused,
  writing,
  onWrite,
  onStopWriting,
}: RunPanelProps & { result: RunResult }) {
  const { counts, refusals } = result;
  const [leaveOut, setLeaveOut] = useState(false);
  const status = useRef<HTMLParagraphElement>(null);
  useEffect(() => status.current?.focus(), []);
  const writes = writesText(counts, state.target.words);
  return (
    <>
      <p ref={status} tabIndex={-1} role="status" className="bw-heading">
        {counts.rows} {counts.rows === 1 ? 'row' : 'rows'} tried. Nothing is written yet.
      </p>
      <table className="bw-table-counts" aria-label="What the rows would do">
        <thead>
          <tr>
            <th scope="col">Added</th>
            <th scope="col">Changed</th>
            <th scope="col">Same as kept, passed over</th>
            <th scope="col">Cannot be read</th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <td>{counts.add}</td>
            <td>{counts.change}</td>
            <td>{counts.same}</td>
            <td>{counts.bad}</td>
          </tr>
        </tbody>
      </table>
      {refusals.length === 0 ? null : (
        <BadCells refusals={refusals} cells={counts.badCells} rows={counts.bad} fileName={fileName} host={host} />
      )}
      {counts.change === 0 ? null : <ChangedCells ready={result.ready} kept={state.kept} keyOf={state.keyOf} />}
      {counts.bad === 0 || writes === null ? null : (
        <label className="bw-table-check">
          <input
            type="checkbox"
            checked={leaveOut}
            onChange={({ currentTarget }) => setLeaveOut(currentTarget.checked)}
          />
          Leave out the {counts.bad} {counts.bad === 1 ? 'row' : 'rows'} that cannot be read
        </label>
      )}
      {refused === null ? null : (
        <p role="alert" className="bw-table-fault">
          {refused} Nothing of the table was written; the button tries again.
        </p>
      )}
      <div className="bw-table-foot">
        {writes === null ? (
          <p>There is nothing to write.</p>
        ) : (
          <Button
            variant="filled"
            disabled={writing !== null || (counts.bad > 0 && !leaveOut)}
            onClick={() => onWrite(result)}
          >
            {writing === null ? writes : 'Writing…'}
          </Button>
        )}
        {writing === null ? null : (
          <span className="bw-table-progress">
            <progress max={1} value={writing.share} aria-label="Rows written" />
            {writing.canStop ? <Button onClick={onStopWriting}>Stop writing</Button> : null}
          </span>
        )}
        {counts.bad > 0 && !leaveOut && writes !== null ? (
          <span className="bw-second">Mend the file and choose it again, or leave those rows out.</span>
        ) : null}
      </div>
    </>
  );
}
