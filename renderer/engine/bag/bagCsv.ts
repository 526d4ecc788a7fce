import type { BagResult, Unchecked } from '../../../shared-types/bag.ts';
import type { BagReasons } from '../../../shared-types/bagReasons.ts';
import { courseOf } from '../outing/course.ts';
import { courseLines } from '../outing/courseText.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { csvText } from '../sheet/csvText.ts';
import { askedLines } from './askedText.ts';
import { headingText, problemText } from './bagText.ts';
import { figuresBasis, stepTorqueText } from './figuresBasis.ts';
import { reasonLines } from './reasons/reasonLines.ts';

const fields = [
  'kind',
  'outing',
  'step',
  'bag',
  'item',
  'name',
  'pieces',
  'massEachKg',
  'neededAtSteps',
  'says',
] as const;

type Row = Partial<Record<(typeof fields)[number], string | number | null>>;

/**
 * The answer as CSV (RFC 4180): first what it is worth and what was asked of it, then a line for each item and bag, one for the torque of each step, then
 * whatever cannot be done or is wrong with the plan, the reasons where they are asked for, how the outings run, what the figures rest on, and what was not checked. Texts that a spreadsheet would run are made harmless with an apostrophe.
 */
export function bagCsv(
  plan: ResolvedPlan,
  result: BagResult,
  reasons?: BagReasons,
  course = courseOf(plan, result.outings),
): string {
  const rows: Row[] = [
    { kind: 'result', says: headingText(result) },
    ...askedLines(result).map((says): Row => ({ kind: 'asked', says })),
    ...result.outings.flatMap((outing) =>
      outing.items.map((item): Row => {
        const piece = plan.carried.get(item.id);
        return {
          kind: 'item',
          outing: outing.id,
          bag: item.bag,
          item: item.id,
          name: piece?.name ?? item.id,
          pieces: item.quantity,
          massEachKg: piece?.massKg ?? null,
          neededAtSteps: item.because.join(' '),
        };
      }),
    ),
    ...result.outings.flatMap((outing) =>
      outing.steps.flatMap(({ id, setting }): Row[] => {
        const set = setting === null ? [] : [`set ${setting.value} ${setting.unit}`];
        const says = [...set, stepTorqueText(plan, id)].filter((text) => text !== '').join('; ');
        return says === '' ? [] : [{ kind: 'torque', outing: outing.id, step: id, says }];
      }),
    ),
    ...result.infeasible.map(({ outing, step, reason }): Row => {
      return { kind: 'infeasible', outing: outing ?? null, step: step ?? null, says: reason };
    }),
    ...result.problems.map((problem): Row => {
      return {
        kind: 'problem',
        outing: problem.outing,
        step: problem.step ?? null,
        item: problem.id,
        says: problemText(problem),
      };
    }),
    ...(reasons ? reasonLines(reasons, result.objective?.value ?? null) : []),
    ...courseLines(course).map((line): Row => ({ kind: 'course', ...line })),
    ...figuresBasis(plan).map((says): Row => ({ kind: 'basis', says })),
    ...result.unchecked.map((unchecked): Row => ({ kind: 'unchecked', says: uncheckedText(unchecked) })),
  ];
  return csvText(
    fields,
    rows.map((row) => fields.map((field) => row[field] ?? null)),
  );
}

function uncheckedText({ rule, steps = [], items = [] }: Unchecked): string {
  return `${rule}: ${[...steps, ...items].join(', ')}`;
}
