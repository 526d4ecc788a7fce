/**
 * Some 40 000 damaged inputs of 10 000 seeds over every reader of the engine: each is read or refused, soon and in little memory. The seed that
 * breaks one is in the message, and the same seed gives the same input again.
 */
import { expect, it } from 'vitest';
import { engagementFrom } from '../../renderer/engine/engagement/readEngagement.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { readJson } from '../../renderer/engine/json/readJson.ts';
import { planFrom, readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { torquePlausibility } from '../../renderer/engine/plausibility/index.ts';
import { jointTask } from '../../renderer/engine/preload/index.ts';
import { settingFrom } from '../../renderer/engine/setting/readSetting.ts';
import { toolSetting } from '../../renderer/engine/setting/toolSetting.ts';
import { readStrength } from '../../renderer/engine/strength/index.ts';
import { readThread } from '../../renderer/engine/thread/index.ts';
import { readNumber } from '../../renderer/engine/units/readNumber.ts';
import { readQuantity, readUnit } from '../../renderer/engine/units/index.ts';
import { dice } from '../reference/dice.ts';
import { smallPlan } from '../support/smallPlan.ts';
import { damagedText, damagedValue } from './damagedInputs.ts';

const quantities = ['45 lbf·ft', '7/16 in', '1-1/8 in', '12 mm', '-3.5e2 N·m', '600 N/mm²', '20 in-oz'];
const threads = ['M10x1.25-6g', '1/4-28 UNF-3A', '.2500-28 UNJF-3A', '#10-32', '1-1/8-12 UNF', '5/8-11 UNC-2B LH'];
const strengths = ['SAE J429 grade 5', 'SAE J429 grade 8', 'ASTM A354 grade BD', '8.8', 'A2-70'];
const half = readThread('1/2-13');
const joint = {
  thread: 'M10',
  strength: '8.8',
  friction: { thread: 0.12, bearing: 0.14, bearingDiameterMm: 13 },
  torque: { min: '40 N·m', max: '48 N·m' },
  running: { min: '1 N·m', max: '3 N·m' },
  torqueIs: 'wrench',
  scatter: 0.1,
  relaxation: { share: 0.05, form: 'divide' },
  thermalN: { gain: 100, loss: 200 },
  stop: { driver: { name: 'bar', max: '300 N·m' }, parts: [{ name: 'socket', ratedTorque: '200 N·m' }] },
};
const otherScrew = {
  thread: { meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 14.5, rootDiameterMm: 20 },
  strength: { yieldMPa: 400 },
  nutFactor: { nominal: 0.2, min: 0.15, max: 0.25, diameterMm: 25 },
  preload: '20 kN',
};
const engagement = {
  thread: '1/2-13 UNC',
  externalClass: '2A',
  internalClass: '2B',
  engagement: '0.5 in',
  externalUltimate: '120 ksi',
  internalUltimate: '60 ksi',
};
const setting = {
  callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
  running: { min: '10 lbf·in', max: '80 lbf·in' },
  runningIncluded: false,
  tool: { min: 10, max: 75, increment: 1, unit: 'lbf·ft', accuracyOfReading: 0.04, lever: '15 in' },
  offsetHead: { length: '2 in', angleDeg: 90 },
  rangeShareMin: 0.2,
  siteTemperature: '31 °C',
  distribution: { form: 'normal', coverage: 0.95 },
  windUp: [{ length: '150 mm', shearModulus: '80 GPa', outsideDiameter: '12 mm' }],
  turning: { length: '20 mm', thread: 'M10', swingDeg: 40, stepDeg: 5 },
};

type Read = (seed: number) => unknown;

const textOf =
  (from: readonly string[], read: (text: string) => unknown): Read =>
  (seed) => {
    const d = dice(seed);
    return read(damagedText(d.pick(from), d));
  };

const valueOf =
  (from: readonly unknown[], read: (value: unknown) => unknown): Read =>
  (seed) => {
    const d = dice(seed);
    return read(damagedValue(d.pick(from), d));
  };

const planTexts = [JSON.stringify(smallPlan()), JSON.stringify(smallPlan(), null, 1)];

/** Which share of the seeds each reader takes: every one of the quick ones, some of those that take a whole plan. */
const readers: { name: string; every: number; read: Read }[] = [
  { name: 'readQuantity', every: 2, read: textOf(quantities, (text) => readQuantity(text)) },
  { name: 'readQuantity of a kind', every: 2, read: textOf(quantities, (text) => readQuantity(text, 'torque')) },
  {
    name: 'readUnit',
    every: 2,
    read: textOf(['lbf·ft', 'kgf·cm', 'N/mm²', 'mN·m', 'in-lbs'], (text) => readUnit(text)),
  },
  { name: 'readNumber', every: 2, read: textOf(quantities, readNumber) },
  { name: 'readThread', every: 2, read: textOf(threads, readThread) },
  {
    name: 'readStrength',
    every: 2,
    read: textOf(strengths, (text) => readStrength(text, { thread: half, field: 'strength' })),
  },
  {
    name: 'torquePlausibility',
    every: 2,
    read: textOf(quantities, (text) => torquePlausibility({ thread: '1/4-28', torque: { min: text, max: text } })),
  },
  { name: 'readJson', every: 8, read: textOf(planTexts, (text) => readJson(text, { maxBytes: 2 ** 20 })) },
  { name: 'readPlan', every: 16, read: textOf(planTexts, (text) => readPlan(text)) },
  { name: 'planFrom', every: 16, read: valueOf([smallPlan()], (value) => planFrom(value)) },
  { name: 'jointTask', every: 8, read: valueOf([joint, otherScrew], (value) => jointTask(value)) },
  { name: 'engagementFrom', every: 8, read: valueOf([engagement], (value) => engagementFrom(value)) },
  { name: 'settingFrom', every: 8, read: valueOf([setting], (value) => toolSetting(settingFrom(value))) },
];

/** Where a result holds a number that is none. */
function notFinite(result: unknown, path = ''): string | null {
  if (typeof result === 'number') return Number.isFinite(result) ? null : `${path} is ${result}`;
  if (typeof result !== 'object' || result === null || result instanceof Map) return null;
  for (const [name, inner] of Object.entries(result)) {
    const found = notFinite(inner, `${path}.${name}`);
    if (found !== null) return found;
  }
  return null;
}

function outcome(read: Read, seed: number): { said: 'read' | 'refused' | string; ms: number } {
  const began = performance.now();
  let said: string;
  try {
    said = notFinite(read(seed)) ?? 'read';
  } catch (error) {
    const isRefusal = error instanceof RefusedError && error.refusal.code !== 'internal' && error.message !== '';
    said = isRefusal ? 'refused' : String(error instanceof Error ? error.stack : error);
  }
  return { said, ms: performance.now() - began };
}

const seeds = 10_000;
/** What the worker held before this file; it may have run others. */
const heldBefore = process.memoryUsage.rss();

it.each(readers)('$name reads or refuses every damaged input', ({ read, every }) => {
  const counts = { read: 0, refused: 0 };
  const broken: string[] = [];
  let slowestMs = 0;
  for (let seed = 0; seed < seeds; seed += every) {
    const { said, ms } = outcome(read, seed);
    slowestMs = Math.max(slowestMs, ms);
    if (said === 'read' || said === 'refused') counts[said] += 1;
    else if (broken.length < 5) broken.push(`seed ${seed}: ${said}`);
  }
  expect(broken).toEqual([]);
  expect(slowestMs).toBeLessThan(5000);
  expect(process.memoryUsage.rss() - heldBefore).toBeLessThan(450 * 2 ** 20);
  // Damage that is never or always seen would test nothing.
  expect(counts.refused).toBeGreaterThan(seeds / every / 20);
  expect(counts.read).toBeGreaterThan(seeds / every / 100);
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
])('%s is refused at once', (_, read) => {
  const { said, ms } = outcome(read, 0);
  expect(said).toBe('refused');
  expect(ms).toBeLessThan(5000);
});
