import { useMemo, useState } from 'react';
import type { SecuringNeed } from '../../../shared-types/outing.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { CourseFollowed } from '../../workers/courseMessages.ts';
import { Assumed } from '../../components/Assumed/Assumed.tsx';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { goTo } from '../session/usePlace.ts';
import { countOf } from '../steps/words.ts';
import { pieceName, securedMarks, whereText } from './courseWords.ts';
import { countsOf, doneEntries, outRows, worstStep } from './looseRows.ts';
import { SecuringNeeds } from './SecuringNeeds.tsx';

export interface LoosePiecesProps {
  plan: ResolvedPlan;
  followed: CourseFollowed;
  /** Code of the outing. */
  outing: string;
  /** Whether its bags are planned. */
  planned: boolean;
  /** A step's number and name, as "4 Loosen the cover". */
  stepWords: (code: string) => { number: number; name: string };
}

const columns: GridColumn[] = [
  { key: 'number', label: 'No', width: '44px', end: true },
  { key: 'name', label: 'After step', width: 'minmax(0, 1fr)' },
  { key: 'held', label: 'Held', width: '56px', end: true, wideOnly: true },
  { key: 'tethered', label: 'Tethered', width: '72px', end: true, wideOnly: true },
  { key: 'bagged', label: 'Bagged', width: '64px', end: true, wideOnly: true },
  { key: 'set', label: 'Set down', width: '76px', end: true, wideOnly: true },
  { key: 'fixed', label: 'Fixed', width: '56px', end: true, wideOnly: true },
  { key: 'loose', label: 'Loose', width: '84px', end: true },
];

/** The loose-piece ledger: after every step, what is held, tethered, bagged, set down or fixed; and what is none of these. */
export function LoosePieces({ plan, followed, outing, planned, stepWords }: LoosePiecesProps) {
  const [asked, setAsked] = useState<string | null>(null);
  const entries = useMemo(() => doneEntries(followed.ledger.entries, outing), [followed, outing]);
  const first = useMemo(() => worstStep(entries), [entries]);
  const needs: readonly SecuringNeed[] = followed.ledger.needs.filter((need) => need.outing === outing);
  const inHand = entries.find(({ step }) => step === asked) ?? entries.find(({ step }) => step === first) ?? null;
  const rows = useMemo(
    () =>
      entries.map(({ step, rows: all }): GridRow => ({
        kind: 'row',
        id: step,
        cells: () => {
          const counts = countsOf(all);
          const { number, name } = stepWords(step);
          return {
            number: <span className="bw-second">{number}</span>,
            name: <span className="bw-step-name">{name}</span>,
            held: counts.held,
            tethered: counts.tethered,
            bagged: counts.bagged,
            set: counts['set-down'],
            fixed: counts.fixed,
            loose: counts.loose === 0 ? 'none' : <StateMark state="loose" text={String(counts.loose)} />,
          };
        },
      })),
    [entries, stepWords],
  );
  const out = inHand === null ? [] : outRows(inHand.rows);
  const counts = countsOf(inHand?.rows ?? []);
  const after = inHand === null ? null : stepWords(inHand.step);
  return (
    <section className="bw-course-part" aria-labelledby="outing-loose">
      <h2 id="outing-loose">Loose pieces</h2>
      {planned ? null : (
        <p className="bw-small">
          No bag is planned for this outing: where its tools are, and what tethers they need, is not known yet. Its gear
          and its fasteners are followed.
        </p>
      )}
      <div className="bw-outing-steps">
        <RowGrid
          label="What is kept how, after each step"
          columns={columns}
          rows={rows}
          selected={inHand?.step ?? null}
          onSelect={setAsked}
          onOpen={(step) => goTo({ at: 'steps', step })}
          empty="No step goes out on this outing yet: nothing is loose."
        />
      </div>
      {after === null ? null : (
        <>
          <h3>
            After step {after.number}, {after.name}
          </h3>
          {out.length === 0 ? (
            <p className="bw-small">Everything is in a bag or in its hole.</p>
          ) : (
            <div
              className="bw-task-scroll"
              tabIndex={0}
              role="group"
              aria-label="Pieces out, scrolls sideways where narrow"
            >
              <table className="bw-task-table">
                <caption className="bw-hidden">Out of its bag or its hole after step {after.number}</caption>
                <thead>
                  <tr>
                    <th scope="col" className="bw-end">
                      Pieces
                    </th>
                    <th scope="col">What</th>
                    <th scope="col">Where</th>
                    <th scope="col">Kept</th>
                  </tr>
                </thead>
                <tbody>
                  {out.map(({ id, kind, quantity, where, secured }, index) => (
                    <tr key={index}>
                      <td className="bw-end">{quantity}</td>
                      <td>{pieceName(plan, id, kind)}</td>
                      <td>{whereText(plan, where)}</td>
                      <td>
                        <StateMark
                          state={securedMarks[secured]}
                          {...(secured === 'bagged' ? { text: 'Bagged' } : {})}
                        />
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          )}
          <p className="bw-second bw-small">
            Besides: {countOf(counts.bagged, 'piece')} bagged and {counts.fixed} fixed, those listed above among them;{' '}
            {counts.used} used up.
          </p>
        </>
      )}
      <SecuringNeeds needs={needs} stepWords={stepWords} planned={planned} />
      {followed.ledger.assumptions.length === 0 ? null : (
        <details className="bw-course-details">
          <summary>Assumed over all outings: {followed.ledger.assumptions.length}</summary>
          <Assumed what={followed.ledger.assumptions} />
        </details>
      )}
    </section>
  );
}
