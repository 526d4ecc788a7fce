/** What cannot be kept of an interface's pattern and order. */
import { expect, it } from 'vitest';
import type { Interface } from '../../../shared-types/records/site.ts';
import { faultsOf } from '../../../renderer/engine/records/faultsOf.ts';

const flange: Interface = { id: 'i', rev: 0, site: 's', code: 'B', kind: 'fastener', count: 4 };
const faults = (more: Partial<Interface>): string[] =>
  faultsOf('interfaces', { ...flange, ...more }).map(({ path, message }) => `${path} ${message}`);

it.each<[string, Partial<Interface>, RegExp | null]>([
  ['nothing said', {}, null],
  ['a circle', { pattern: 'circle 120 mm', order: ['1', '3', '2', '4'] }, null],
  ['an order without a pattern', { order: ['1', '3', '2', '4'] }, null],
  ['places of its own', { pattern: 'a: 0 mm, 0 mm; b: 5 mm, 0 mm', count: 2, order: ['b', 'a'] }, null],
  ['nonsense', { pattern: 'round' }, /^pattern "round": is no pattern of positions/],
  ['a length that is none', { pattern: 'circle 5 lb' }, /^pattern "circle 5 lb"/],
  ['more places than positions', { pattern: 'grid 2 by 3, 4 mm by 4 mm' }, /^count is 4, and the pattern has 6 places/],
  ['an order that lacks one', { order: ['1', '2', '3'] }, /^order lacks position 4: each position stands in it once/],
  ['an order with one twice', { order: ['1', '2', '3', '4', '2'] }, /^order has position 2 more than once/],
  ['an order of others', { order: ['1', '2', '3', '4', '5'] }, /^order has 5, no position of this interface/],
  ['numbers for named places', { pattern: 'a: 0 mm, 0 mm', count: 1, order: ['1'] }, /^order lacks position a; has 1/],
  [
    'a stretch beyond the head',
    { access: { depth: '5 mm', profile: [{ to: '6 mm', clearDiameter: '9 mm' }] } },
    /^access.profile\[0\].to/,
  ],
])('looks at %s', (_, more, why) => {
  const found = faults(more);
  if (why === null) expect(found).toEqual([]);
  else expect(found).toEqual([expect.stringMatching(why)]);
});
