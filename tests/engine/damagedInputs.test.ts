/**
 * Damaged inputs over every parser, in a short form: `npm run faults -- --only F16` is the long one. What breaks one is in the message, and
 * the same seed gives the same input again.
 */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { readJson } from '../../renderer/engine/json/readJson.ts';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { readStrength } from '../../renderer/engine/strength/index.ts';
import { readThread } from '../../renderer/engine/thread/index.ts';
import { readNumber } from '../../renderer/engine/units/readNumber.ts';
import { readQuantity, readUnit } from '../../renderer/engine/units/index.ts';
import { fuzzed, fuzzReaders } from '../campaign/parserFuzz.ts';
import { outcomeOf } from '../campaign/parsers/reader.ts';
import { seedOfTests } from '../campaign/support/survived.ts';
import { dice } from '../reference/dice.ts';

setFlagsFromString('--expose-gc');
/** What nobody refers to any more is let go at once, not when the engine finds the time. */
const letGo = runInNewContext('gc') as () => void;
setFlagsFromString('--no-expose-gc');

/** What the worker held before this file; it may have run others. */
const heldBefore = process.memoryUsage.rss();
const mostMore = 450 * 2 ** 20;
const more = (): number => process.memoryUsage.rss() - heldBefore;

it.each(fuzzReaders)('$name: every damaged input is read or refused', async (reader) => {
  const trials = 40 * reader.weight;
  const counts = await fuzzed(reader, seedOfTests, trials);
  expect(counts.read + counts.refused).toBe(trials);
  if (more() > mostMore) letGo();
  expect(more()).toBeLessThan(mostMore);
  // Damage that is never seen would test nothing.
  expect(counts.refused).toBeGreaterThan(trials / 20);
});

it.each<[string, () => unknown]>([
  ['a million digits', () => readQuantity('9'.repeat(1e6))],
  ['a million blanks', () => readQuantity(`4${' '.repeat(1e6)}N`)],
  ['a long unit', () => readUnit('lbf·'.repeat(1e5))],
  ['a long number', () => readNumber(`${'1'.repeat(1e6)}/3`)],
  ['a long thread', () => readThread(`M10${'x'.repeat(1e6)}`)],
  ['a long strength', () => readStrength('8.'.repeat(1e6), { thread: null, field: 'strength' })],
  ['nesting without end', () => readJson('['.repeat(1e6), { maxBytes: 2 ** 24 })],
  ['objects without end', () => readPlan('{"a":'.repeat(2e5))],
  ['a text that never ends', () => readJson(`"${'a'.repeat(5e6)}`, { maxBytes: 2 ** 24 })],
  ['more than is taken', () => readJson(' '.repeat(2 ** 21), { maxBytes: 2 ** 20 })],
])('%s is refused at once', async (_, read) => {
  expect(await outcomeOf({ name: 'it', weight: 1, read }, dice(0))).toBe('refused');
});
