import type { ReactNode } from 'react';
import { ErrorSummary } from '../../components/ErrorSummary/ErrorSummary.tsx';
import type { TaskRowsState } from './useTaskRows.ts';
import './task.css';

/** What a sheet of a task shows while there is nothing to show. */
export function SheetState({
  state,
  what,
}: {
  state: Exclude<TaskRowsState, { kind: 'ready' }>;
  what: string;
}): ReactNode {
  if (state.kind === 'loading')
    return (
      <p className="bw-task-open" role="status">
        Reading the {what}…
      </p>
    );
  if (state.kind === 'gone')
    return (
      <div className="bw-task-open">
        <h1>This task is not kept any more</h1>
        <p>It was removed here or in another window. Undo brings it back.</p>
      </div>
    );
  return <Unread what={what} reason={state.reason} />;
}

export function Unread({ what, reason }: { what: string; reason: string }) {
  return (
    <div className="bw-task-open">
      <ErrorSummary
        name={`The list of ${what}`}
        verb="could not be read"
        refusal={{ code: 'internal', message: reason }}
        remains="What is kept is not changed by this. Load the page again."
        onClose={() => window.location.reload()}
      />
    </div>
  );
}
