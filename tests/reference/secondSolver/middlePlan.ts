/**
 * Middle-sized plans for the second solver: 6 to 20 steps, 30 to 100 items, everything mixed. Half of them are bent
 * until limits bind: bags shrunk, stock taken away, a stack's part forbidden; some are then infeasible.
 */
import type { Plan } from '../../../shared-types/plan.ts';
import type { Ask } from '../ask.ts';
import { dice as diceOf } from '../dice.ts';
import type { Dice } from '../dice.ts';
import { buildTask } from '../tasks/generateTask.ts';
import type { SizeCounts } from '../tasks/generateTask.ts';

export interface MiddlePlan {
  seed: number;
  plan: Plan;
  options: Ask;
}

/** Losses multiply what a plain model writes down, so their plans are the smaller ones. */
function sizeFor(dice: Dice, tolerance: Ask['tolerance']): SizeCounts {
  const large = tolerance === 'nothing' && dice.chance(0.2);
  const steps = tolerance === 'nothing' ? dice.whole(8, large ? 20 : 14) : dice.whole(6, tolerance === 'piece' ? 7 : 9);
  const sockets = tolerance === 'nothing' ? (large ? dice.whole(45, 68) : dice.whole(24, 40)) : dice.whole(20, 24);
  return {
    steps,
    interfaces: Math.max(2, Math.round(steps * 0.4)),
    stock: {
      sockets,
      extensions: large ? dice.whole(8, 12) : dice.whole(4, tolerance === 'nothing' ? 6 : 4),
      drivers: large ? dice.whole(6, 9) : dice.whole(3, tolerance === 'nothing' ? 5 : 3),
      torqueTools: large ? dice.whole(6, 9) : dice.whole(3, tolerance === 'nothing' ? 5 : 4),
    },
    heads: large ? 8 : dice.whole(3, 5),
    squares: 2,
    outings: [1, 1, 2],
  };
}

function shrinkBags(dice: Dice, plan: Plan): void {
  for (const bag of plan.catalog.bags) {
    if (bag.massMax !== undefined && dice.chance(0.7)) {
      bag.massMax = `${Math.ceil(Number.parseFloat(bag.massMax) * dice.pick([0.08, 0.15, 0.25, 0.4, 0.6]))} g`;
    }
    if (dice.chance(0.3)) bag.itemsMax = dice.whole(6, 24);
    if (dice.chance(0.3)) bag.tetherPoints = dice.whole(1, 8);
    if (dice.chance(0.2)) bag.sizeMax = `${dice.pick([260, 320, 420])} mm`;
  }
}

function takeAway(dice: Dice, plan: Plan): void {
  const { sockets, extensions, drivers, torqueTools } = plan.catalog;
  for (const item of [...sockets, ...extensions, ...drivers, ...torqueTools]) {
    if (item.onHand > 1 && dice.chance(0.35)) item.onHand -= 1;
  }
}

export function middlePlan(seed: number): MiddlePlan {
  const dice = diceOf(seed + 0.75e9);
  const tolerance = dice.pick(['nothing', 'nothing', 'nothing', 'piece', 'piece', 'bag'] as const);
  const task = buildTask(dice, sizeFor(dice, tolerance), { structured: dice.chance(0.75), tolerance });
  const { plan, ask, witness } = task;
  if (dice.chance(0.5)) {
    if (dice.chance(0.7)) shrinkBags(dice, plan);
    if (dice.chance(0.4)) takeAway(dice, plan);
    const used = witness.flatMap(({ stack }) => stack);
    if (dice.chance(0.3) && used.length > 0) {
      const id = dice.pick(used);
      if (!ask.keep.some((one) => one.id === id)) ask.forbid.push({ id });
    }
  }
  return { seed, plan, options: ask };
}
