import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { TableState } from '../../workers/tableDesk.ts';

/** How far it is judged, with the way to stop it; then what it comes to. */
export function JudgedFoot({
  state,
  onCancel,
  children,
}: {
  state: TableState | null;
  onCancel?: (() => void) | undefined;
  children?: ReactNode;
}) {
  const judged = state?.judged ?? null;
  return (
    <footer className="bw-callouts-foot">
      {state?.kind !== 'judging' ? null : (
        <span className="bw-callouts-going">
          <span role="status">
            {state.count === 0 ? 'Reading the rows…' : `Judging: ${state.done} of ${state.count}`}
          </span>
          {state.count === 0 ? null : <progress aria-label="Rows judged" value={state.done} max={state.count} />}
          {onCancel === undefined ? null : (
            <Button size="compact-sm" onClick={onCancel}>
              Cancel
            </Button>
          )}
        </span>
      )}
      {judged === null ? null : (
        <>
          <StateMark state="conforming" text={`${judged.summary.conforming} conforming`} />
          <StateMark state="nonconforming" text={`${judged.summary.nonconforming} nonconforming`} />
          <StateMark state="indeterminate" text={`${judged.summary.indeterminate} indeterminate`} />
          {judged.summary.unreadable === 0 ? null : (
            <StateMark state="unreadable" text={`${judged.summary.unreadable} not readable`} />
          )}
        </>
      )}
      {children === undefined ? null : <span className="bw-callouts-end">{children}</span>}
    </footer>
  );
}
