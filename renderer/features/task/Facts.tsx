import { Fragment } from 'react';
import type { ReactNode } from 'react';
import './task.css';

/** What is known of something, each with its word; what is not said is not listed. */
export function Facts({ facts }: { facts: readonly (readonly [what: string, said: ReactNode])[] }) {
  return (
    <dl className="bw-task-facts">
      {facts.map(([what, said]) =>
        said === undefined || said === null || said === '' ? null : (
          <Fragment key={what}>
            <dt>{what}</dt>
            <dd>{said}</dd>
          </Fragment>
        ),
      )}
    </dl>
  );
}
