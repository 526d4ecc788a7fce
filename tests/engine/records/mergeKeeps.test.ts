import { describe, expect, it } from 'vitest';
import { planSchema, type Plan } from '../../../shared-types/plan.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import { mergeItems } from '../../../renderer/engine/records/mergeItems.ts';
import { holdsTask } from '../../../renderer/engine/records/mergeOfPlan.ts';
import { mergeTask } from '../../../renderer/engine/records/mergeTask.ts';
import { fullPlan } from './fullPlan.ts';
import { keptTask } from './keptTask.ts';

const { records, task } = keptTask(fullPlan());

function item(code: string): Item {
  const found = records.items.find((one) => one.code === code);
  if (found === undefined) throw new Error(code);
  return found;
}

const takenOf = (here: Item, file: Item): Item[] => mergeItems({ here: [here], file: [file], differing: 'take' }).puts;

describe('an item that the file says otherwise', () => {
  const gear = { ...item('C-1'), keptAt: 'Bin 3', position: 7, kit: 'training', parts: 2, rev: 4 } as Item;
  const asBag = { ...item('B-1'), code: 'C-1', id: 'n1' };

  it('keeps its key, its place in the store and on the shelf, even as another kind of thing', () => {
    expect(takenOf(gear, asBag)).toMatchObject([
      { kind: 'bag', id: gear.id, rev: 4, keptAt: 'Bin 3', position: 7, kit: 'training', parts: 2 },
    ]);
  });

  it('gets no place that it did not have', () => {
    const { keptAt: _keptAt, position: _position, ...loose } = gear;
    const [taken] = takenOf(loose as Item, asBag);
    expect(taken).toMatchObject({ kind: 'bag', id: gear.id });
    expect(taken).not.toHaveProperty('keptAt');
    expect(taken).not.toHaveProperty('position');
  });

  it('keeps where its accuracy is from as long as the accuracy is the same', () => {
    const tool = { ...item('TT-1'), accuracyFrom: 'certificate' } as Item;
    const heavier = { ...item('TT-1'), mass: '150 g' } as Item;
    expect(takenOf(tool, heavier)).toMatchObject([{ mass: '150 g', accuracyFrom: 'certificate' }]);
    const [other] = takenOf(tool, { ...heavier, accuracyOfReading: 0.02 } as Item);
    expect(other).not.toHaveProperty('accuracyFrom');
  });

  it('comes first on a shelf where nothing has a place yet', () => {
    const { position: _, ...unplaced } = item('C-1');
    const merged = mergeItems({ here: [unplaced as Item], file: [{ ...item('B-1') }], differing: 'keep' });
    expect(merged.puts.map(({ position }) => position)).toEqual([1]);
  });
});

describe('a file', () => {
  const file = (parts: object): Plan => planSchema.parse({ catalog: {}, ...parts });

  it.each([
    ['a task', { task: { id: 'T', name: 'Mast' } }, true],
    ['an outing', { outings: [{ id: 'O', roles: ['Lead'], bags: [] }] }, true],
    ['a step', { steps: [{ id: '1', outing: 'O', role: 'Lead', action: 'use' }] }, true],
    ['a catalog alone', {}, false],
  ])('that holds %s', (_, parts, holds) => {
    expect(holdsTask(file(parts))).toBe(holds);
  });
});

describe('the site of a task that a file speaks of too', () => {
  const { siteText: _, ...unsited } = task;
  const here = { ...unsited, site: 's' };
  const sites = [{ id: 's', rev: 0, code: 'M', name: 'A mast' }];
  const merged = (siteText: string, differing: 'keep' | 'take') =>
    mergeTask({ here, file: { ...unsited, siteText }, shelf: task.shelves[0] ?? '', differing, sites });

  it('stays the kept one where the file names it the same', () => {
    expect(merged('A mast', 'take')).toEqual({ told: 'same', puts: [], result: here });
  });

  it('stays the kept one where what is here is to be kept', () => {
    const { told, puts } = merged('A roof', 'keep');
    expect(told).toMatchObject({ fields: [{ path: 'site', here: 'A mast', file: 'A roof' }] });
    expect(puts).toEqual([]);
  });

  it('is in the file’s words where those are taken', () => {
    expect(merged('A roof', 'take').result).toMatchObject({ siteText: 'A roof' });
  });
});
