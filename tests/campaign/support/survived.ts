/** A part of the campaign as a test: so many of its trials, all of them survived. */
import { expect } from 'vitest';
import { runPart, type Part, type Tally } from '../part.ts';

/** The seed of the short forms; `BAGWRIGHT_SEED` repeats another run. */
export const seedOfTests = Number(process.env['BAGWRIGHT_SEED'] ?? 4711);

export async function expectSurvived(part: Part, trials: number, from = 0): Promise<Tally> {
  const tally = await runPart(part, { seed: seedOfTests, trials, from });
  expect(tally.failures, `seed ${seedOfTests}`).toEqual([]);
  expect(tally.trials).toBe(trials);
  return tally;
}
