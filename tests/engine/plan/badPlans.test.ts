import { describe, expect, it } from 'vitest';
import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, put, remove } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

function refusalOf(text: string): Refusal {
  try {
    readPlan(text, 'plan.json');
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('the plan was taken');
}

/** What is changed, where and why it is refused; the field is the changed one unless another is named. */
const cases: [name: string, edit: Edit, field: string, code: Refusal['code'], reason: RegExp][] = [
  changed('a bare number', 'catalog.sockets[0].length', 12, 'ambiguous-quantity', /bare number.*unit/),
  changed('a number without its unit', 'catalog.sockets[0].length', '12', 'ambiguous-quantity', /unit/),
  changed('an ambiguous number', 'steps[0].demand', '1,200 lbf·in', 'ambiguous-quantity', /1,200|comma/i),
  changed('an unknown unit', 'catalog.bags[0].massMax', '4 stone', 'unknown-unit', /stone/),
  changed('a unit of another kind', 'catalog.bags[0].massMax', '4 mm', 'wrong-kind', /mass/),
  changed('a negative mass', 'catalog.carryGear[0].mass', '-20 g', 'out-of-range', /0 or more/),
  changed('a length of nothing', 'catalog.sockets[0].length', '0 mm', 'out-of-range', /more than 0/),
  changed('a thread that cannot be', 'catalog.fasteners[0].thread', 'M10x12', 'out-of-range', /M10|pitch/i),
  changed(
    'a thread that cannot be read',
    'catalog.fasteners[0].thread',
    'three eighths',
    'unreadable-thread',
    /thread/i,
  ),
  changed('an unknown square', 'catalog.drivers[0].drive', '5/16 in', 'out-of-range', /square drive/),
  changed('an unknown fastener', 'steps[0].fastener', 'F9', 'unknown-id', /F9/),
  changed('an unknown role', 'steps[0].role', 'Cook', 'unknown-id', /Cook/),
  changed('an unknown outing', 'steps[0].outing', 'O9', 'unknown-id', /O9/),
  changed('an unknown bag', 'outings[0].bags[1]', 'B-9', 'unknown-id', /B-9/),
  [
    'an unknown place',
    put('steps[2].moves', [{ id: 'C-1', quantity: 1, from: 'bag', to: 'roof' }]),
    'steps[2].moves[0].to',
    'unknown-id',
    /roof/,
  ],
  changed('gear that is a socket', 'steps[2].gear[0].id', 'S-9/16', 'unknown-id', /carry gear/),
  changed('a duplicate id', 'catalog.drivers[0].id', 'X-3', 'duplicate-id', /catalog\.extensions\[0\]/),
  changed('a duplicate step', 'steps[1].id', 'loosen', 'duplicate-id', /loosen/),
  changed('a negative stock', 'catalog.sockets[0].onHand', -1, 'out-of-range', /0/),
  changed('a share of a piece', 'catalog.sockets[0].onHand', 1.5, 'wrong-shape', /int|whole/i),
  ['loosening without a demand', remove('steps[0].demand'), 'steps[0].demand', 'missing-field', /must bear/],
  ['tightening without a callout', remove('steps[1].callout'), 'steps[1].callout', 'missing-field', /callout/],
  [
    'running torque to add, not given',
    put('steps[1].runningIncluded', false),
    'steps[1].running',
    'missing-field',
    /running/,
  ],
  changed('a callout upside down', 'steps[1].callout.min', '40 lbf·ft', 'contradiction', /above max/),
  [
    'a torque tool with two scales',
    put('catalog.torqueTools[0].settings', ['30 lbf·ft']),
    'catalog.torqueTools[0]',
    'contradiction',
    /both/,
  ],
  [
    'a torque tool without a scale',
    remove('catalog.torqueTools[0].increment'),
    'catalog.torqueTools[0]',
    'missing-field',
    /neither/,
  ],
  changed('a tool upside down', 'catalog.torqueTools[0].min', '80 lbf·ft', 'contradiction', /above/),
  changed('a word that is no action', 'steps[0].action', 'twist', 'wrong-shape', /tighten/),
  ['a place named bag', put('places', [{ id: 'bag' }]), 'places[0].id', 'contradiction', /not left anywhere/],
  ['a missing mass', remove('catalog.sockets[0].mass'), 'catalog.sockets[0].mass', 'missing-field', /mass/],
];

function changed(
  name: string,
  path: string,
  value: unknown,
  code: Refusal['code'],
  reason: RegExp,
): (typeof cases)[number] {
  return [name, put(path, value), path, code, reason];
}

describe('a plan that cannot be taken is refused with file, row, field, value and reason', () => {
  for (const [name, edit, field, code, reason] of cases) {
    it(name, () => {
      const plan = smallPlan();
      edit(plan);
      const refusal = refusalOf(JSON.stringify(plan, null, 2));
      expect(refusal).toMatchObject({ file: 'plan.json', field, code });
      expect(refusal.message).toMatch(reason);
      expect(refusal.message).toContain(field);
      expect(refusal.row).toBeGreaterThan(1);
    });
  }

  it('names every fault in one go', () => {
    const plan = smallPlan();
    all(put('catalog.sockets[0].length', '12'), put('steps[0].fastener', 'F9'), put('steps[1].role', 'Cook'))(plan);
    const { rows } = refusalOf(JSON.stringify(plan));
    expect(rows?.map((r) => r.field)).toEqual(['catalog.sockets[0].length', 'steps[0].fastener', 'steps[1].role']);
  });

  it.each([
    ['a truncated file', JSON.stringify(smallPlan()).slice(0, 500), 'not-json'],
    ['an empty file', '', 'not-json'],
    ['a list', '[]', 'wrong-shape'],
    ['33 levels', `{"a":${'['.repeat(33)}${']'.repeat(33)}}`, 'too-deep'],
    ['a million levels', '['.repeat(1_000_000), 'too-deep'],
    ['a key __proto__', '{"__proto__":{"polluted":1},"catalog":{}}', 'forbidden-key'],
    [
      'a number past all numbers',
      JSON.stringify({ ...smallPlan(), rangeShareMin: 0 }).replace('"rangeShareMin":0', '"rangeShareMin":1e999'),
      'not-finite',
    ],
    ['a field twice', '{"catalog":{},"catalog":{}}', 'duplicate-key'],
    ['more than 32 MB', `{"catalog":{},"x":"${'x'.repeat(33 * 1024 * 1024)}"}`, 'too-large'],
  ])('%s', (_name, text, code) => {
    expect(refusalOf(text).code).toBe(code);
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
  });

  it('reads past fields it does not know and says so', () => {
    const plan = smallPlan();
    all(put('catalog.sockets[0].colour', 'red'), put('steps[0].access.clearDiamater', '1 in'))(plan);
    expect(readPlan(JSON.stringify(plan)).ignoredFields).toEqual([
      'catalog.sockets[0].colour',
      'steps[0].access.clearDiamater',
    ]);
  });

  it('takes a plan with nothing in it', () => {
    expect(readPlan('{"catalog":{}}')).toMatchObject({ steps: [], outings: [] });
  });
});
