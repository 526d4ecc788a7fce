/** Names that reach behind an object, and depths that no reader walks: acceptance line S20, through every reader of JSON. */
import { afterEach, describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readJson } from '../../../renderer/engine/json/readJson.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { readRecordFile } from '../../../renderer/engine/record/recordFile.ts';
import { readPlanFile } from '../../../renderer/engine/records/readPlanFile.ts';

const readers: [string, (text: string) => unknown][] = [
  ['any JSON', (text) => readJson(text, { maxBytes: 32e6 })],
  ['a plan', (text) => readPlan(text, 'plan.json')],
  ['a plan at the door', (text) => readPlanFile(text, 'plan.json')],
  ['a manifest with its record', (text) => readRecordFile(text, 'record.json')],
];

const yes = '{"polluted":true}';
/** Twenty ways of naming what every object has behind it. */
const reaching = [
  `{"__proto__":${yes}}`,
  `{"__proto__":null}`,
  `{"__proto__":[]}`,
  `{"__proto__":"polluted"}`,
  `{"__proto__":{"__proto__":${yes}}}`,
  `{"constructor":{"prototype":${yes}}}`,
  `{"constructor":${yes}}`,
  `{"prototype":${yes}}`,
  `[{"__proto__":${yes}}]`,
  `[[[{"__proto__":${yes}}]]]`,
  `{"catalog":{"__proto__":${yes}}}`,
  `{"catalog":{"sockets":[{"__proto__":${yes}}]}}`,
  `{"catalog":{"constructor":{"prototype":${yes}}}}`,
  `{"outings":[{"id":"O1","__proto__":${yes}}]}`,
  `{"steps":[{"access":{"__proto__":${yes}}}]}`,
  `{"steps":[{"constructor":{"prototype":${yes}}}]}`,
  String.raw`{"\u005f\u005fproto\u005f\u005f":${yes}}`,
  String.raw`{"const\u0072uctor":{"prototype":${yes}}}`,
  `{"a":1,"__proto__":${yes},"b":2}`,
  `\uFEFF{"__proto__":${yes}}`,
];

afterEach(() => {
  const bare: Record<string, unknown> = {};
  expect(bare['polluted']).toBeUndefined();
  expect(Object.getOwnPropertyNames(Object.prototype)).not.toContain('polluted');
});

function refusalOf(run: () => unknown): string {
  try {
    run();
  } catch (cause) {
    if (cause instanceof RefusedError) return cause.refusal.code;
    throw cause;
  }
  return 'nothing was refused';
}

it('twenty ways are tried', () => {
  expect(new Set(reaching).size).toBe(20);
});

describe.each(readers)('a reader of %s', (_what, read) => {
  it.each(reaching)('refuses %s, and no object has more than before', (text) => {
    expect(refusalOf(() => read(text))).toBe('forbidden-key');
  });

  it.each([33, 10_000, 1_000_000])('refuses %d levels without walking into them', (levels) => {
    for (const open of ['[', '{"a":']) expect(refusalOf(() => read(open.repeat(levels)))).toBe('too-deep');
    expect(refusalOf(() => read('['.repeat(levels) + ']'.repeat(levels)))).toBe('too-deep');
  });
});
