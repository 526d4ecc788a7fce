import { useMemo } from 'react';
import type { EntryHead } from '../../../shared-types/journal.ts';
import { outingMinutes } from '../../engine/outing/planProblems.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { LeftOut } from '../../engine/records/stockOfTask.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { placeAddress } from '../../store/place.ts';
import type { KeptResult, TaskAtHand } from '../../store/session.ts';
import { amountText } from '../bag/amounts.ts';
import { deedText } from '../session/deedText.ts';
import { useHistoryState, useTable } from '../session/useStore.ts';
import { useJudgements } from '../steps/judging.ts';
import { countOf, numbersText } from '../steps/words.ts';
import { TaskFacts } from '../task/TaskFacts.tsx';
import { TouchedTable } from './TouchedTable.tsx';
import { carriedBy, sharesOf } from './shares.ts';
import { stillOpen } from './stillOpen.ts';
import type { OpenPoint } from './stillOpen.ts';
import './overview.css';

export interface FrontSheetProps {
  atHand: TaskAtHand;
  result: KeptResult | null;
  former: KeptResult | null;
  units: UnitsShown;
  /** ISO 8601 day. */
  today: string;
}

const shownMost = 12;
const changesShown = 8;
const leftOutMost = 50;

/** The task on one sheet: what hands touch, what is still open, who has what, what was changed last. */
export function FrontSheet({ atHand, result, former, units, today }: FrontSheetProps) {
  const { plan, task, missing, leftOut } = atHand;
  const judging = useJudgements(plan);
  const items = useTable('items');
  const sites = useTable('sites');
  const { recent } = useHistoryState();
  const ownItems = useMemo(
    () => [...items.rows.values()].filter((item) => task.shelves.includes(item.shelf)),
    [items.rows, task.shelves],
  );
  const open = useMemo(
    () => stillOpen({ plan, missing, judgements: judging.judgements, result, former, items: ownItems, today }),
    [plan, missing, judging, result, former, ownItems, today],
  );
  const site = task.site === undefined ? task.siteText : (sites.rows.get(task.site)?.name ?? task.siteText);
  return (
    <div className="bw-front">
      <div className="bw-front-main">
        <div>
          <h1>{task.name}</h1>
          {site === undefined ? null : <p className="bw-second">{site}</p>}
        </div>
        <TouchedTable plan={plan} units={units} />
        <TaskFacts taskId={task.id} />
        <LeftOutNote leftOut={leftOut.filter(({ isFault }) => !isFault)} />
      </div>
      <div className="bw-front-side">
        <StillOpen points={open} judging={!judging.done} />
        <WhoHasWhat plan={plan} result={result} units={units} />
        <LastChanges recent={recent} />
      </div>
    </div>
  );
}

/** What stands on the shelves and is no part of the plan, so that nobody waits for it. */
function LeftOutNote({ leftOut }: { leftOut: readonly LeftOut[] }) {
  if (leftOut.length === 0) return null;
  return (
    <details className="bw-front-left-out">
      <summary>{countOf(leftOut.length, 'item')} of the shelves not planned with</summary>
      <ul>
        {leftOut.slice(0, leftOutMost).map(({ id, code, reason }) => (
          <li key={id}>
            <span className="bw-code">{code}</span> {reason}
          </li>
        ))}
      </ul>
      {leftOut.length > leftOutMost ? <p>and {leftOut.length - leftOutMost} more</p> : null}
    </details>
  );
}

function StillOpen({ points, judging }: { points: readonly OpenPoint[]; judging: boolean }) {
  return (
    <section className="bw-front-card" aria-labelledby="still-open">
      <h2 id="still-open">
        Still open{' '}
        <span className="bw-second">{judging ? 'the steps are being judged' : countOf(points.length, 'point')}</span>
      </h2>
      {points.length === 0 ? (
        <p className="bw-second">
          {judging ? 'Nothing so far.' : 'Nothing: every step is reached and every bag is planned.'}
        </p>
      ) : (
        <ul className="bw-front-open">
          {points.slice(0, shownMost).map(({ id, mark, word, what, detail, to, toName }) => (
            <li key={id}>
              <StateMark state={mark} text={word} />
              <div>
                <div className="bw-front-what">{what}</div>
                <div className="bw-second">{detail}</div>
              </div>
              <a className="bw-front-to" href={placeAddress(to)} aria-label={`${toName}: ${what}`}>
                {toName}
              </a>
            </li>
          ))}
        </ul>
      )}
      {points.length <= shownMost ? null : (
        <p className="bw-second">{points.length - shownMost} more; the sheets of the job line show them all.</p>
      )}
    </section>
  );
}

function WhoHasWhat({ plan, result, units }: { plan: ResolvedPlan; result: KeptResult | null; units: UnitsShown }) {
  const shares = sharesOf(plan);
  return (
    <section className="bw-front-card" aria-labelledby="who-has-what">
      <h2 id="who-has-what">Who has what</h2>
      {shares.length === 0 ? (
        <p className="bw-second">
          No outing yet. <a href={placeAddress({ at: 'outings' })}>Add an outing</a> and its roles.
        </p>
      ) : (
        <div className="bw-front-scroll" tabIndex={0} role="region" aria-label="Who has what, as a table">
          <table className="bw-front-table">
            <thead>
              <tr>
                <th scope="col">Role</th>
                {plan.outings.map((outing) => (
                  <th key={outing.id} scope="col">
                    {outing.name}
                    <div className="bw-second">
                      {showNumber(outingMinutes(plan, outing))}
                      {outing.minutesMax === null ? '' : ` of ${showNumber(outing.minutesMax)}`} min
                    </div>
                  </th>
                ))}
                <th scope="col">Carries at most</th>
              </tr>
            </thead>
            <tbody>
              {shares.map(({ role, outings }) => {
                const massKg = result === null ? null : carriedBy(plan, role, result);
                return (
                  <tr key={role}>
                    <th scope="row">{role}</th>
                    {outings.map(({ id, steps, minutes }) => (
                      <td key={id}>
                        {steps.length === 0 ? (
                          <span className="bw-second">stands by</span>
                        ) : (
                          <>
                            {numbersText(steps)}
                            <div className="bw-second">{showNumber(minutes)} min on steps</div>
                          </>
                        )}
                      </td>
                    ))}
                    <td>
                      {result === null ? (
                        <span className="bw-second">not planned</span>
                      ) : massKg === null ? (
                        <span className="bw-second">no bag of its own</span>
                      ) : (
                        amountText(massKg, 'kg', units)
                      )}
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

function LastChanges({ recent }: { recent: readonly EntryHead[] }) {
  return (
    <section className="bw-front-card" aria-labelledby="last-changes">
      <h2 id="last-changes">
        Last changes <span className="bw-second">of everything kept here</span>
      </h2>
      {recent.length === 0 ? (
        <p className="bw-second">Nothing has been changed yet.</p>
      ) : (
        <ul className="bw-front-changes">
          {recent.slice(0, changesShown).map(({ seq, utc, user, title, action, clockWentBack }) => (
            <li key={seq}>
              <span>{claimedTime(utc)}</span>
              <span>{user === '' ? 'not named' : user}</span>
              <span>
                {deedText({ action, title })}
                {clockWentBack ? ' (the clock had been set back)' : ''}
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** Day and clock in this machine's zone. */
function claimedTime(utc: string): string {
  const at = new Date(utc);
  return at.toLocaleString('sv-SE', { dateStyle: 'short', timeStyle: 'short' });
}
