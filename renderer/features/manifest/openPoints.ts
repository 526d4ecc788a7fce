import type { BagOuting, BagResult, PlanProblem, Unchecked } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { otherWaysOf, otherWayText } from '../../engine/stack/otherWay.ts';
import { showNumber } from '../../engine/units/index.ts';
import { countOf, itemName, placeText } from '../steps/words.ts';
import type { StepNumbers } from './stepNumbers.ts';

const ruleWords: Record<string, string> = {
  clearDiameter: 'Clearance not checked, no clear diameter is given',
  swingDeg: 'Swing not checked, no free angle is given',
  handleRadius: 'Room for the lever not checked, no lever length is given',
  sizeMax: 'Longest dimension not checked against the bag, no size is given',
};

/** What no rule could judge, so that silence is not taken for a pass. */
export function uncheckedTexts(
  result: BagResult,
  stepIds: ReadonlySet<string>,
  itemIds: ReadonlySet<string>,
  numbers: StepNumbers,
): string[] {
  const texts = result.unchecked.flatMap((entry) => {
    const text = uncheckedText(entry, stepIds, itemIds, numbers);
    return text === null ? [] : [text];
  });
  if (result.ignoredFields.length > 0) {
    texts.push(`Fields of the plan that no rule knows, read past: ${result.ignoredFields.join(', ')}`);
  }
  return texts;
}

function uncheckedText(
  entry: Unchecked,
  stepIds: ReadonlySet<string>,
  itemIds: ReadonlySet<string>,
  numbers: StepNumbers,
): string | null {
  const steps = (entry.steps ?? []).filter((id) => stepIds.has(id));
  const items = (entry.items ?? []).filter((id) => itemIds.has(id));
  const named = entry.steps !== undefined || entry.items !== undefined;
  if (named && steps.length === 0 && items.length === 0) return null;
  const at = [
    ...(steps.length === 0 ? [] : [`${steps.length === 1 ? 'step' : 'steps'} ${numbers.text(steps)}`]),
    ...(items.length === 0 ? [] : [`${countOf(items.length, 'item')}: ${items.join(', ')}`]),
  ];
  return [ruleWords[entry.rule] ?? entry.rule, ...at].join('; ');
}

export function problemText(plan: ResolvedPlan, problem: PlanProblem, numbers: StepNumbers): string {
  const { rule, id, quantity, place, step } = problem;
  if (rule === 'over-time') return `Over time: ${showNumber(quantity)} min too long`;
  const what = `${quantity} × ${id} ${itemName(plan, id)}`;
  const where = place === undefined ? '' : ` at ${placeText(plan, place)}`;
  const when = step === undefined ? '' : `, step ${numbers.of(step)}`;
  return rule === 'not-there'
    ? `Not there: ${what}${where} where it is needed${when}`
    : `Left behind: ${what}${where}, nobody brings it home; last moved${when}`;
}

/** Torque tools that measure the other way than a step's thread tightens, or are not said to measure it. */
export function otherWayTexts(plan: ResolvedPlan, outing: BagOuting, numbers: StepNumbers): string[] {
  return otherWaysOf(plan, outing).map(
    ({ step, way }) =>
      `${way.measures === null ? 'Direction not given' : 'Measures the other way'}: step ${numbers.of(step.id)}, ${otherWayText(way)}`,
  );
}
