import type { BagOuting, BagResult } from '../../../../shared-types/bag.ts';
import type { Limit, LimitReason, LimitsTogether, MeasuredLimit, Proven } from '../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../plan/resolved.ts';
import { atLeast } from '../../tolerance.ts';
import { objectiveUnit } from '../measure.ts';
import type { ReasonsOptions } from './ask.ts';
import { ask, exact, noWishes, outingTotal } from './ask.ts';
import { oneOuting, wishesOn } from './derived.ts';
import { limitsOf } from './limitsOf.ts';
import { minimalPart } from './minimalPart.ts';
import { relaxed } from './relaxed.ts';

export type LimitFound = { kind: 'limit'; found: LimitReason } | { kind: 'limitsTogether'; found: LimitsTogether };

/**
 * Which limits bind: those without which the answer costs less, each with what it then costs.
 *
 * Room to spare proves nothing, for another answer may have had none; so limits are lifted and the outing is planned
 * again. Lifting several can only make it cheaper than lifting any one of them: where the answer without all of a list
 * costs as much as with it, none of the list binds, and halves are looked into only where it costs less.
 *
 * Said of every limit of a bag, of the stock of what is packed, of slots and wishes, and of whatever else binds.
 *
 * @returns limit after limit, outing after outing; of each outing last those that bind only together
 */
export async function* bindingLimits(
  plan: ResolvedPlan,
  result: BagResult,
  options: ReasonsOptions,
): AsyncGenerator<LimitFound> {
  if (!result.objective) return;
  for (const outing of result.outings) yield* limitsOfOuting(plan, result, outing, options);
}

async function* limitsOfOuting(
  plan: ResolvedPlan,
  result: BagResult,
  outing: BagOuting,
  options: ReasonsOptions,
): AsyncGenerator<LimitFound> {
  const wishes = wishesOn(options.wishes ?? noWishes, outing.id);
  const base = { plan: oneOuting(plan, outing.id), wishes };
  const before = outingTotal(plan, result, outing, options.minimise);
  const all = limitsOf(plan, outing.id, wishes, outing).filter(({ limit }) => mayBind(plan, limit));
  const lifted = async (list: readonly MeasuredLimit[]): Promise<Proven | null> => {
    const without = relaxed(
      base,
      list.map(({ limit }) => limit),
    );
    return (await ask(without.plan, { ...options, wishes: without.wishes })).total;
  };

  const found = await verdicts(all, before, lifted);
  const objective = result.objective ?? before;
  const overall = ({ value, bound }: Proven): Proven => ({
    value: exact(objective.value - before.value + value),
    bound: exact(objective.bound - before.bound + bound),
  });
  const unit = objectiveUnit[options.minimise];
  const said = all.filter(
    (one) => one.limit.kind !== 'stock' || (one.used ?? 0) > 0 || found.get(one)?.binds !== false,
  );
  for (const one of said) {
    const { binds, total } = found.get(one) ?? { binds: null, total: null };
    yield {
      kind: 'limit',
      found: {
        ...one,
        binds,
        objectiveUnit: unit,
        relaxed: binds === false ? overall(before) : total && overall(total),
      },
    };
  }
  if ([...found.values()].some(({ binds }) => binds !== false)) return;
  const together = await minimalPart(all, async (list) => changes(before, await lifted(list)) === true);
  const total = together && together.length > 1 ? await lifted(together) : null;
  if (!together || !total) return;
  const limits = { outing: outing.id, limits: together, objectiveUnit: unit, relaxed: overall(total) };
  yield { kind: 'limitsTogether', found: limits };
}

/** How much gear is packed is fixed, so that its stock says whether there is an answer and not which. */
function mayBind(plan: ResolvedPlan, limit: Limit): boolean {
  return limit.kind !== 'stock' || plan.carried.get(limit.id)?.kind !== 'gear';
}

interface Verdict {
  binds: boolean | null;
  total: Proven | null;
}

async function verdicts(
  list: readonly MeasuredLimit[],
  before: Proven,
  lifted: (list: readonly MeasuredLimit[]) => Promise<Proven | null>,
): Promise<Map<MeasuredLimit, Verdict>> {
  if (list.length === 0) return new Map();
  const total = await lifted(list);
  const binds = changes(before, total);
  if (binds === false || list.length === 1) return new Map(list.map((one) => [one, { binds, total }]));
  const middle = Math.ceil(list.length / 2);
  const [early, late] = [list.slice(0, middle), list.slice(middle)];
  return new Map([...(await verdicts(early, before, lifted)), ...(await verdicts(late, before, lifted))]);
}

/** Whether it costs less than before; null where neither is proven. */
function changes(before: Proven, after: Proven | null): boolean | null {
  if (!after) return null;
  if (atLeast(after.bound, before.value)) return false;
  return atLeast(after.value, before.bound) ? null : true;
}
