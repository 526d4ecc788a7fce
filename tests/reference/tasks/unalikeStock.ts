/** A stock without families: every item its own length, diameter, rating and mass, none of them twice. */
import type { Dice } from '../dice.ts';
import { bar } from './items.ts';
import type { Item, TaskStock, ToolItem } from './items.ts';
import { formsOf, nominalNm, squares, suits } from './sizes.ts';
import type { HeadSize, Square } from './sizes.ts';
import type { StockCounts } from './families.ts';

const tenth = (value: number): number => Math.round(value * 10) / 10;
const within = (dice: Dice, least: number, most: number): number => least + dice.roll() * (most - least);

function item(dice: Dice, id: string, [outsideMm, lengthMm, share]: [number, number, number], tethers = 0): Item {
  const { grams, millilitres } = bar(outsideMm, lengthMm, share * within(dice, 0.85, 1.15));
  return { id, grams, millilitres, sizeMm: Math.max(outsideMm, lengthMm), tethers, onHand: dice.pick([1, 1, 2, 2, 3]) };
}

function tool(dice: Dice, id: string, square: Square, torque: boolean): ToolItem {
  const maxNm = tenth(square.ratedNm * (torque ? within(dice, 0.15, 0.9) : within(dice, 0.6, 1.7)));
  const leverMm = tenth(torque ? 170 + 26 * Math.sqrt(maxNm) * within(dice, 0.8, 1.2) : within(dice, 90, 400));
  const steps = dice.pick([null, 1, 1, 1]);
  return {
    ...item(dice, id, [square.barMm * (torque ? 1.5 : 1.35), leverMm, 0.85], 1),
    square: square.name,
    maxNm,
    leverMm,
    stepDeg: steps === null ? null : tenth(within(dice, 3.6, 12)),
    torque: torque
      ? {
          minNm: tenth(maxNm * within(dice, 0.08, 0.25)),
          incrementNm: Math.max(0.1, tenth(maxNm / dice.pick([100, 150, 200]))),
          accuracy: dice.pick([0.02, 0.03, 0.04]),
          loosens: dice.chance(0.5),
        }
      : null,
  };
}

export function unalikeStock(
  dice: Dice,
  counts: StockCounts,
  heads: readonly HeadSize[],
  squaresUsed: readonly Square[],
): TaskStock {
  const list = <T>(count: number, one: (index: number) => T): T[] =>
    Array.from({ length: count }, (_, index) => one(index + 1));
  const pairs = heads.flatMap((head) =>
    squaresUsed.filter((square) => suits(square, head)).map((square) => ({ head, square })),
  );
  return {
    sockets: list(counts.sockets, (n) => {
      const { head, square } = dice.pick(pairs);
      const form = dice.pick(formsOf[head.kind].openings);
      const hexagon = head.kind === 'hexagon';
      const lengthMm = tenth(within(dice, square.socketMm, square.deepMm * (hexagon ? 1.3 : 2)));
      const outsideMm = tenth(Math.max(square.bodyMm, hexagon ? head.mm * within(dice, 1.28, 1.6) : 0));
      const ratedNm = Math.min(square.ratedNm, nominalNm(head) * (hexagon ? 4.5 : 2.6)) * within(dice, 0.7, 1.4);
      return {
        ...item(dice, `socket-${n}`, [outsideMm, lengthMm, 0.55]),
        square: square.name,
        form,
        head,
        mm: lengthMm,
        innerMm: hexagon ? tenth(lengthMm * within(dice, 0.3, 0.75)) : null,
        outsideMm,
        ratedNm: tenth(ratedNm),
      };
    }),
    extensions: list(counts.extensions, (n) => {
      const square = dice.pick(squaresUsed);
      const others = squaresUsed.filter((one) => Math.abs(squares.indexOf(one) - squares.indexOf(square)) === 1);
      const kind = dice.pick(['rigid', 'rigid', 'rigid', 'rigid', 'rigid', 'universal', 'adapter'] as const);
      const out = kind === 'adapter' && others.length > 0 ? dice.pick(others) : square;
      const lengthMm = tenth(kind === 'rigid' ? within(dice, 40, 500) : within(dice, 26, 120));
      const outsideMm = tenth(Math.max(square.bodyMm, out.bodyMm) * within(dice, 0.85, 1.15));
      return {
        ...item(dice, `ext-${n}`, [square.barMm * 1.1, lengthMm, 1]),
        kind: kind === 'adapter' && out === square ? ('rigid' as const) : kind,
        squareIn: square.name,
        squareOut: out.name,
        mm: lengthMm,
        outsideMm,
        ratedNm: tenth(Math.min(square.ratedNm, out.ratedNm) * within(dice, 0.6, 1.1)),
      };
    }),
    tools: [
      ...list(counts.drivers, (n) => tool(dice, `driver-${n}`, dice.pick(squaresUsed), false)),
      ...list(counts.torqueTools, (n) => tool(dice, `torque-${n}`, dice.pick(squaresUsed), true)),
    ],
    gear: [],
  };
}
