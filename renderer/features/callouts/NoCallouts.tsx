import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { countOf } from '../steps/words.ts';

export interface NoCalloutsProps {
  /** How many steps of the task have a callout. */
  steps: number;
  onTakeSteps: () => void;
  onAdd: () => void;
  /** The way to a file. */
  children: ReactNode;
}

/** The place before it holds anything: what it is for, and the ways to begin. */
export function NoCallouts({ steps, onTakeSteps, onAdd, children }: NoCalloutsProps) {
  return (
    <div className="bw-callouts-none">
      <h1>No callouts yet</h1>
      <p>
        A drawing’s callouts are judged here, each by every rule: band, second unit, preload, thread, locking, wrench,
        published bands, tool. Each finding names its rule, the numbers and the document behind it.
      </p>
      <div className="bw-form-foot">
        {steps === 0 ? null : (
          <Button variant="filled" onClick={onTakeSteps}>
            Take the callouts of {countOf(steps, 'step')}
          </Button>
        )}
        {children}
        <Button onClick={onAdd}>Add callout</Button>
      </div>
      <p className="bw-second">
        Rows copied from a spreadsheet, headings first, can be pasted here. A table needs the columns id, thread, and
        torqueMin with torqueMax, or torque with tolerance.
      </p>
    </div>
  );
}
