/** The reference's own answer in the shape of the program's, so that its judge can be tried on it. */
import type { BagResult, Minimised } from '../../shared-types/bag.ts';
import type { Plan } from '../../shared-types/plan.ts';
import { askOf, stockOn } from './ask.ts';
import type { Ask } from './ask.ts';
import { leastBag } from './exhaustive.ts';
import { problemsOf } from './moves.ts';
import { choicesOf } from './needs.ts';
import { readStock } from './stock.ts';

export function referenceResult(plan: Plan, asked: Ask | Minimised): BagResult {
  const ask = askOf(asked);
  const { minimise } = ask;
  const { value, outings } = leastBag(plan, ask);
  const stock = readStock(plan);
  const unsized = [...stock.carried.values()].filter((item) => item.sizeMm === null).map((item) => item.id);
  const unserved = plan.steps.filter((step) => choicesOf(plan, stockOn(stock, ask, step.outing), step).length === 0);
  const reasons = unserved.map((step) => ({ step: step.id, reason: 'no stack', closest: [] }));
  const unit = ({ mass: 'kg', count: 'pieces', volume: 'L' } as const)[minimise];
  return {
    status: value === null ? 'infeasible' : 'optimal',
    objective: value === null ? null : { minimised: minimise, value, unit, bound: value, gap: 0 },
    outings,
    singleLoss: ask.tolerance === 'piece',
    tolerance: ask.tolerance,
    wishes: { keep: ask.keep, forbid: ask.forbid, spares: ask.spares },
    unchecked: unsized.length === 0 ? [] : [{ rule: 'sizeMax', items: unsized }],
    problems: problemsOf(plan),
    infeasible: value !== null ? [] : reasons.length > 0 ? reasons : [{ outing: 'any', reason: 'no bag', closest: [] }],
    ignoredFields: [],
  };
}
