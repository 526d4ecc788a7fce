import { dice as diceOf } from '../../reference/dice.ts';
import type { Pattern, Turn } from '../../../renderer/engine/pattern/index.ts';

/** Some pattern of each kind, the same for the same seed. */
export function randomPattern(seed: number): Pattern {
  const dice = diceOf(seed);
  const length = (): string => dice.pick(['12 mm', '1-1/2 in', '0.75 in', '40 mm', '3.5 cm', '7/16 in']);
  const turn = dice.pick<Turn>(['clockwise', 'counterclockwise']);
  const sides = { rows: dice.pick([1, 2, 3, 5]), columns: dice.pick([1, 2, 4, 6]), across: length(), up: length() };
  const coordinate = (): string =>
    `${dice.pick(['', '-'])}${dice.pick([0, 1, 2.5, 10, 33])} ${dice.pick(['mm', 'in'])}`;
  const names = Array.from({ length: dice.pick([1, 3, 7, 12]) }, (_, at) =>
    dice.pick([`${at + 1}`, `P-${at}`, `Ä${at}`]),
  );
  return dice.pick<() => Pattern>([
    () => ({ kind: 'circle', diameter: length(), from: dice.pick([null, '30 deg', '-15 deg']), turn }),
    () => ({ kind: 'grid', ...sides }),
    () => ({ kind: 'frame', ...sides, turn }),
    () => ({
      kind: 'points',
      points: [...new Set(names)].map((position) => ({ position, x: coordinate(), y: coordinate() })),
    }),
  ])();
}
