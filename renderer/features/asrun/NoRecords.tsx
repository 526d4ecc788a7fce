import type { ReactNode } from 'react';
import { Button } from '@mantine/core';

export interface NoRecordsProps {
  onAdd: () => void;
  /** Brings the records of a worked example in; null where the task is none. */
  onExample: (() => void) | null;
  /** Whether the task has callouts that records could be judged against. */
  hasCallouts: boolean;
  calloutsAddress: string;
  children: ReactNode;
}

/** The place before it holds anything: what it is for, and the ways to begin. */
export function NoRecords({ onAdd, onExample, hasCallouts, calloutsAddress, children }: NoRecordsProps) {
  return (
    <div className="bw-callouts-none">
      <h1>No records yet</h1>
      <p>
        What was recorded at the work site is judged here against the callouts: final, seating, running and breakaway
        torque, turns, order, temperature and tool of each fastener, cycle by cycle, with a forecast of when a locking
        is worn out.
      </p>
      {hasCallouts || onExample !== null ? null : (
        <p>
          This task has no callouts yet: <a href={calloutsAddress}>add them first</a>, for a record names the callout it
          is judged against.
        </p>
      )}
      <div className="bw-form-foot">
        {onExample === null ? null : (
          <Button variant="filled" onClick={onExample}>
            Take the example’s records
          </Button>
        )}
        {children}
        <Button onClick={onAdd}>Add record</Button>
      </div>
      <p className="bw-second">
        Rows copied from a spreadsheet, headings first, can be pasted here. A table needs the columns callout, position,
        cycle and final.
      </p>
    </div>
  );
}
