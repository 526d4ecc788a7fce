import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

/** Where a bare 100 is put, and the unit its advice may name: never one of another kind. */
const fields: [field: string, example: string][] = [
  ['catalog.carryGear[0].mass', '100 g'],
  ['catalog.bags[0].massMax', '100 g'],
  ['catalog.bags[0].volumeMax', '100 mL'],
  ['catalog.sockets[0].volume', '100 mL'],
  ['catalog.sockets[0].length', '100 mm'],
  ['catalog.sockets[0].size', '100 mm'],
  ['catalog.fasteners[0].mass', '100 g'],
  ['catalog.sockets[0].ratedTorque', '100 N·m'],
  ['catalog.drivers[0].max', '100 N·m'],
  ['catalog.drivers[0].lever', '100 mm'],
  ['catalog.torqueTools[0].min', '100 N·m'],
  ['catalog.torqueTools[0].increment', '100 N·m'],
  ['steps[0].demand', '100 N·m'],
  ['steps[0].access.depth', '100 mm'],
  ['steps[1].callout.max', '100 N·m'],
];

function messageOf(field: string, value: number): string {
  const plan = smallPlan();
  put(field, value)(plan);
  try {
    readPlan(JSON.stringify(plan));
  } catch (error) {
    if (error instanceof RefusedError) {
      expect(error.refusal).toMatchObject({ code: 'ambiguous-quantity', field, value });
      return error.refusal.message;
    }
    throw error;
  }
  throw new Error('the plan was taken');
}

describe('a bare number is advised to take a unit of the kind its field holds', () => {
  it.each(fields)('%s: "%s"', (field, example) => {
    expect(messageOf(field, 100)).toBe(`${field}: is a bare number: write it as a text with its unit, as "${example}"`);
  });

  it.each(['catalog.sockets[0].opening.size', 'catalog.fasteners[0].head.acrossFlats'])('%s may be a name', (field) => {
    expect(messageOf(field, 30)).toMatch(/with its unit, as "30 mm", or "T30" where it is hexalobular$/);
  });

  it('a drive is named as squares are', () => {
    expect(messageOf('catalog.drivers[0].drive', 10)).toMatch(/with its unit, as "3\/8 in" or "10 mm"$/);
  });
});
