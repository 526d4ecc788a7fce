import { useState } from 'react';
import { NativeSelect } from '@mantine/core';
import type { PastAnswer } from '../../../shared-types/records/window.ts';
import { pastMost } from '../../../shared-types/records/window.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { placeAddress } from '../../store/place.ts';
import { once } from '../bag/amounts.ts';
import { answerText } from './compareWords.ts';
import { ComparisonTables } from './ComparisonTables.tsx';
import './bagCompare.css';

export interface ComparisonSectionProps {
  /** Key of the task. */
  task: string;
  /** The newest first. */
  past: readonly PastAnswer[];
  /** Of the task as it stands. */
  planHash: string;
  units: UnitsShown;
}

/** Two of the task's kept answers side by side. */
export function ComparisonSection({ task, past, planHash, units }: ComparisonSectionProps) {
  const [chosen, setChosen] = useState<{ one: string; other: string } | null>(null);
  const at = (plannedAt: string | undefined): PastAnswer | undefined =>
    past.find((answer) => answer.plannedAt === plannedAt);
  const one = at(chosen?.one) ?? past[1];
  const other = at(chosen?.other) ?? past[0];
  const options = past.map((answer) => ({ value: answer.plannedAt, label: answerText(answer, planHash) }));
  const choose = (change: Partial<{ one: string; other: string }>): void =>
    setChosen({ one: one?.plannedAt ?? '', other: other?.plannedAt ?? '', ...change });
  return (
    <section aria-labelledby="compare-heading">
      <h3 id="compare-heading" tabIndex={-1} className="bw-heading">
        Two planned bags side by side
      </h3>
      {one === undefined || other === undefined ? (
        <p className="bw-second">
          There is one planned bag of this task. Plan again for something else, or after a change, and the two can be
          held against each other here; the last {pastMost} are kept.
        </p>
      ) : (
        <>
          <div className="bw-compare-choice">
            <NativeSelect
              label="One"
              data={options}
              value={one.plannedAt}
              onChange={({ currentTarget: { value } }) => choose({ one: value })}
            />
            <NativeSelect
              label="The other"
              data={options}
              value={other.plannedAt}
              onChange={({ currentTarget: { value } }) => choose({ other: value })}
            />
          </div>
          {one === other ? (
            <p className="bw-second">That is the same one twice: choose another beside it.</p>
          ) : (
            <>
              <ComparisonTables one={one} other={other} units={once(units)} />
              <p>
                <a
                  href={placeAddress({
                    at: 'kits',
                    mine: `bag:${task}:${one.plannedAt}`,
                    theirs: `bag:${task}:${other.plannedAt}`,
                  })}
                >
                  Compare them as kits: field by field, and what it means for the stacks
                </a>
              </p>
            </>
          )}
          <p className="bw-source">
            {past.length === 1 ? '1 is' : `${past.length} are`} kept of at most {pastMost}; the oldest gives way. As the
            planner packed them: what was laid in other bags by hand is not in it. Masses are those of the task at the
            time each was planned.
          </p>
        </>
      )}
    </section>
  );
}
