import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { faultsOf } from '../../../renderer/engine/records/faultsOf.ts';
import { mergeOfPlan } from '../../../renderer/engine/records/mergeOfPlan.ts';
import { planOfTask } from '../../../renderer/engine/records/planOfTask.ts';
import { planSchema } from '../../../shared-types/plan.ts';
import { all, put, type Edit } from '../../support/editJson.ts';
import { fullPlan } from '../records/fullPlan.ts';
import { keptTask } from '../records/keptTask.ts';

function refused(edit: Edit) {
  const plan: Record<string, unknown> = fullPlan();
  edit(plan);
  try {
    planFrom(plan);
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('the plan was taken');
}

const move = (says: object) =>
  put('steps[0].fastenerMoves', [{ id: 'F-1', quantity: 1, from: 'site', to: 'bag', ...says }]);

describe('what a plan says of its course', () => {
  it('is read in the engine’s units', () => {
    const { outings, steps, fasteners, gear } = planFrom(fullPlan());
    expect(outings[0]).toMatchObject({
      turnBackMin: 12,
      swaps: [['Lead', 'Base']],
      carryMaxKg: new Map([['Lead', 9]]),
    });
    expect(steps[0]).toMatchObject({
      count: 4,
      spread: { leastMin: 9, likelyMin: 12, mostMin: 20 },
      fastenerMoves: [{ id: 'F-1', quantity: 4, washers: 4, from: 'locker', to: 'site' }],
      safeToLeave: true,
      after: [],
    });
    expect(fasteners.get('F-1')).toMatchObject({ captive: false, looseWashers: 1, massKg: 0.1, onHand: 2 });
    expect(gear.get('C-1')).toMatchObject({ pouchPlaces: 12, supplies: { fastener: 'F-1', quantity: 4 } });
  });

  it('takes each fastener’s own washers along where a move does not say how many', () => {
    const plan: Record<string, unknown> = fullPlan();
    move({ quantity: 3 })(plan);
    expect(planFrom(plan).steps[0]?.fastenerMoves[0]).toMatchObject({ washers: 3, to: 'bag' });
    move({ quantity: 3, washers: 0, to: undefined })(plan);
    expect(planFrom(plan).steps[0]?.fastenerMoves[0]).toMatchObject({ washers: 0, to: null });
  });

  it.each<[string, Edit, string, string, unknown]>([
    ['a likely time under the least', put('steps[0].spread.likely', 8), 'steps[0].spread.likely', 'contradiction', 8],
    ['a longest time under the likely', put('steps[0].spread.most', 11), 'steps[0].spread.most', 'contradiction', 11],
    ['minutes outside the spread', put('steps[0].minutes', 21), 'steps[0].minutes', 'contradiction', 21],
    ['an unknown fastener', move({ id: 'F-9' }), 'steps[0].fastenerMoves[0].id', 'unknown-id', 'F-9'],
    ['an unknown place', move({ to: 'moon' }), 'steps[0].fastenerMoves[0].to', 'unknown-id', 'moon'],
    [
      'gear that supplies another',
      move({ id: 'F-2', from: 'C-1' }),
      'steps[0].fastenerMoves[0].from',
      'unknown-id',
      'C-1',
    ],
    ['gear to lay into', move({ to: 'C-1' }), 'steps[0].fastenerMoves[0].to', 'unknown-id', 'C-1'],
    ['a move to where it is', move({ to: 'site' }), 'steps[0].fastenerMoves[0].to', 'contradiction', 'site'],
    ['an unknown step before', put('steps[0].after', ['nothing']), 'steps[0].after[0]', 'unknown-id', 'nothing'],
    ['itself before', put('steps[0].after', ['fit']), 'steps[0].after[0]', 'unknown-id', 'fit'],
    [
      'a limit for nobody',
      put('outings[0].carryMax[0].role', 'Cook'),
      'outings[0].carryMax[0].role',
      'unknown-id',
      'Cook',
    ],
    [
      'a limit that is no mass',
      put('outings[0].carryMax[0].mass', '9 mm'),
      'outings[0].carryMax[0].mass',
      'wrong-kind',
      '9 mm',
    ],
    ['a swap with nobody', put('outings[0].swaps', [['Lead', 'Cook']]), 'outings[0].swaps[0][1]', 'unknown-id', 'Cook'],
    ['a swap with itself', put('outings[0].swaps', [['Lead', 'Lead']]), 'outings[0].swaps[0]', 'contradiction', 'Lead'],
    [
      'gear of unknown fasteners',
      put('catalog.carryGear[0].supplies.fastener', 'F-9'),
      'catalog.carryGear[0].supplies.fastener',
      'unknown-id',
      'F-9',
    ],
  ])('is refused by name: %s', (_, edit, field, code, value) => {
    expect(refused(edit)).toMatchObject({ field, code, value });
  });

  it.each([
    ['site', 'locker'],
    ['bag', 'site'],
    ['Base', 'site'],
    ['C-1', 'site'],
  ])('may move a fastener from %s to %s', (from, to) => {
    const plan: Record<string, unknown> = fullPlan();
    all(move({ from, to }))(plan);
    expect(planFrom(plan).steps[0]?.fastenerMoves[0]).toMatchObject({ from, to });
  });
});

describe('a kept record', () => {
  const { records, task } = keptTask(fullPlan());
  const [step] = records.steps;
  const [outing] = records.outings;

  it('with a spread or a limit that cannot be read is not kept', () => {
    expect(faultsOf('steps', { ...step, spread: { least: 9, likely: 8, most: 20 }, minutes: undefined })).toMatchObject(
      [{ path: 'spread.likely' }],
    );
    expect(faultsOf('outings', { ...outing, carryMax: [{ role: 'Lead', mass: '9' }] })).toMatchObject([
      { path: 'carryMax[0].mass' },
    ]);
    expect(faultsOf('outings', outing)).toEqual([]);
  });

  it.each([
    ['take', 'file'],
    ['keep', 'here'],
  ] as const)('that a file says otherwise is as the file has it or as it is here: %s', (differing, whose) => {
    const file = planSchema.parse(fullPlan());
    const [there, trip, gear] = [file.steps[0], file.outings[0], file.catalog.carryGear[0]];
    if (there === undefined || trip === undefined || gear === undefined) throw new Error('the full plan is not full');
    there.spread = { least: 10, likely: 12, most: 30 };
    there.safeToLeave = false;
    there.fastenerMoves = [{ id: 'F-1', quantity: 2, from: 'site', to: 'locker' }];
    trip.turnBack = 20;
    gear.pouchPlaces = 40;
    const [shelf] = records.shelves;
    let count = 0;
    const merge = mergeOfPlan({ ...records, tasks: [task] }, file, {
      shelf: shelf?.id ?? null,
      shelfName: 'x',
      task: task.id,
      taskNamed: 'x',
      differing,
      newId: () => `n${(count += 1)}`,
    });
    const told = [...merge.steps.differ, ...merge.outings.differ, ...merge.items.differ].flatMap(({ fields }) =>
      fields.map(({ path }) => path),
    );
    expect(told).toEqual(
      expect.arrayContaining([
        'spread.least',
        'spread.most',
        'safeToLeave',
        'fastenerMoves',
        'turnBack',
        'pouchPlaces',
      ]),
    );
    const after = <R extends { id: string }>(table: string, rows: readonly R[]): R[] =>
      rows.map(
        (row) => (merge.puts.find((one) => one.table === table && one.put.id === row.id)?.put as R | undefined) ?? row,
      );
    const { plan } = planOfTask({
      ...records,
      items: after('items', records.items),
      outings: after('outings', records.outings),
      steps: after('steps', records.steps),
    });
    const due = whose === 'file' ? file : planSchema.parse(fullPlan());
    expect(plan.steps[0]).toEqual(due.steps[0]);
    expect(plan.outings[0]).toEqual(due.outings[0]);
    expect(plan.catalog.carryGear).toEqual(due.catalog.carryGear);
  });
});
