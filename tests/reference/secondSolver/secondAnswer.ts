/** The least bag of a plan by a second solver on the plain model, its value added up again from the pieces. */
import type { Plan } from '../../../shared-types/plan.ts';
import type { Ask } from '../ask.ts';
import { costOf, ownBagCost } from '../limits.ts';
import { plainModel } from './plainModel.ts';
import type { PlainModel } from './plainModel.ts';
import type { Solver } from './solvers.ts';

/** In kg, pieces or litres, from whole pieces and the bags that hold some. */
export function readded({ lying, bags }: PlainModel, ask: Ask, values: readonly number[]): number {
  const pieces = ({ column }: { column: number }): number => Math.round(values[column] ?? 0);
  const inside = lying.reduce((sum, one) => sum + pieces(one) * costOf(one.item, ask.minimise), 0);
  const own = bags
    .filter(({ outing, bag }) => lying.some((one) => one.outing === outing && one.bag === bag && pieces(one) > 0))
    .reduce((sum, { bag }) => sum + ownBagCost(bag, ask.minimise), 0);
  return inside + own;
}

/** The least value, or null where no bag does. */
export function secondAnswer(plan: Plan, ask: Ask, solver: Solver): number | null {
  const model = plainModel(plan, ask);
  if (model === null) return null;
  if (model.program.columns.length === 0) return 0;
  const values = solver.solve(model.program);
  return values === null ? null : readded(model, ask, values);
}
