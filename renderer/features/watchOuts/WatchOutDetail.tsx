import type { ReactNode, Ref } from 'react';
import type { WatchOut } from '../../../shared-types/records/watchOut.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { dayAndClockText } from '../../store/clock.ts';
import { Facts } from '../task/Facts.tsx';
import { tieKey, tieNow } from './ties.ts';
import type { Touchable } from './ties.ts';
import { learnedWords } from './watchOutRows.tsx';

export interface WatchOutDetailProps {
  record: WatchOut;
  known: Touchable;
  /** The steps that it is said before, by task. */
  saidBefore: readonly { task: string; steps: readonly string[] }[];
  headingRef: Ref<HTMLHeadingElement>;
  actions: ReactNode;
}

/** One watch-out: its words, what it touches, where it was learned, and before which steps it is said. */
export function WatchOutDetail({ record, known, saidBefore, headingRef, actions }: WatchOutDetailProps) {
  const { learned, retired } = record;
  return (
    <article className="bw-task-sheet" aria-labelledby="watchout-heading">
      <header className="bw-task-head">
        <h1 id="watchout-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          Watch-out
        </h1>
        {retired === undefined ? null : <StateMark state="retired" />}
      </header>
      {actions}
      <p className="bw-watchout-said" dir="auto">
        {record.text}
      </p>
      <section aria-labelledby="ties-heading">
        <h2 id="ties-heading">Touches</h2>
        <ul className="bw-watchout-ties">
          {record.ties.map((tie) => {
            const { words, about, address, gone } = tieNow(tie, known);
            return (
              <li key={tieKey(tie)} dir="auto">
                <span>
                  {address === null ? (
                    <b dir="auto">{words}</b>
                  ) : (
                    <a dir="auto" href={address}>
                      {words}
                    </a>
                  )}
                </span>
                <bdi className="bw-second">{gone ? 'not kept any more' : (about ?? '')}</bdi>
              </li>
            );
          })}
        </ul>
      </section>
      <Facts
        facts={[
          ['Learned', `${learnedWords[learned.in]}${learned.words === undefined ? '' : `: ${learned.words}`}`],
          ['In task', known.tasks.get(learned.task ?? '')?.name],
          ['Day', learned.on],
          ['By', learned.person],
          [
            'Retired',
            retired === undefined
              ? undefined
              : `${retired.reason} (${retired.person}, ${dayAndClockText(new Date(retired.at))})`,
          ],
        ]}
      />
      <section aria-labelledby="before-heading">
        <h2 id="before-heading">Said before</h2>
        {retired !== undefined ? (
          <p className="bw-second">No step: it is retired.</p>
        ) : saidBefore.length === 0 ? (
          <p className="bw-second">No step of any task touches it by what the steps name.</p>
        ) : (
          <Facts facts={saidBefore.map(({ task, steps }) => [task, steps.join(', ')] as const)} />
        )}
        <p className="bw-second bw-small">A tool is also touched where a planned bag does the step with it.</p>
      </section>
    </article>
  );
}
