import { describe, expect, test } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import { shelfRecord } from '../../../shared-types/records/item.ts';
import { DoublesFinder, leftAs, leftNow, stillLeft } from '../../../renderer/engine/catalog/index.ts';

const socket = (code: string, more: object = {}): Item => ({
  ...{ id: code, rev: 0, shelf: 's', retired: false, parts: 1, kit: 'field', code, kind: 'socket', drive: '3/8 in' },
  ...{ opening: { form: 'hex6', size: '9/16 in' }, length: '1 in', outsideDiameter: '20 mm' },
  ...{ ratedTorque: '100 N·m', mass: '0.1 kg', onHand: 1, ...more },
});
const groups = (...items: Item[]) => {
  const finder = new DoublesFinder();
  for (const item of items) finder.take(item);
  return finder.found();
};
const only = (...items: Item[]) => {
  const [group, ...others] = groups(...items);
  if (group === undefined || others.length > 0) throw new Error(`${others.length} more groups`);
  return group;
};
const said = { why: 'two makes, kept apart on purpose', person: 'A. Tester', on: '2026-01-02' };

describe('what was looked at and left', () => {
  const [one, other] = [socket('S-1'), socket('T-9')];
  const left = [leftNow(only(one, other), said)];

  test('stays left with its reason, whatever is changed that does not tell things apart', () => {
    expect(leftAs(only(one, other), left)).toMatchObject(said);
    expect(leftAs(only(other, one), left)).toMatchObject(said);
    const elsewhere = { rev: 9, onHand: 44, keptAt: 'tray 2', notes: 'cleaned', name: 'Another name' };
    expect(leftAs(only({ ...one, ...elsewhere } as Item, other), left)).toMatchObject(said);
    // The same size in another unit is the same size.
    expect(leftAs(only({ ...one, length: '25.4 mm' } as Item, other), left)).toMatchObject(said);
  });

  test('is listed again once one of them is another, or another comes to them', () => {
    const both = { length: '2 in' };
    expect(leftAs(only({ ...one, ...both } as Item, { ...other, ...both } as Item), left)).toBeNull();
    expect(leftAs(only({ ...one, code: 'S-2' }, other), left)).toBeNull();
    expect(leftAs(only(one, other, socket('U-3')), left)).toBeNull();
    expect(leftAs(only(socket('S-1', { id: 'new' }), other), left)).toBeNull();
    expect(leftAs({ ...only(one, other), reason: 'codes-look-alike' }, left)).toBeNull();
    expect(leftAs(only(one, other), [])).toBeNull();
  });

  test('is forgotten where nothing stands as it was left', () => {
    const gone = leftNow(only(socket('X-1'), socket('Y-2')), said);
    expect(stillLeft(groups(one, other), [gone, ...left])).toEqual(left);
  });

  test('is a record of its shelf, however long its items are in words', () => {
    const long = only(
      { ...one, ratedTorque: `${'1'.repeat(3000)} N·m` } as Item,
      { ...other, ratedTorque: `${'1'.repeat(3000)} N·m` } as Item,
    );
    const shelf = { id: 's', rev: 1, name: 'Crew', leftApart: [leftNow(long, said), ...left] };
    expect(shelfRecord.parse(shelf)).toEqual(shelf);
    expect(shelfRecord.safeParse({ ...shelf, leftApart: [{ ...left[0], why: '' }] }).success).toBe(false);
  });

  test('counts by signs that nobody sees, too', () => {
    const odd = groups(socket('S\u200B-18D'));
    expect(odd).toHaveLength(1);
    const [group] = odd;
    if (group === undefined) throw new Error('none is found');
    expect(leftAs(group, [leftNow(group, said)])).toMatchObject({ why: said.why });
  });
});
