import type { BagOuting, BagResult, PlanProblem } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { otherWaysOf, otherWayText } from '../../engine/stack/otherWay.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { ClosestFits } from '../steps/ClosestFits.tsx';
import { countOf, itemName, numbersText, placeText } from '../steps/words.ts';

const outingName = (plan: ResolvedPlan, id: string): string =>
  plan.outings.find((outing) => outing.id === id)?.name ?? id;

function stepName(plan: ResolvedPlan, id: string | undefined): string {
  const index = plan.steps.findIndex((step) => step.id === id);
  return index < 0 ? '' : `step ${index + 1}, ${plan.steps[index]?.name ?? ''}`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function problemText(plan: ResolvedPlan, { rule, outing, step, id, quantity, place }: PlanProblem): string {
  if (rule === 'over-time') return `${outingName(plan, id)}: ${showNumber(quantity)} min too long`;
  const what = `${quantity} × ${itemName(plan, id)}`;
  const where = place === undefined ? '' : ` at ${placeText(plan, place)}`;
  const when = [outingName(plan, outing), stepName(plan, step)].filter((text) => text !== '').join(', ');
  return rule === 'not-there'
    ? `${what} is not there${where} (${when})`
    : `${what} stays${where}, nobody brings it home (last moved: ${when})`;
}

/** What the plan itself leaves open, whatever the bag. */
export function Problems({ plan, problems }: { plan: ResolvedPlan; problems: PlanProblem[] }) {
  if (problems.length === 0) return null;
  return (
    <section aria-labelledby="problems-heading">
      <h3 id="problems-heading">{countOf(problems.length, 'problem')} of the plan</h3>
      <ul className="bw-lines">
        {problems.map((problem, index) => (
          <li key={index}>
            <StateMark state={problem.rule} /> <span>{problemText(plan, problem)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Torque tools of the bag that measure the other way than a step's thread tightens, or are not said to: no rule of the planner asks. */
export function OtherWays({ plan, outings }: { plan: ResolvedPlan; outings: readonly BagOuting[] }) {
  const found = outings.flatMap((outing) => otherWaysOf(plan, outing));
  if (found.length === 0) return null;
  return (
    <section aria-labelledby="other-ways-heading">
      <h3 id="other-ways-heading">Which way the torque tools measure</h3>
      <ul className="bw-lines">
        {found.map(({ step, way }) => (
          <li key={step.id}>
            {way.measures === null ? (
              <StateMark state="indeterminate" text="Direction not given" />
            ) : (
              <StateMark state="other-way" />
            )}{' '}
            <span>
              {capital(stepName(plan, step.id))}: {otherWayText(way)}.
              {way.measures === null ? '' : ` Plan again with ${way.tool} forbidden; its card gives no setting.`}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

const uncheckedWords: Record<string, string> = {
  clearDiameter: 'Passes: no clear diameter is given',
  swingDeg: 'Swings: no free angle is given',
  handleRadius: 'Room for the handle: the tool’s lever is not given',
  sizeMax: 'Longest size: the item’s size is not given',
};

function numbersOf(plan: ResolvedPlan, ids: string[]): string {
  const wanted = new Set(ids);
  return numbersText(plan.steps.flatMap(({ id }, index) => (wanted.has(id) ? [index + 1] : [])));
}

/** What no rule could judge, so that silence is not taken for a pass. */
export function UncheckedList({ plan, result }: { plan: ResolvedPlan; result: BagResult }) {
  const { unchecked, ignoredFields } = result;
  if (unchecked.length === 0 && ignoredFields.length === 0) return null;
  return (
    <section aria-labelledby="unchecked-heading">
      <h3 id="unchecked-heading">Not checked</h3>
      <ul className="bw-lines">
        {unchecked.map(({ rule, steps = [], items = [] }) => (
          <li key={rule}>
            <b>{uncheckedWords[rule] ?? rule}</b>
            <span>
              {[
                ...(steps.length > 0 ? [`${steps.length === 1 ? 'step' : 'steps'} ${numbersOf(plan, steps)}`] : []),
                ...(items.length > 0 ? [items.map((id) => itemName(plan, id)).join(', ')] : []),
              ].join(' · ') || 'the whole plan'}
            </span>
          </li>
        ))}
        {ignoredFields.length === 0 ? null : (
          <li>
            <b>fields no rule knows</b> <span className="bw-code">{ignoredFields.join(', ')}</span>
          </li>
        )}
      </ul>
    </section>
  );
}

/** A reason as the engine words it, with the name beside each id of an item or a bag. */
export function withNames(plan: ResolvedPlan, reason: string): string {
  return reason.replaceAll(/[^\s,;:()+]+/g, (word) => {
    const name = plan.carried.get(word)?.name ?? plan.bags.get(word)?.name;
    return name === undefined || name === word ? word : `${word} (${name})`;
  });
}

/** Why no bag does it: the steps or limits at fault, each with what comes closest. */
export function Infeasible({ plan, result, units }: { plan: ResolvedPlan; result: BagResult; units: UnitsShown }) {
  return (
    <>
      {result.infeasible.map(({ step, outing, reason, closest }, index) => (
        <section key={index} className="bw-fault" aria-label={`Fault ${index + 1}`}>
          <h3>{step === undefined ? outingName(plan, outing ?? '') : capital(stepName(plan, step))}</h3>
          <p>{withNames(plan, reason)}</p>
          {closest.length === 0 ? null : <ClosestFits plan={plan} fits={closest} units={units} />}
        </section>
      ))}
    </>
  );
}
