/**
 * What an answer says of an infeasible plan: some reason; every step that no stack of the stock serves is named; and
 * each check that a closest fit is said to fail, it fails.
 */
import type { BagResult, CheckName } from '../../shared-types/bag.ts';
import type { Plan } from '../../shared-types/plan.ts';
import { stockOn } from './ask.ts';
import type { Ask } from './ask.ts';
import type { BreakName } from './breaks.ts';
import { choicesOf } from './needs.ts';
import { failedRules, holdJob, pieceCounts, stackFromIds, stackIds, stepJob, withinStock } from './rules.ts';
import type { StackRuleName } from './rules.ts';
import type { Stock } from './stock.ts';
import type { Accuse } from './violation.ts';

/** The rules behind each name of a check; the others (hold, bag) are no matter of one stack. */
const rulesOfCheck: Partial<Record<CheckName, StackRuleName[]>> = {
  drive: ['drive'],
  opening: ['opening'],
  reach: ['reach'],
  clearance: ['clearance'],
  strength: ['strength'],
  accuracy: ['accuracy'],
  universal: ['universal'],
  swing: ['swing', 'handle'],
  protrusion: ['protrusion'],
};

function judgeClosest(
  plan: Plan,
  stock: Stock,
  ask: Ask,
  entry: BagResult['infeasible'][number],
  accuse: Accuse,
  broken?: BreakName,
): void {
  const step = plan.steps.find(({ id }) => id === entry.step);
  if (step === undefined) return;
  const own = stockOn(stock, ask, step.outing);
  const jobs = [stepJob(plan, step, broken), holdJob(plan, step, broken)].filter((job) => job !== null);
  for (const { stack: ids, fails } of entry.closest) {
    const stack = stackFromIds(stock, ids);
    if (stack === null) {
      accuse('closest', step.id, `${ids.join(' ')} is no stack`);
      continue;
    }
    if (fails.length === 0) accuse('closest', step.id, `${ids.join(' ')} fails nothing`);
    const failing = jobs.map((job) => failedRules(stack, job, broken));
    for (const { check } of fails) {
      const rules = rulesOfCheck[check];
      const holds = rules !== undefined && !failing.some((failed) => rules.some((rule) => failed.includes(rule)));
      if (holds) accuse('closest', step.id, `${ids.join(' ')} passes ${check}`);
      // Where a loss is to be stood, one of a kind is too few.
      const times = ask.tolerance === 'nothing' ? 1 : 2;
      const asked = new Map([...pieceCounts(stackIds(stack))].map(([id, count]) => [id, count * times]));
      if (check === 'stock' && step.hold === undefined && withinStock(own, asked)) {
        accuse('closest', step.id, `${ids.join(' ')} is in stock`);
      }
    }
  }
}

export function judgeInfeasible(
  plan: Plan,
  stock: Stock,
  ask: Ask,
  { result, accuse, broken }: { result: BagResult; accuse: Accuse; broken: BreakName | undefined },
): void {
  if (result.objective !== null) accuse('objective', 'plan', 'given for an infeasible plan');
  if (result.infeasible.length === 0) accuse('infeasible', 'plan', 'no reason given');
  const named = new Set(result.infeasible.map((entry) => entry.step));
  for (const step of plan.steps) {
    if (choicesOf(plan, stockOn(stock, ask, step.outing, broken), step, broken).length === 0 && !named.has(step.id)) {
      accuse('infeasible', step.id, 'no stack serves it, and it is not named');
    }
  }
  for (const entry of result.infeasible) judgeClosest(plan, stock, ask, entry, accuse, broken);
}
