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
 * costs as much as with it, none of the list binds. Where it costs less, the answer goes beyond some of the list: where
 * beyond one alone, that one binds, with that cost; where beyond several, each is lifted by itself. Then the rest.
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
  const lifted: Lift = async (list) => {
    const without = relaxed(
      base,
      list.map(({ limit }) => limit),
    );
    const { total, result: answer } = await ask(without.plan, { ...options, wishes: without.wishes });
    const [after] = total ? answer.outings : [];
    const measured = after ? limitsOf(base.plan, outing.id, wishes, after) : [];
    const beyond = new Set(measured.filter(mayBeBeyond).map(({ limit }) => JSON.stringify(limit)));
    return { total, beyond: list.filter(({ limit }) => beyond.has(JSON.stringify(limit))) };
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
  const together = await minimalPart(all, async (list) => changes(before, (await lifted(list)).total) === true);
  const total = together && together.length > 1 ? (await lifted(together)).total : null;
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

/** What an outing costs without some limits, and which of these its answer then goes beyond, or may. */
type Lift = (list: readonly MeasuredLimit[]) => Promise<{ total: Proven | null; beyond: MeasuredLimit[] }>;

async function verdicts(
  list: readonly MeasuredLimit[],
  before: Proven,
  lifted: Lift,
): Promise<Map<MeasuredLimit, Verdict>> {
  if (list.length === 0) return new Map();
  const { total, beyond } = await lifted(list);
  const binds = changes(before, total);
  if (binds === false || list.length === 1) return new Map(list.map((one) => [one, { binds, total }]));
  const first = binds === true && beyond.length > 0 ? beyond : list.slice(0, Math.ceil(list.length / 2));
  const rest = list.filter((one) => !first.includes(one));
  const [one] = first;
  const known = binds === true && beyond.length === 1 && one ? new Map([[one, { binds, total }]]) : null;
  return new Map([...(known ?? (await parts(first, before, lifted))), ...(await verdicts(rest, before, lifted))]);
}

/** Few limits each by itself, many in halves. */
async function parts(
  list: readonly MeasuredLimit[],
  before: Proven,
  lifted: Lift,
): Promise<Map<MeasuredLimit, Verdict>> {
  if (list.length > fewLimits) {
    const middle = Math.ceil(list.length / 2);
    const [early, late] = [list.slice(0, middle), list.slice(middle)];
    return new Map([...(await verdicts(early, before, lifted)), ...(await verdicts(late, before, lifted))]);
  }
  const each: [MeasuredLimit, Verdict][] = [];
  for (const one of list) {
    const { total } = await lifted([one]);
    each.push([one, { binds: changes(before, total), total }]);
  }
  return new Map(each);
}

const fewLimits = 8;

/** Of slots and spares an answer does not show whether it keeps to them. */
function mayBeBeyond({ limit, allowed, used }: MeasuredLimit): boolean {
  if (limit.kind === 'slot' || limit.kind === 'spares' || allowed === null || used === null) return true;
  return limit.kind === 'keep' ? used < allowed : !atLeast(allowed, used);
}

/** Whether it costs less than before; null where neither is proven. */
function changes(before: Proven, after: Proven | null): boolean | null {
  if (!after) return null;
  if (atLeast(after.bound, before.value)) return false;
  return atLeast(after.value, before.bound) ? null : true;
}
