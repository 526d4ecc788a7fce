import type { CheckFailure, Infeasibility } from '../../../shared-types/bag.ts';
import type { Carried, ResolvedBag, ResolvedPlan, ResolvedStep, ShownUnits } from '../plan/resolved.ts';
import { closestFits } from '../stack/closestFits.ts';
import { holdMisses } from '../stack/judgeStep.ts';
import { pairInStock, pairMisses } from '../stack/pairs.ts';
import { apart, shownHead, shownLength, shownPieces } from '../stack/shown.ts';
import { holdTask, stackTask } from '../stack/stackTask.ts';
import type { Choice, OutingWork, StepGroup } from './outingWork.ts';
import { drawsFrom } from './outingWork.ts';

const inMillimetres: ShownUnits = { length: 'mm', torque: 'N·m' };
const choicesShown = 3;

/** What no bag and no stock can mend: steps without a stack, pieces that no bag takes, gear that is not there. */
export function unplaceable(plan: ResolvedPlan, work: OutingWork): Infeasibility[] {
  const steps = work.groups.flatMap((group) =>
    group.steps.flatMap((step) => stepWithoutStack(plan, group, step) ?? []),
  );
  const unpaired = work.groups.flatMap(stepWithoutPair);
  const unbagged = work.groups.flatMap((group) => stepWithoutBag(work, group));
  return [...steps, ...unpaired, ...unbagged, ...gearWithoutPlace(plan, work)];
}

/** A step by its id, thread and head, for a sentence. */
export function stepName(step: ResolvedStep): string {
  if (!step.fastener) return `step ${step.id}`;
  const { thread, headForm, acrossFlats } = step.fastener;
  return `step ${step.id} (${thread}, ${shownHead(headForm, acrossFlats)})`;
}

function stepWithoutStack(plan: ResolvedPlan, { stacks, holds }: StepGroup, step: ResolvedStep): Infeasibility | null {
  const task = stackTask(plan, step);
  if (!task || (stacks.length > 0 && holds?.length !== 0)) return null;
  const main = stacks.length > 0 ? [] : closestFits(plan, task);
  const held = holds?.length === 0 ? holdMisses(plan, holdTask(plan, step), stacks[0]?.ids ?? null) : [];
  const closest = [...main, ...held];
  const what =
    stacks.length > 0 ? 'nothing in the catalog holds against it' : 'no stack of the catalog passes every check';
  return {
    step: step.id,
    reason: `${stepName(step)}: ${what}${nearest(closest, toolless(plan, task.action))}`,
    closest,
  };
}

/** What leaves nothing near: with a tool and a socket some stack is, whatever it fails. */
function toolless(plan: ResolvedPlan, action: 'tighten' | 'loosen' | 'hold'): string {
  const tools = [...plan.tools.values()];
  if (action === 'tighten' && !tools.some((tool) => tool.torque)) return '; it holds no torque tool';
  if (action === 'loosen' && !tools.some((tool) => !tool.torque || tool.torque.loosens))
    return '; it holds nothing that may loosen';
  return '; it holds no socket';
}

function nearest(closest: Infeasibility['closest'], otherwise: string): string {
  const fails = closest[0]?.fails;
  if (!fails || fails.length === 0) return otherwise;
  return `; the nearest has ${fails.map(({ check, have, need }) => `${check} ${have}, needs ${need}`).join(' and ')}`;
}

/** Steps whose every stack, with every hold, asks for more of some piece than there is. */
function stepWithoutPair({ stacks, holds, steps }: StepGroup): Infeasibility[] {
  if (!holds || holds.length === 0 || stacks.length === 0) return [];
  const [turning, holding] = [stacks.map(({ parts }) => parts), holds.map(({ parts }) => parts)];
  if (pairInStock(turning, holding)) return [];
  const closest = pairMisses(turning, holding);
  return steps.map((step) => ({
    step: step.id,
    reason: `${stepName(step)}: its stack and its hold need the same pieces at once${nearest(closest, '')}`,
    closest,
  }));
}

/** Steps whose every stack has a piece that none of their role's bags may hold. */
function stepWithoutBag(work: OutingWork, group: StepGroup): Infeasibility[] {
  const bags = work.bags.filter((bag) => drawsFrom(bag, group.role));
  return [group.stacks, group.holds].flatMap((list) => {
    if (!list || list.length === 0 || list.some((choice) => misfits(work, bags, choice).length === 0)) return [];
    const closest = list.slice(0, choicesShown).map((choice) => ({
      stack: choice.ids,
      fails: misfits(work, bags, choice).map((item) => noBag(work, bags, item)),
    }));
    return group.steps.map((step) => ({
      step: step.id,
      reason: `${stepName(step)}: no bag of ${group.role} or of nobody takes all of a stack${nearest(closest, '')}`,
      closest,
    }));
  });
}

function misfits(work: OutingWork, bags: readonly ResolvedBag[], { parts }: Choice): Carried[] {
  const pieces: Carried[] = [parts.tool, ...parts.extensions, parts.socket];
  return pieces.filter((item) => !bags.some((bag) => work.admits(bag, item)));
}

/** The longest thing that any of the bags it may lie in takes; no bag at all where none is for its role. */
function noBag(work: OutingWork, bags: readonly ResolvedBag[], item: Carried): CheckFailure {
  const lengths = bags.filter((bag) => work.admitsRole(bag, item)).flatMap((bag) => bag.sizeMaxMm ?? []);
  if (lengths.length === 0 || item.sizeMm === null) {
    return { check: 'bag', have: '0 bags', need: `1 bag of its role or of nobody for ${item.id}` };
  }
  const [have, need] = apart(Math.max(...lengths), item.sizeMm, (mm, digits) => shownLength(mm, inMillimetres, digits));
  return { check: 'bag', have: `room for ${have}`, need: `${need} for ${item.id}` };
}

function gearWithoutPlace(plan: ResolvedPlan, work: OutingWork): Infeasibility[] {
  return [...work.gear].flatMap(([id, quantity]) => {
    const item = plan.gear.get(id);
    if (!item) return [];
    const outing = work.outing.id;
    if (item.onHand < quantity) {
      const fails: CheckFailure[] = [{ check: 'stock', have: shownPieces(item.onHand), need: shownPieces(quantity) }];
      return [
        {
          outing,
          reason: `outing ${outing}: ${quantity} × ${id} needed, ${item.onHand} on hand`,
          closest: [{ stack: [], fails }],
        },
      ];
    }
    if (work.bags.some((bag) => work.admits(bag, item))) return [];
    const fails = [noBag(work, work.bags, item)];
    return [{ outing, reason: `outing ${outing}: no bag takes ${id}`, closest: [{ stack: [], fails }] }];
  });
}

/** Gear that is used up is not there a second time (rule 8). */
export function consumedBeyondStock(plan: ResolvedPlan, works: readonly OutingWork[]): Infeasibility[] {
  return [...plan.gear.values()].flatMap(({ id, consumed, onHand }) => {
    if (!consumed) return [];
    let total = 0;
    for (const { outing, gear } of works) {
      total += gear.get(id) ?? 0;
      if (total <= onHand || (gear.get(id) ?? 0) > onHand) continue;
      const fails: CheckFailure[] = [{ check: 'stock', have: shownPieces(onHand), need: shownPieces(total) }];
      const reason = `outing ${outing.id}: ${total} × ${id} used up by then, ${onHand} on hand`;
      return [{ outing: outing.id, reason, closest: [{ stack: [], fails }] }];
    }
    return [];
  });
}
