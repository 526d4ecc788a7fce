/**
 * Realistic tasks from a seed, in three sizes, for measuring the planner and for comparing it with other solvers. All of
 * it is invented.
 *
 * | size | steps | distinct interfaces | items | head sizes | squares |
 * | --- | --- | --- | --- | --- | --- |
 * | small | 20 | 8 | 100 | 10 | 3 |
 * | middle | 60 | 16 | 500 | 26 | 4 |
 * | large | 200 | 40 | 2,000 | all | 4 |
 *
 * Items are catalog entries of sockets, extensions, drivers and torque tools; carry gear and bags come on top.
 *
 * Structured: the stock is a draw from families (6 and 12 points, regular and deep, thin and stout walls, inch and
 * millimetre sizes, keys, lobes; extensions, universal joints and adapters; ratchets, breakers, T-handles; torque tools
 * of overlapping ranges; each in several squares and series), and a place of work is loosened and later tightened by
 * several steps. Unstructured: every item has dimensions of its own and every step its own access and torque.
 *
 * Every step is drawn around a stack of the stock, stock is added where these stacks need more than there is, and a bag
 * without role has room for all of them twice; so every task is feasible, also with any one piece lost, and, where the
 * ask is so, with any one bag lost.
 */
import type { Tolerance } from '../../../shared-types/bag.ts';
import type { Plan } from '../../../shared-types/plan.ts';
import type { Ask } from '../ask.ts';
import { dice as diceOf } from '../dice.ts';
import type { Dice } from '../dice.ts';
import { familyStock, shuffled } from './families.ts';
import type { StockCounts } from './families.ts';
import { bar, catalogOf } from './items.ts';
import type { GearItem, Item, TaskStock } from './items.ts';
import { headSizes, squares, suits } from './sizes.ts';
import { drawBags, mendGear, mendStock } from './taskBags.ts';
import { drawSteps, FastenerList, piecesOf } from './taskSteps.ts';
import type { DrawnStep } from './taskSteps.ts';
import { unalikeStock } from './unalikeStock.ts';
import { NoWorkError } from './witness.ts';

export type TaskSize = 'small' | 'middle' | 'large';

export interface TaskAsked {
  seed: number;
  size: TaskSize;
  structured: boolean;
  /** Drawn by the seed where it is not said; the bags are drawn so that it can be stood. */
  tolerance?: Tolerance;
}

export interface GeneratedTask extends TaskAsked {
  plan: Plan;
  ask: Ask;
  /** For each step that turns something, stacks that do it. */
  witness: { step: string; stack: string[]; hold: string[] | null }[];
}

export interface SizeCounts {
  steps: number;
  interfaces: number;
  stock: StockCounts;
  heads: number;
  squares: number;
  outings: number[];
}

export const taskSizes: Record<TaskSize, SizeCounts> = {
  small: {
    steps: 20,
    interfaces: 8,
    stock: { sockets: 70, extensions: 14, drivers: 8, torqueTools: 8 },
    heads: 10,
    squares: 3,
    outings: [1, 1, 2],
  },
  middle: {
    steps: 60,
    interfaces: 16,
    stock: { sockets: 400, extensions: 44, drivers: 28, torqueTools: 28 },
    heads: 26,
    squares: 4,
    outings: [1, 2, 2],
  },
  large: {
    steps: 200,
    interfaces: 40,
    stock: { sockets: 1740, extensions: 110, drivers: 75, torqueTools: 75 },
    heads: headSizes.length,
    squares: 4,
    outings: [1, 2, 3],
  },
};

const gearNames = ['cap', 'seal', 'tag', 'line', 'pad', 'cover', 'clip', 'lamp'];

function drawGear(dice: Dice): GearItem[] {
  return gearNames.map((name, index) => {
    const lengthMm = dice.whole(30, 160);
    return {
      id: `gear-${name}`,
      ...bar(dice.whole(15, 40), lengthMm, 0.08),
      sizeMm: lengthMm,
      tethers: 0,
      onHand: 2,
      consumed: index < 3,
    };
  });
}

/** Wishes that leave the task feasible: what is forbidden is in no witness, what is kept is on hand. */
function drawAsk(dice: Dice, stock: TaskStock, drawn: readonly DrawnStep[], tolerance?: Tolerance): Ask {
  const witness = new Set(drawn.flatMap(piecesOf));
  const parts: Item[] = [...stock.sockets, ...stock.extensions, ...stock.tools];
  const usedGear = stock.gear.filter(({ id }) => drawn.some(({ step }) => step.gear?.some((one) => one.id === id)));
  const drawnTolerance = dice.pick(['nothing', 'nothing', 'nothing', 'piece', 'piece', 'bag'] as const);
  return {
    minimise: dice.pick(['mass', 'mass', 'mass', 'count', 'volume'] as const),
    tolerance: tolerance ?? drawnTolerance,
    keep: shuffled(dice, parts)
      .slice(0, dice.pick([0, 0, 1, 2]))
      .map(({ id }) => ({ id, quantity: 1 })),
    forbid: shuffled(
      dice,
      parts.filter((one) => !witness.has(one)),
    )
      .slice(0, dice.pick([0, 0, 1, 4]))
      .map(({ id }) => ({ id })),
    spares: shuffled(dice, usedGear)
      .slice(0, dice.pick([0, 0, 1]))
      .map(({ id }) => ({ id, quantity: dice.pick([1, 2]) })),
  };
}

/** What is kept is not forbidden. */
const consistent = (ask: Ask): Ask => ({
  ...ask,
  keep: ask.keep.filter(({ id }) => !ask.forbid.some((one) => one.id === id)),
});

/** A task of any size from given dice; a stock that does no work at all is drawn anew. */
export function buildTask(
  dice: Dice,
  counts: SizeCounts,
  asked: { structured: boolean; tolerance?: Tolerance },
): Pick<GeneratedTask, 'plan' | 'ask' | 'witness'> {
  for (;;) {
    try {
      return drawTask(dice, counts, asked);
    } catch (error) {
      if (!(error instanceof NoWorkError)) throw error;
    }
  }
}

function drawTask(
  dice: Dice,
  counts: SizeCounts,
  { structured, tolerance }: { structured: boolean; tolerance?: Tolerance },
): Pick<GeneratedTask, 'plan' | 'ask' | 'witness'> {
  const squaresUsed = squares.slice(0, counts.squares);
  const heads = shuffled(
    dice,
    headSizes.filter((head) => squaresUsed.some((square) => suits(square, head))),
  ).slice(0, counts.heads);
  const stock = (structured ? familyStock : unalikeStock)(dice, counts.stock, heads, squaresUsed);
  stock.gear = drawGear(dice);
  const outings = ['first', 'second', 'third'].slice(0, dice.pick(counts.outings));
  const roles = ['Lead', 'Second', 'Base'].slice(0, dice.pick([2, 2, 3]));
  const list = new FastenerList();
  const drawn = drawSteps(
    dice,
    stock,
    { steps: counts.steps, interfaces: structured ? counts.interfaces : null, outings, roles, heads },
    list,
  );
  const needs = mendStock(drawn, outings);
  mendGear(dice, stock, drawn);
  const ask = consistent(drawAsk(dice, stock, drawn, tolerance));
  const { bags, byOuting } = drawBags(dice, stock, roles, { needs, drawn, ask });
  return {
    plan: {
      catalog: catalogOf(stock, list.fasteners, bags),
      outings: outings.map((id) => ({ id, roles, bags: byOuting.get(id) ?? [] })),
      steps: drawn.map(({ step }) => step),
    },
    ask,
    witness: drawn.flatMap(({ step, witness }) => {
      const ids = (stack: Item[]): string[] => stack.map(({ id }) => id);
      return witness === null
        ? []
        : [{ step: step.id, stack: ids(witness.stack), hold: witness.hold && ids(witness.hold) }];
    }),
  };
}

export function generateTask(asked: TaskAsked): GeneratedTask {
  const { seed, size, structured } = asked;
  const dice = diceOf(seed * 8 + ['small', 'middle', 'large'].indexOf(size) * 2 + (structured ? 1 : 0));
  return { ...asked, ...buildTask(dice, taskSizes[size], asked) };
}
