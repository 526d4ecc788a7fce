/** The campaign itself: what it would count, and that it can fail. */
import { expect, it } from 'vitest';
import { chanceOf, Loss, must, runPart, type LossKind, type Part } from './part.ts';
import { parts } from './parts.ts';
import { headlineOf, lineOf, notTried, tableOf } from './table.ts';

const kinds: readonly LossKind[] = ['lost', 'partial', 'undetected', 'broken'];

/** Every third trial is not survived, each time otherwise; what a failed one stood on is not used again. */
function planted(): Part & { opened: number; closed: number } {
  const part = {
    ...{ of: 'F0', fault: 'planted', trials: 12, opened: 0, closed: 0 },
    open() {
      part.opened += 1;
      return {
        trial: (n: number) => must(n % 3 !== 0, kinds[(n / 3) % kinds.length] ?? 'broken', `trial ${n}`),
        close: () => void (part.closed += 1),
      };
    },
  };
  return part;
}

it('counts each trial that is not survived, by its kind, and goes on with a new rig', async () => {
  const part = planted();
  const tally = await runPart(part, { seed: 1, trials: 12 });
  expect(tally.failures.map(({ trial, kind }) => [trial, kind])).toEqual(kinds.map((kind, at) => [3 * at, kind]));
  expect([part.opened, part.closed]).toEqual([5, 5]);
  const line = lineOf(part, tally);
  expect(line).toMatchObject({ trials: 12, survived: 8, lost: 1, partial: 1, undetected: 1 });
  const lines = [line, notTried({ of: 'F2', fault: 'other' }, 'no browser')];
  expect(headlineOf(lines)).toMatch(/^12 faults tried, 8 survived \(66\.6 %\); 1 with records lost/);
  expect(tableOf(lines)).toContain('| F2 | other: not run here, no browser |');
});

it('takes anything else that is thrown, and what cannot be begun, for not survived', async () => {
  const open = (): never => {
    throw new Error('no room');
  };
  const { failures } = await runPart({ of: 'F0', fault: 'none', trials: 1, open }, { seed: 1, trials: 2 });
  expect(failures.map(({ kind, message }) => [kind, message.split('\n')[0]])).toEqual([
    ['broken', 'Error: no room'],
    ['broken', 'Error: no room'],
  ]);
});

it('takes what a rig says when it is closed for not survived too', async () => {
  const close = (): never => {
    throw new Loss('broken', 'too slow over all');
  };
  const part: Part = { of: 'F0', fault: 'slow', trials: 3, open: () => ({ trial: () => undefined, close }) };
  const { trials, failures } = await runPart(part, { seed: 1, trials: 3 });
  expect([trials, failures]).toEqual([3, [{ trial: 2, kind: 'broken', message: 'too slow over all' }]]);
});

it('gives a trial the same chance whenever it is tried, and each one another', async () => {
  const rolls = new Map<number, number>();
  const part: Part = {
    ...{ of: 'F0', fault: 'rolls', trials: 40 },
    open: () => ({
      trial(n, chance) {
        const roll = chance.roll();
        if ((rolls.get(n) ?? roll) !== roll) throw new Loss('broken', `trial ${n} differs`);
        rolls.set(n, roll);
      },
    }),
  };
  await runPart(part, { seed: 7, trials: 40 });
  expect((await runPart(part, { seed: 7, trials: 1, from: 17 })).failures).toEqual([]);
  expect(new Set(rolls.values()).size).toBe(40);
  expect(chanceOf(8, part, 17).roll()).not.toBe(rolls.get(17));
});

it('has every fault of the table, each part by a name of its own, and more than 12,000 trials', () => {
  const faults = Array.from({ length: 16 }, (_, at) => `F${at + 1}`).filter((of) => of !== 'F2');
  expect([...new Set(parts.map(({ of }) => of))].toSorted()).toEqual(faults.toSorted());
  expect(new Set(parts.map(({ of, fault }) => `${of} ${fault}`)).size).toBe(parts.length);
  expect(parts.reduce((sum, { trials }) => sum + trials, 0)).toBeGreaterThan(12_000);
});
