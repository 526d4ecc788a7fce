import type { BagStep } from '../../../../../shared-types/bag.ts';
import type { LossReason } from '../../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan, ResolvedStep } from '../../../plan/resolved.ts';
import { stepName } from '../../unplaceable.ts';
import type { ReasonsOptions } from '../ask.ts';
import { asFarAsTimeGoes, askToTheEnd, noWishes } from '../ask.ts';
import { oneOuting, wishesOn, withOnHand } from '../derived.ts';
import { nearestText } from './sentences.ts';

/**
 * The losses which a step of an outing does not survive even by itself: without that one piece (or without that bag)
 * the whole stock has no stack for it. For each, what comes nearest to a second stack.
 *
 * A piece whose loss is not survived is in every stack of its step, so those of any one stack are all there is to try.
 * Steps that ask the same are asked once.
 *
 * @returns loss after loss in the order of the steps; where a question runs out of time, those found until then
 */
export async function lossesNotSurvived(
  plan: ResolvedPlan,
  outing: string,
  options: ReasonsOptions,
): Promise<LossReason[]> {
  const { tolerance = 'nothing' } = options;
  if (tolerance === 'nothing') return [];
  const alone = oneOuting(plan, outing);
  const known = new Map<string, Lost[]>();
  const losses: LossReason[] = [];
  await asFarAsTimeGoes(async () => {
    for (const step of alone.steps) {
      if (step.action === 'use') continue;
      const key = askedOf(step);
      const lost = known.get(key) ?? (await lostBy(alone, step, options));
      known.set(key, lost);
      for (const { what, closest } of lost) {
        const name = 'piece' in what ? `one ${what.piece}` : `bag ${what.bag}`;
        const nearest = nearestText(closest);
        const second = nearest === '' ? 'nothing comes near a second stack' : `for a second stack ${nearest}`;
        const reason = `${stepName(step)}: does not survive the loss of ${name}; ${second}`;
        losses.push({ outing, step: step.id, lost: what, closest, reason });
      }
    }
  });
  return losses;
}

interface Lost {
  what: LossReason['lost'];
  closest: LossReason['closest'];
}

async function lostBy(plan: ResolvedPlan, step: ResolvedStep, options: ReasonsOptions): Promise<Lost[]> {
  // After a loss the gear is not asked for, and steps of one slot run one after another.
  const bare = { ...plan, steps: [{ ...step, gear: [], moves: [], slot: null }] };
  const { forbid } = wishesOn(options.wishes ?? noWishes, step.outing);
  const asking: ReasonsOptions = {
    ...options,
    tolerance: 'nothing',
    wishes: { ...noWishes, forbid },
  };
  const whole = await askToTheEnd(bare, asking);
  const used = whole.result.outings[0]?.steps[0];
  if (!whole.total || !used) return [];
  const losses = options.tolerance === 'bag' ? withoutBags(bare) : withoutPieces(bare, used);
  const lost: Lost[] = [];
  for (const { what, left } of losses) {
    const { outcome, result } = await askToTheEnd(left, asking);
    if (outcome !== 'infeasible') continue;
    // Without any bag nothing comes near; what has no bag at all is said by the loss itself.
    const bagless = left.outings.every(({ bags }) => bags.length === 0);
    lost.push({ what, closest: bagless ? [] : result.infeasible.flatMap(({ closest }) => closest) });
  }
  return lost;
}

/** A loss with what is left of the plan. */
interface Loss {
  what: LossReason['lost'];
  left: ResolvedPlan;
}

function withoutPieces(plan: ResolvedPlan, { stack, hold }: BagStep): Loss[] {
  return [...new Set([...stack, ...(hold ?? [])])].map((piece) => {
    return { what: { piece }, left: withOnHand(plan, piece, (plan.carried.get(piece)?.onHand ?? 1) - 1) };
  });
}

function withoutBags(plan: ResolvedPlan): Loss[] {
  return plan.outings.flatMap((outing) =>
    outing.bags.map((bag) => {
      const bags = outing.bags.filter((id) => id !== bag);
      return { what: { bag }, left: { ...plan, outings: [{ ...outing, bags }] } };
    }),
  );
}

/** What a step asks of a stack, without what tells it from its like. */
function askedOf({ action, role, fastener, demandNm, aim, access, hold, shown }: ResolvedStep): string {
  const head = (of: ResolvedStep['fastener']): unknown => of && [of.headForm, of.acrossFlats];
  const held = hold && [head(hold.fastener), hold.access];
  return JSON.stringify([action, role, head(fastener), demandNm, aim, access, held, shown]);
}
