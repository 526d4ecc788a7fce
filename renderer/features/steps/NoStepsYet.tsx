import type { Ref } from 'react';
import { Button } from '@mantine/core';
import { placeAddress } from '../../store/place.ts';

export interface NoStepsYetProps {
  hasOutings: boolean;
  headingRef: Ref<HTMLHeadingElement>;
  onAdd: () => void;
  onUsual: () => void;
  onBringIn: () => void;
}

/** What stands in the place of a task's work while it has no step. */
export function NoStepsYet({ hasOutings, headingRef, onAdd, onUsual, onBringIn }: NoStepsYetProps) {
  return (
    <div className="bw-step">
      <h1 ref={headingRef} tabIndex={-1} className="bw-heading">
        This task has no steps yet
      </h1>
      {hasOutings ? (
        <>
          <p>
            A step says what is done, on which outing and by whom. What is not known yet may stay open: it is kept, and
            the list says what it still needs.
          </p>
          <div className="bw-step-actions">
            <Button variant="filled" onClick={onAdd}>
              Add the first step
            </Button>
            <Button onClick={onUsual}>Add usual steps…</Button>
            <Button onClick={onBringIn}>Bring steps in…</Button>
          </div>
        </>
      ) : (
        <p>
          A step goes out on an outing and is done by one of its roles.{' '}
          <a href={placeAddress({ at: 'outings' })}>Add an outing</a> first.
        </p>
      )}
    </div>
  );
}
