import type { CheckFailure, Infeasibility } from '../../../shared-types/bag.ts';
import type { Carried, ResolvedBag, ResolvedPlan, ResolvedStep, ShownUnits } from '../plan/resolved.ts';
import { closestFits } from '../stack/closestFits.ts';
import { holdMisses } from '../stack/judgeStep.ts';
import { lightestStacks } from '../stack/lightest.ts';
import { pairInStock, pairMisses } from '../stack/pairs.ts';
import { apart, shownHead, shownLength, shownPieces } from '../stack/shown.ts';
import { holdTask, stackIds, stackTask } from '../stack/stackTask.ts';
import { noWay, partsOf, restrictWays } from '../stack/ways.ts';
import type { ReducedWork } from './presolve/reduceWork.ts';
import type { OutingWork, StepGroup } from './outingWork.ts';
import { mostOf } from './counts.ts';
import { drawsFrom } from './outingWork.ts';

const inMillimetres: ShownUnits = { length: 'mm', torque: 'N·m' };
const choicesShown = 3;

/** What no bag and no stock can mend: steps without a stack, pieces that no bag takes, gear that is not there. */
export function unplaceable(plan: ResolvedPlan, work: OutingWork, reduced: ReducedWork): Infeasibility[] {
  if (reduced.all.every((group) => isPlaceable(work, group))) return gearWithoutPlace(plan, work);
  const steps = work.groups.flatMap((group) =>
    group.steps.flatMap((step) => stepWithoutStack(plan, group, step) ?? []),
  );
  const unpaired = work.groups.flatMap(stepWithoutPair);
  const unbagged = work.groups.flatMap((group) => stepWithoutBag(work, group));
  return [...steps, ...unpaired, ...unbagged, ...gearWithoutPlace(plan, work)];
}

/** Whether the pieces that are left to choose from make a stack, and a hold beside it, which some bags may hold. */
function isPlaceable(work: OutingWork, { ways, holds, role }: StepGroup): boolean {
  const bags = work.bags.filter((bag) => drawsFrom(bag, role));
  const fits = new Map<string, boolean>();
  for (const item of [ways, ...(holds ? [holds] : [])].flatMap(partsOf)) {
    if (!fits.has(item.id))
      fits.set(
        item.id,
        bags.some((bag) => work.admits(bag, item)),
      );
  }
  const placed = [ways, holds].map((one) => one && restrictWays(one, (id) => fits.get(id) === true));
  const [stack, hold] = placed;
  if (!stack || noWay(stack)) return false;
  return !holds || (!!hold && !noWay(hold) && pairInStock(ways, holds) !== null);
}

/** A step by its id, thread and head, for a sentence. */
export function stepName(step: ResolvedStep): string {
  if (!step.fastener) return `step ${step.id}`;
  const { thread, headForm, acrossFlats } = step.fastener;
  return `step ${step.id} (${thread}, ${shownHead(headForm, acrossFlats)})`;
}

function stepWithoutStack(plan: ResolvedPlan, { ways, holds }: StepGroup, step: ResolvedStep): Infeasibility | null {
  const task = stackTask(plan, step);
  const [first] = lightestStacks(ways, 1);
  const unheld = holds !== null && noWay(holds);
  if (!task || (first && !unheld)) return null;
  const main = first ? [] : closestFits(plan, task);
  const held = unheld ? holdMisses(plan, holdTask(plan, step), first ? stackIds(first) : null) : [];
  const closest = [...main, ...held];
  const what = first ? 'nothing in the catalog holds against it' : 'no stack of the catalog passes every check';
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
function stepWithoutPair({ ways, holds, steps }: StepGroup): Infeasibility[] {
  if (!holds || noWay(holds) || noWay(ways) || pairInStock(ways, holds)) return [];
  const closest = pairMisses(ways, holds);
  return steps.map((step) => ({
    step: step.id,
    reason: `${stepName(step)}: its stack and its hold need the same pieces at once${nearest(closest, '')}`,
    closest,
  }));
}

/** Steps whose every stack has a piece that none of their role's bags may hold. */
function stepWithoutBag(work: OutingWork, group: StepGroup): Infeasibility[] {
  const bags = work.bags.filter((bag) => drawsFrom(bag, group.role));
  const fits = (item: Carried): boolean => bags.some((bag) => work.admits(bag, item));
  return [group.ways, group.holds].flatMap((ways) => {
    if (!ways || noWay(ways)) return [];
    const misfitting = new Set(
      partsOf(ways)
        .filter((item) => !fits(item))
        .map(({ id }) => id),
    );
    if (misfitting.size === 0 || !noWay(restrictWays(ways, (id) => !misfitting.has(id)))) return [];
    const closest = lightestStacks(ways, choicesShown).map((parts) => ({
      stack: stackIds(parts),
      fails: [parts.tool, ...parts.extensions, parts.socket]
        .filter((item) => misfitting.has(item.id))
        .map((item) => noBag(work, bags, item)),
    }));
    return group.steps.map((step) => ({
      step: step.id,
      reason: `${stepName(step)}: no bag of ${group.role} or of nobody takes all of a stack${nearest(closest, '')}`,
      closest,
    }));
  });
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
  const outing = work.outing.id;
  const asked = mostOf([work.gear, work.keep]);
  return [...asked].flatMap(([id, quantity]) => {
    const item = plan.carried.get(id);
    if (!item) return [];
    const wish = quantity > (work.gear.get(id) ?? 0) ? 'to be kept' : 'needed';
    const fault = (fails: CheckFailure[], reason: string): Infeasibility[] => [
      { outing, reason: `outing ${outing}: ${reason}`, closest: [{ stack: [], fails }] },
    ];
    if (work.forbidden.has(id)) {
      const fails: CheckFailure[] = [{ check: 'stock', have: '0 pieces, forbidden', need: shownPieces(quantity) }];
      return fault(fails, `${quantity} × ${id} ${wish}, and forbidden`);
    }
    if (item.onHand < quantity) {
      const fails: CheckFailure[] = [{ check: 'stock', have: shownPieces(item.onHand), need: shownPieces(quantity) }];
      return fault(fails, `${quantity} × ${id} ${wish}, ${item.onHand} on hand`);
    }
    if (work.bags.some((bag) => work.admits(bag, item))) return [];
    return fault([noBag(work, work.bags, item)], `no bag takes ${id}`);
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
