import type { Infeasibility } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { closestFits } from '../stack/closestFits.ts';
import { holdMisses } from '../stack/judgeStep.ts';
import { holdTask, stackTask } from '../stack/stackTask.ts';
import { partsOf } from '../stack/ways.ts';
import type { Counts } from './counts.ts';
import type { OutingWork, StepGroup } from './outingWork.ts';
import { tableGroup } from './search/coverTable.ts';
import { fatalLosses } from './search/standing.ts';
import { stepName } from './unplaceable.ts';

/**
 * Steps that cannot be done after a loss even with everything on hand: the piece they cannot do without, and what comes
 * nearest to a second way. Of a whole bag that may be lost: that there is no other.
 */
export function lossFaults(plan: ResolvedPlan, work: OutingWork): Infeasibility[] {
  if (work.tolerance === 'bag') {
    if (work.bags.length > 1 || work.groups.length === 0) return [];
    const { id } = work.outing;
    const fails = [{ check: 'bag' as const, have: '1 bag', need: '2 bags' }];
    return [
      {
        outing: id,
        reason: `outing ${id}: with its only bag everything is lost, so no bag of it stands that`,
        closest: [{ stack: [], fails }],
      },
    ];
  }
  return work.groups.flatMap((group) => fatalPieces(group).flatMap((piece) => faultsOf(plan, group, piece)));
}

/** Of a group alone, with the whole stock. */
function fatalPieces(group: StepGroup): string[] {
  const parts = [...new Set([group.ways, ...(group.holds ? [group.holds] : [])].flatMap(partsOf))];
  const number = new Map(parts.map(({ id }, index) => [id, index]));
  const have = Int32Array.from(parts, ({ onHand }) => onHand);
  const supply = { have, used: new Int32Array(parts.length), cost: new Float64Array(parts.length).fill(1), most: have };
  return (fatalLosses(tableGroup({ number }, group), supply) ?? []).flatMap((index) => parts[index]?.id ?? []);
}

function faultsOf(plan: ResolvedPlan, { steps }: StepGroup, piece: string): Infeasibility[] {
  const less = planLess(plan, new Map([[piece, 1]]));
  return steps.map((step) => {
    const task = stackTask(less, step);
    const closest = task ? closestFits(less, task) : [];
    const held = holdMisses(less, holdTask(less, step), null);
    return {
      step: step.id,
      reason: `${stepName(step)}: nothing on hand does it once ${piece} is lost`,
      closest: closest.length > 0 ? closest : held,
    };
  });
}

/** A plan with fewer pieces on hand. */
function planLess(plan: ResolvedPlan, lost: Counts): ResolvedPlan {
  const less = <T extends { id: string; onHand: number }>(items: ReadonlyMap<string, T>): Map<string, T> =>
    new Map([...items].map(([id, item]) => [id, { ...item, onHand: Math.max(0, item.onHand - (lost.get(id) ?? 0)) }]));
  return {
    ...plan,
    tools: less(plan.tools),
    extensions: less(plan.extensions),
    sockets: less(plan.sockets),
    gear: less(plan.gear),
    carried: less(plan.carried),
  };
}
