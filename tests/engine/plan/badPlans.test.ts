import { describe, expect, it } from 'vitest';
import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
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

type Loose = Record<string, any>;

/** Changes one field; says the field, the code and a part of the reason. */
const cases: [name: string, change: (plan: Loose) => void, field: string, code: Refusal['code'], reason: RegExp][] = [
  [
    'a bare number',
    (p) => (p['catalog'].sockets[0].length = 12),
    'catalog.sockets[0].length',
    'ambiguous-quantity',
    /bare number.*unit/,
  ],
  [
    'a number without its unit',
    (p) => (p['catalog'].sockets[0].length = '12'),
    'catalog.sockets[0].length',
    'ambiguous-quantity',
    /unit/,
  ],
  [
    'an ambiguous number',
    (p) => (p['steps'][0].demand = '1,200 lbf·in'),
    'steps[0].demand',
    'ambiguous-quantity',
    /1,200|comma/i,
  ],
  [
    'an unknown unit',
    (p) => (p['catalog'].bags[0].massMax = '4 stone'),
    'catalog.bags[0].massMax',
    'unknown-unit',
    /stone/,
  ],
  [
    'a unit of another kind',
    (p) => (p['catalog'].bags[0].massMax = '4 mm'),
    'catalog.bags[0].massMax',
    'wrong-kind',
    /mass/,
  ],
  [
    'a negative mass',
    (p) => (p['catalog'].carryGear[0].mass = '-20 g'),
    'catalog.carryGear[0].mass',
    'out-of-range',
    /0 or more/,
  ],
  [
    'a length of nothing',
    (p) => (p['catalog'].sockets[0].length = '0 mm'),
    'catalog.sockets[0].length',
    'out-of-range',
    /more than 0/,
  ],
  [
    'a thread that cannot be',
    (p) => (p['catalog'].fasteners[0].thread = 'M10x12'),
    'catalog.fasteners[0].thread',
    'out-of-range',
    /./,
  ],
  [
    'a thread that cannot be read',
    (p) => (p['catalog'].fasteners[0].thread = 'three eighths'),
    'catalog.fasteners[0].thread',
    'unreadable-thread',
    /./,
  ],
  [
    'an unknown square',
    (p) => (p['catalog'].drivers[0].drive = '5/16 in'),
    'catalog.drivers[0].drive',
    'out-of-range',
    /square drive/,
  ],
  ['an unknown fastener', (p) => (p['steps'][0].fastener = 'F9'), 'steps[0].fastener', 'unknown-id', /F9/],
  ['an unknown role', (p) => (p['steps'][0].role = 'Cook'), 'steps[0].role', 'unknown-id', /Cook/],
  ['an unknown outing', (p) => (p['steps'][0].outing = 'O9'), 'steps[0].outing', 'unknown-id', /O9/],
  ['an unknown bag', (p) => p['outings'][0].bags.push('B-9'), 'outings[0].bags[1]', 'unknown-id', /B-9/],
  [
    'an unknown place',
    (p) => (p['steps'][2].moves = [{ id: 'C-1', quantity: 1, from: 'bag', to: 'roof' }]),
    'steps[2].moves[0].to',
    'unknown-id',
    /roof/,
  ],
  [
    'gear that is a socket',
    (p) => (p['steps'][2].gear[0].id = 'S-9/16'),
    'steps[2].gear[0].id',
    'unknown-id',
    /carry gear/,
  ],
  [
    'a duplicate id',
    (p) => (p['catalog'].drivers[0].id = 'X-3'),
    'catalog.drivers[0].id',
    'duplicate-id',
    /catalog\.extensions\[0\]/,
  ],
  ['a duplicate step', (p) => (p['steps'][1].id = 'loosen'), 'steps[1].id', 'duplicate-id', /loosen/],
  ['a negative stock', (p) => (p['catalog'].sockets[0].onHand = -1), 'catalog.sockets[0].onHand', 'out-of-range', /./],
  ['a share of pieces', (p) => (p['catalog'].sockets[0].onHand = 1.5), 'catalog.sockets[0].onHand', 'wrong-shape', /./],
  ['loosening without a demand', (p) => delete p['steps'][0].demand, 'steps[0].demand', 'missing-field', /must bear/],
  ['tightening without a callout', (p) => delete p['steps'][1].callout, 'steps[1].callout', 'missing-field', /callout/],
  [
    'running torque to add, not given',
    (p) => (p['steps'][1].runningIncluded = false),
    'steps[1].running',
    'missing-field',
    /running/,
  ],
  [
    'a callout upside down',
    (p) => (p['steps'][1].callout.min = '40 lbf·ft'),
    'steps[1].callout.min',
    'contradiction',
    /above max/,
  ],
  [
    'a torque tool with two scales',
    (p) => (p['catalog'].torqueTools[0].settings = ['30 lbf·ft']),
    'catalog.torqueTools[0]',
    'contradiction',
    /both/,
  ],
  [
    'a torque tool without a scale',
    (p) => delete p['catalog'].torqueTools[0].increment,
    'catalog.torqueTools[0]',
    'missing-field',
    /neither/,
  ],
  [
    'a tool upside down',
    (p) => (p['catalog'].torqueTools[0].min = '80 lbf·ft'),
    'catalog.torqueTools[0].min',
    'contradiction',
    /above/,
  ],
  ['a word that is no action', (p) => (p['steps'][0].action = 'twist'), 'steps[0].action', 'wrong-shape', /./],
  ['a place named bag', (p) => (p['places'] = [{ id: 'bag' }]), 'places[0].id', 'contradiction', /not left anywhere/],
  ['a missing mass', (p) => delete p['catalog'].sockets[0].mass, 'catalog.sockets[0].mass', 'missing-field', /./],
];

describe('a plan that cannot be taken is refused with file, row, field, value and reason', () => {
  for (const [name, change, field, code, reason] of cases) {
    it(name, () => {
      const plan = smallPlan();
      change(plan);
      const refusal = refusalOf(JSON.stringify(plan, null, 2));
      expect(refusal).toMatchObject({ file: 'plan.json', field, code });
      expect(refusal.message).toMatch(reason);
      expect(refusal.message).toContain(field);
      expect(refusal.row).toBeGreaterThan(1);
    });
  }

  it('names every fault in one go', () => {
    const plan: Loose = smallPlan();
    plan['catalog'].sockets[0].length = '12';
    plan['steps'][0].fastener = 'F9';
    plan['steps'][1].role = 'Cook';
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
    expect(({} as Loose)['polluted']).toBeUndefined();
  });

  it('reads past fields it does not know and says so', () => {
    const plan: Loose = smallPlan();
    plan['catalog'].sockets[0].colour = 'red';
    plan['steps'][0].access.clearDiamater = '1 in';
    expect(readPlan(JSON.stringify(plan)).ignoredFields).toEqual([
      'catalog.sockets[0].colour',
      'steps[0].access.clearDiamater',
    ]);
  });

  it('takes a plan with nothing in it', () => {
    expect(readPlan('{"catalog":{}}')).toMatchObject({ steps: [], outings: [] });
  });
});
