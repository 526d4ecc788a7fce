import { describe, expect, it } from 'vitest';
import { planSchema } from '../../../shared-types/plan.ts';
import { itemKinds, type Item } from '../../../shared-types/records/item.ts';
import { faultsOf } from '../../../renderer/engine/records/faultsOf.ts';
import { mergeItems } from '../../../renderer/engine/records/mergeItems.ts';
import { newItem } from '../../../renderer/engine/records/newItem.ts';
import { recordsOfPlan } from '../../../renderer/engine/records/recordsOfPlan.ts';
import { textOfPlan } from '../../../renderer/engine/records/textOfPlan.ts';
import { all, put } from '../../support/editJson.ts';
import type { Edit } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { fullPlan } from './fullPlan.ts';
import { keptTask, keys } from './keptTask.ts';

function recordsWith(edit: Edit) {
  const source = smallPlan();
  edit(source);
  return recordsOfPlan(planSchema.parse(source), { shelfName: 'Field kit', taskNamed: 'plan', newId: keys() });
}

describe('records made of a plan', () => {
  it('are new: never kept, in the order of the file from 1 on, one part each, in the field kit, not retired', () => {
    const { shelf, items, task, outings, steps } = recordsWith(all());
    for (const { rev } of [shelf, task, ...items, ...outings, ...steps]) expect(rev).toBe(0);
    expect(items.map(({ position }) => position)).toEqual(items.map((_, index) => index + 1));
    expect(steps.map(({ position }) => position)).toEqual([1, 2, 3]);
    expect(outings.map(({ position }) => position)).toEqual([1]);
    for (const item of items) expect(item).toMatchObject({ parts: 1, kit: 'field', retired: false, shelf: shelf.id });
    expect(task).toMatchObject({ code: 'plan', name: 'plan', shelves: [shelf.id], places: [] });
  });

  it('say of the site and the share of the range what the file says, and nothing where it is silent', () => {
    const silent = recordsWith(all()).task;
    expect(silent).not.toHaveProperty('siteText');
    expect(silent).not.toHaveProperty('rangeShareMin');
    const said = recordsWith(all(put('task', { id: 'T-1', name: 'Mast', site: 'Hill' }), put('rangeShareMin', 0.2)));
    expect(said.task).toMatchObject({ code: 'T-1', siteText: 'Hill', rangeShareMin: 0.2 });
  });

  it('use up what the file says is consumed, and nothing else', () => {
    const useOf = (consumed: boolean | undefined) =>
      recordsWith(put('catalog.carryGear[0]', { id: 'C-1', mass: '20 g', onHand: 4, consumed })).items.find(
        ({ code }) => code === 'C-1',
      );
    expect(useOf(true)).toMatchObject({ use: 'consumable' });
    expect(useOf(false)).toMatchObject({ use: 'other' });
    expect(useOf(undefined)).toMatchObject({ use: 'other' });
  });

  it('keep a strength they know, and name one they do not', () => {
    expect(recordsWith(all()).items[0]).not.toHaveProperty('strength');
    const known = recordsWith(put('catalog.fasteners[0].strength', 'SAE J429 grade 5'));
    expect(known.items[0]).toMatchObject({ strength: 'SAE J429 grade 5' });
    expect(known.ignored).toEqual([]);
    const unknown = recordsWith(put('catalog.fasteners[0].strength', { hard: true }));
    expect(unknown.items[0]).not.toHaveProperty('strength');
    expect(unknown.ignored).toEqual(['catalog.fasteners[0].strength']);
  });
});

it.each(itemKinds)('a new %s was never kept and is one part', (kind) => {
  expect(newItem(kind, { id: 'k', shelf: 's' })).toMatchObject({
    rev: 0,
    parts: 1,
    kind,
    id: 'k',
    shelf: 's',
    code: '',
  });
  if (kind !== 'fastener' && kind !== 'bag')
    expect(newItem(kind, { id: 'k', shelf: 's' })).toMatchObject({ onHand: 1 });
});

it('a catalog worked into a shelf stands after what is there', () => {
  const { items } = recordsWith(all());
  const [first, second] = items as [Item, Item];
  const file = [
    { ...first, id: 'n1', code: 'N-1' },
    { ...second, id: 'n2', code: 'N-2' },
  ];
  const positions = (here: readonly Item[]) =>
    mergeItems({ here, file, differing: 'keep' }).puts.map(({ position }) => position);
  expect(positions([])).toEqual([1, 2]);
  expect(positions([{ ...first, position: 5 }])).toEqual([6, 7]);
  const { position: _position, ...unplaced } = first;
  expect(positions([unplaced as Item, { ...second, position: 3 }])).toEqual([4, 5]);
});

it('a plan is saved with lines and indents of two, and hashed without', () => {
  const plan = planSchema.parse({ catalog: {} });
  expect(textOfPlan(plan, { forPeople: true })).toMatch(/^\{\n {2}"catalog": \{\n {4}"fasteners": \[\]/);
  expect(textOfPlan(plan, { forPeople: true }).endsWith('}\n')).toBe(true);
  expect(textOfPlan(plan)).toMatch(/^\{"catalog":\{"fasteners":\[\]/);
  expect(textOfPlan(plan)).not.toContain('\n');
});

describe('a pass on the way to the callout', () => {
  const { records } = keptTask(fullPlan());
  const faults = (pass: string) => faultsOf('steps', { ...records.steps[0], passes: [pass] });
  it.each(['1 %', '50 %', '100 %', '0.5 N·m', '150 N·m'])('may be %s', (pass) => {
    expect(faults(pass)).toEqual([]);
  });
  it.each(['0 %', '101 %', '100.5 %', '0 N·m', '-5 N·m', '0.0 %'])('is none at %s', (pass) => {
    expect(faults(pass)).toMatchObject([
      { path: 'passes[0]', message: expect.stringContaining('write it as "50 %"') as string },
    ]);
  });
});
