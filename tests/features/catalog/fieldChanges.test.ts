import { describe, expect, test } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import { newItem } from '../../../renderer/engine/records/newItem.ts';
import { fieldAct, fieldChanges, fieldsForAll } from '../../../renderer/features/catalog/bulk/fieldChanges.ts';

const made = (kind: Item['kind'], code: string, more: object): Item =>
  ({ ...newItem(kind, { id: code, shelf: 's' }), code, ...more }) as Item;
const carried = { mass: '60 g', onHand: 2 };
const socket = (code: string, more: object = {}): Item =>
  made('socket', code, {
    ...{ ...carried, drive: '3/8 in', opening: { form: 'hex6', size: '14 mm' }, length: '30 mm' },
    ...{ outsideDiameter: '20 mm', ratedTorque: '60 N·m', ...more },
  });
const bolt = (code: string, more: object = {}): Item =>
  made('fastener', code, { thread: 'M8', head: { form: 'hex', acrossFlats: '13 mm' }, ...more });
const tool = (code: string, more: object = {}): Item =>
  made('torque-tool', code, {
    ...{ ...carried, drive: '3/8 in', min: '10 N·m', max: '60 N·m', increment: '1 N·m', accuracyOfReading: 0.04 },
    ...more,
  });

const named = (items: readonly Item[], name: string) => {
  const found = fieldsForAll(items).find(({ column }) => column.name === name);
  if (found === undefined) throw new Error(`no field ${name}`);
  return found;
};
const changes = (items: readonly Item[], name: string, text: string) => fieldChanges(items, named(items, name), text);

describe('the fields that can be set in all', () => {
  test('are those that every kind among them has, never what tells one item from another', () => {
    const names = (items: readonly Item[]) => fieldsForAll(items).map(({ column }) => column.name);
    expect(names([socket('S'), tool('T')])).toEqual([
      ...['name', 'drive', 'mass', 'volume', 'size', 'tethers', 'onHand', 'parts', 'notes'],
    ]);
    expect(names([tool('T')])).toEqual(expect.arrayContaining(['calibrationDue', 'loosens', 'direction', 'increment']));
    expect(names([tool('T')])).not.toEqual(expect.arrayContaining(['serial']));
    expect(names([bolt('B')])).toEqual(expect.arrayContaining(['lubrication', 'acrossFlatsMin', 'strength']));
    expect(names([])).toEqual([]);
  });

  test('are called as the forms call them', () => {
    const driver = made('driver', 'D', { ...carried, drive: '3/8 in', max: '60 N·m' });
    expect(named([driver, tool('T')], 'max').label).toBe('Rated torque or Range, most');
  });
});

describe('one field in all of them', () => {
  test('changes that field alone, and says every row before and after', () => {
    const items = [socket('S-1', { notes: 'old\nlines; kept' }), socket('S-2', { mass: '75 g' }), socket('S-3')];
    const found = changes(items, 'mass', ' 75 g ');
    expect(found.rows.map(({ item, before, after, why }) => [item.code, before, after, why])).toEqual([
      ['S-1', '60 g', '75 g', null],
      ['S-3', '60 g', '75 g', null],
    ]);
    expect(found.same).toBe(1);
    expect(found.changed).toEqual([
      { ...items[0], mass: '75 g' },
      { ...items[2], mass: '75 g' },
    ]);
    expect(fieldAct(named(items, 'mass'), found)).toMatchObject({
      ...{ action: 'edit-items', title: 'Set “Mass” of 2 items' },
      proposals: [{ put: { code: 'S-1', mass: '75 g' } }, { put: { code: 'S-3', mass: '75 g' } }],
    });
  });

  test.each([
    ['mass', '75', /unit/],
    ['mass', '75 mm', /./],
    ['onHand', '2.5', /no whole number/],
    ['mass', '', /./],
  ])('%s “%s” is refused in each, by name', (name, text, why) => {
    const found = changes([socket('S-1'), socket('S-2')], name, text);
    expect(found.changed).toEqual([]);
    expect(found.rows.map(({ item }) => item.code)).toEqual(['S-1', 'S-2']);
    for (const row of found.rows) expect(row.why).toMatch(why);
  });

  test('is refused where it does not go with the rest of an item, and taken in the others', () => {
    const items = [tool('T-1'), tool('T-2', { increment: undefined, settings: ['20 N·m'] })];
    const found = changes(items, 'increment', '2 N·m');
    expect(found.changed.map(({ code }) => code)).toEqual(['T-1']);
    expect(found.rows.find(({ item }) => item.code === 'T-2')?.why).toMatch(/./);
    expect(changes([tool('T-1')], 'min', '90 N·m').rows[0]?.why).toMatch(/./);
  });

  test('is taken away by an empty text where it may be missing', () => {
    const items = [
      bolt('B-1', { lubrication: 'dry', acrossFlatsLimits: { min: '12.7 mm', max: '13 mm' } }),
      bolt('B-2'),
    ];
    const found = changes(items, 'lubrication', '');
    expect(found.rows).toMatchObject([{ before: 'dry', after: '', why: null }]);
    expect(found.changed[0]).not.toHaveProperty('lubrication');
    expect(found.same).toBe(1);
    // Half of a pair is no pair.
    expect(changes(items, 'acrossFlatsMin', '').rows[0]?.why).toMatch(/./);
  });

  test('takes days, yes and no, choices and numbers as the table does', () => {
    const one = [tool('T-1')];
    expect(changes(one, 'calibrationDue', '2027-03-31').changed).toMatchObject([{ calibrationDue: '2027-03-31' }]);
    expect(changes(one, 'calibrationDue', '31.3.27').rows[0]?.why).toMatch(/./);
    expect(changes(one, 'loosens', 'yes').changed).toMatchObject([{ loosens: true }]);
    expect(changes(one, 'direction', 'both').changed).toMatchObject([{ direction: 'both' }]);
    expect(changes(one, 'accuracyOfReading', '3 %').changed).toMatchObject([{ accuracyOfReading: 0.03 }]);
  });
});
