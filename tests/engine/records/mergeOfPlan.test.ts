import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planSchema, type Plan } from '../../../shared-types/plan.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import { faultsOf } from '../../../renderer/engine/records/faultsOf.ts';
import { inOrder } from '../../../renderer/engine/records/inOrder.ts';
import { mergedOrder } from '../../../renderer/engine/records/mergedOrder.ts';
import {
  mergeOfPlan,
  type IntoKept,
  type KeptWork,
  type PlanPut,
} from '../../../renderer/engine/records/mergeOfPlan.ts';
import { planOfTask } from '../../../renderer/engine/records/planOfTask.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { fullPlan } from './fullPlan.ts';
import { keptTask, keys } from './keptTask.ts';
import { shareOf } from '../../support/shareOf.ts';

const parsed = (plan: unknown): Plan => planSchema.parse(plan);

function keptWork(plan: unknown): KeptWork & { shelf: string; task: string } {
  const { records, shelf, task } = keptTask(plan, 'h');
  const kept = <R extends { rev: number }>(rows: readonly R[]) => rows.map((row) => ({ ...row, rev: 3 }));
  return {
    shelf: shelf.id,
    task: task.id,
    tasks: kept([task]),
    shelves: kept([shelf]),
    items: kept(records.items),
    outings: kept(records.outings),
    steps: kept(records.steps),
    interfaces: [],
    sites: [],
  };
}

const fresh: IntoKept = {
  shelf: null,
  shelfName: 'From a file',
  task: null,
  taskNamed: 'plan',
  differing: 'keep',
  newId: () => '',
};
const into = (kept: { shelf: string; task: string }, differing: 'keep' | 'take'): IntoKept => ({
  ...fresh,
  shelf: kept.shelf,
  task: kept.task,
  differing,
  newId: keys('n'),
});

/** The tables after the puts, and the plan of the task then. */
function planAfter(kept: KeptWork, puts: readonly PlanPut[], task: string): Plan {
  const rows = <R extends { id: string }>(table: PlanPut['table'], before: readonly R[]): R[] => {
    const byKey = new Map(before.map((row) => [row.id, row]));
    for (const put of puts) if (put.table === table) byKey.set(put.put.id, put.put as unknown as R);
    return [...byKey.values()];
  };
  const of = rows('tasks', kept.tasks).find(({ id }) => id === task);
  if (of === undefined) throw new Error(task);
  return planOfTask({
    task: of,
    shelves: rows('shelves', kept.shelves),
    items: rows('items', kept.items),
    outings: rows('outings', kept.outings),
    steps: rows('steps', kept.steps),
    interfaces: kept.interfaces,
    sites: kept.sites,
  }).plan;
}

describe('a file brought in beside what is kept', () => {
  const kept = keptWork(fullPlan());

  it('is all new, on a shelf of its own, with a task of another code', () => {
    const merge = mergeOfPlan(kept, parsed(fullPlan()), { ...fresh, newId: keys('n') });
    expect(merge.task).toBe('add');
    expect(merge.result?.code).toBe('T-1-2');
    expect(merge.shelf.name).toBe('From a file');
    expect(merge.items).toMatchObject({ same: [], differ: [], onlyHere: [] });
    expect(merge.steps.add).toEqual(['fit']);
    const before = new Set(
      [...kept.shelves, ...kept.items, ...kept.tasks, ...kept.outings, ...kept.steps].map(({ id }) => id),
    );
    expect(merge.puts.filter(({ put }) => before.has(put.id) || put.rev !== 0)).toEqual([]);
    const { task, ...plan } = planAfter(kept, merge.puts, merge.result?.id ?? '');
    const { task: own, ...file } = parsed(fullPlan());
    expect(plan).toEqual(file);
    expect(task).toEqual({ ...own, id: 'T-1-2' });
  });

  it('that holds a catalog alone brings no task', () => {
    const { catalog } = smallPlan();
    const merge = mergeOfPlan(kept, parsed({ catalog }), { ...fresh, newId: keys('n') });
    expect(merge.task).toBe('none');
    expect(merge.result).toBeNull();
    expect(new Set(merge.puts.map(({ table }) => table))).toEqual(new Set(['shelves', 'items']));
  });
});

describe('the same file brought in again, into what it made', () => {
  it.each(['keep', 'take'] as const)('finds everything the same and writes nothing (%s)', (differing) => {
    const kept = keptWork(fullPlan());
    const merge = mergeOfPlan(kept, parsed(fullPlan()), into(kept, differing));
    expect(merge.puts).toEqual([]);
    expect(merge.task).toBe('same');
    expect(merge.items).toMatchObject({ add: [], differ: [], onlyHere: [] });
    expect(merge.steps).toEqual({ add: [], same: ['fit'], differ: [], onlyHere: [] });
  });
});

describe('a file that differs', () => {
  const kept = keptWork(fullPlan());
  const file = parsed(fullPlan());
  const [socket] = file.catalog.sockets;
  const [step] = file.steps;
  const [torqueTool] = file.catalog.torqueTools;
  if (socket === undefined || step === undefined || torqueTool === undefined) throw new Error('the sample is short');
  socket.length = '40 mm';
  delete socket.innerDepth;
  step.callout = { min: '30 N·m', max: '44 N·m' };
  delete step.access;
  torqueTool.accuracyOfReading = 0.03;
  file.catalog.carryGear.push({ id: 'C-2', mass: '10 g', onHand: 1 });
  file.catalog.drivers = [];
  file.steps.unshift({ id: 'before', outing: 'O-1', role: 'Base', action: 'use' });
  if (file.task !== undefined) file.task.name = 'Another name';
  file.places = [{ id: 'shelf', name: 'Rock shelf' }];
  kept.items = kept.items.map((item) =>
    item.kind === 'torque-tool'
      ? { ...item, kit: 'training', serial: '17', accuracyFrom: 'certificate', keptAt: 'Bin 3' }
      : item,
  );

  it('is told field by field, here and in the file', () => {
    const { items, steps, task } = mergeOfPlan(kept, file, into(kept, 'keep'));
    expect(items.add).toEqual(['C-2']);
    expect(items.onlyHere).toEqual(['R-1']);
    expect(items.differ).toEqual([
      {
        table: 'items',
        code: 'S-16',
        name: 'A name',
        fields: [
          { path: 'length', here: '30 mm', file: '40 mm' },
          { path: 'innerDepth', here: '15 mm', file: null },
        ],
      },
      {
        table: 'items',
        code: 'TT-1',
        name: 'A name',
        fields: [{ path: 'accuracyOfReading', here: '0.04', file: '0.03' }],
      },
    ]);
    expect(steps.differ.map(({ fields }) => fields.map(({ path }) => path))).toEqual([
      [
        'callout.max',
        'access.depth',
        'access.clearDiameter',
        'access.profile',
        'access.swingDeg',
        'access.handleRadius',
        'access.protrusion',
      ],
    ]);
    expect(task).toMatchObject({
      fields: [
        { path: 'name', here: 'Change a part', file: 'Another name' },
        { path: 'places.shelf.name', here: null, file: 'Rock shelf' },
      ],
    });
  });

  it('changes nothing that is here where it shall be kept, but adds what is new', () => {
    const { puts } = mergeOfPlan(kept, file, into(kept, 'keep'));
    const after = planAfter(kept, puts, kept.task);
    const before = planAfter(kept, [], kept.task);
    expect(after.catalog.sockets).toEqual(before.catalog.sockets);
    expect(after.catalog.drivers).toEqual(before.catalog.drivers);
    expect(after.steps.find(({ id }) => id === 'fit')).toEqual(before.steps[0]);
    expect(after.steps.map(({ id }) => id)).toEqual(['before', 'fit']);
    expect(after.task).toEqual(before.task);
    expect(after.places).toEqual([...(before.places ?? []), { id: 'shelf', name: 'Rock shelf' }]);
    expect(puts.flatMap(({ table, put }) => (put.rev === 0 ? [] : [table]))).toEqual(['tasks']);
  });

  it('has its word where it shall be taken, and what no file knows stays', () => {
    const { puts } = mergeOfPlan(kept, file, into(kept, 'take'));
    const after = planAfter(kept, puts, kept.task);
    expect(after.catalog.sockets).toEqual(file.catalog.sockets);
    expect(after.catalog.drivers.map(({ id }) => id)).toEqual(['R-1']);
    expect(after.steps).toEqual(file.steps);
    expect(after.task?.name).toBe('Another name');
    expect(after.places?.map(({ id }) => id)).toEqual(['locker', 'shelf']);
    const tool = puts.flatMap((put) => (put.table === 'items' && put.put.code === 'TT-1' ? [put.put] : []));
    // The certificate was for the accuracy that was here.
    expect(tool).toMatchObject([{ kit: 'training', serial: '17', keptAt: 'Bin 3', rev: 3, accuracyOfReading: 0.03 }]);
    expect(tool[0]).not.toHaveProperty('accuracyFrom');
    expect(puts.flatMap(({ table, put }) => faultsOf(table, put))).toEqual([]);
  });

  it('takes the accuracy of full scale away where the file has one of the reading', () => {
    const known = kept.items.map((item): Item => {
      if (item.kind !== 'torque-tool' || item.code !== 'TT-1') return item;
      const { accuracyOfReading: _, ...tool } = item;
      return { ...tool, accuracyOfFullScale: 0.01 };
    });
    const { puts } = mergeOfPlan({ ...kept, items: known }, file, into(kept, 'take'));
    expect(puts.flatMap(({ table, put }) => faultsOf(table, put))).toEqual([]);
  });

  it('lets another kind of thing under the same code be seen and taken', () => {
    const other = parsed(fullPlan());
    other.catalog.carryGear = [];
    other.catalog.bags.push({ id: 'C-1', massMax: '2 kg' });
    const merge = mergeOfPlan(kept, other, into(kept, 'take'));
    expect(merge.items.differ.find(({ code }) => code === 'C-1')?.fields[0]).toEqual({
      path: 'kind',
      here: 'gear',
      file: 'bag',
    });
    const taken = merge.puts.find(({ put }) => 'code' in put && put.code === 'C-1');
    expect(taken?.put).toMatchObject({ kind: 'bag', rev: 3 });
    expect(faultsOf('items', taken?.put)).toEqual([]);
  });

  it('brings back what is retired only where it is asked to', () => {
    const retired = { ...kept, items: kept.items.map((item) => ({ ...item, retired: item.code === 'B-1' })) };
    const asKept = mergeOfPlan(retired, file, into(kept, 'keep'));
    expect(asKept.items.differ.find(({ code }) => code === 'B-1')?.fields).toEqual([
      { path: 'retired', here: 'true', file: 'false' },
    ]);
    expect(asKept.puts.filter(({ put }) => 'code' in put && put.code === 'B-1')).toEqual([]);
    expect(asKept.missing.map(({ code }) => code)).toContain('O-1');
    expect(mergeOfPlan(retired, file, into(kept, 'take')).missing).toEqual([]);
  });

  it('drops a step’s interface where that would say what the file does not', () => {
    const at = {
      id: 'i',
      rev: 1,
      site: 's',
      code: 'A',
      kind: 'fastener' as const,
      fastener: 'F-1',
      count: 9,
      access: { depth: '9 mm' },
    };
    const linked = {
      ...kept,
      interfaces: [at],
      steps: kept.steps.map((one) => ({ ...one, interface: 'i', positions: '1-4' })),
    };
    const taken = mergeOfPlan(linked, file, into(kept, 'take'));
    expect(planAfter(linked, taken.puts, kept.task).steps).toEqual(file.steps);
    const unchanged = mergeOfPlan(linked, parsed(fullPlan()), into(kept, 'take'));
    expect(unchanged.puts).toEqual([]);
  });
});

describe('any two plans', () => {
  const arbitrary = (stem: string) =>
    fc
      .record({
        gear: fc.uniqueArray(fc.integer({ min: 1, max: 6 }), { maxLength: 6 }),
        mass: fc.integer({ min: 1, max: 3 }),
        steps: fc.uniqueArray(fc.integer({ min: 1, max: 9 }), { maxLength: 9 }),
        minutes: fc.integer({ min: 1, max: 3 }),
      })
      .map(({ gear, mass, steps, minutes }) =>
        parsed({
          task: { id: 'T', name: stem },
          catalog: { carryGear: gear.map((n) => ({ id: `g${n}`, mass: `${n === 2 ? mass : 1} g`, onHand: 1 })) },
          outings: [{ id: 'o', roles: ['Lead'], bags: [] }],
          steps: steps.map((n) => ({
            id: `s${n}`,
            outing: 'o',
            role: 'Lead',
            action: 'use',
            minutes: n === 4 ? minutes : 1,
          })),
        }),
      );

  it('lose nothing when one is worked into the other, and are one after it when the file’s word is taken', () => {
    fc.assert(
      fc.property(arbitrary('here'), arbitrary('file'), (here, file) => {
        const kept = keptWork(here);
        const taken = mergeOfPlan(kept, file, into(kept, 'take'));
        const after = planAfter(kept, taken.puts, kept.task);
        const ids = (list: readonly { id: string }[]) => list.map(({ id }) => id);
        for (const list of ['steps', 'catalog'] as const) {
          const of = (plan: Plan) => (list === 'steps' ? plan.steps : plan.catalog.carryGear);
          expect(ids(of(after)).toSorted()).toEqual([...new Set([...ids(of(here)), ...ids(of(file))])].toSorted());
          for (const entry of of(file)) expect(of(after)).toContainEqual(entry);
        }
        // The file's steps stand in the file's order.
        expect(ids(after.steps).filter((id) => ids(file.steps).includes(id))).toEqual(ids(file.steps));
        const kept2 = mergeOfPlan(kept, file, into(kept, 'keep'));
        const safe = planAfter(kept, kept2.puts, kept.task);
        for (const entry of here.steps) expect(safe.steps).toContainEqual(entry);
        expect(ids(safe.steps).filter((id) => ids(here.steps).includes(id))).toEqual(ids(here.steps));
        expect(ids(safe.steps).toSorted()).toEqual(ids(after.steps).toSorted());
      }),
      { numRuns: shareOf(300), seed: 11 },
    );
  });
});

describe('the order of two lists worked into one', () => {
  const here = inOrder([
    { code: 'a', position: 1 },
    { code: 'b', position: 2 },
    { code: 'c', position: 3 },
  ]);
  const placesOf = (file: string[], leading: 'here' | 'file') => Object.fromEntries(mergedOrder(here, file, leading));

  it.each([
    [['a', 'x', 'b', 'c'], { a: 1, x: 1.5, b: 2, c: 3 }],
    [['x', 'a'], { x: 0, a: 1, b: 2, c: 3 }],
    [['c', 'x', 'y'], { a: 1, b: 2, c: 3, x: 4, y: 5 }],
    [['c', 'a'], { a: 1, b: 2, c: 3 }],
  ])('puts %j between those it stands between, and moves nothing that is here', (file, places) => {
    expect(placesOf(file, 'here')).toEqual(places);
  });

  it('numbers all anew where the file’s order is another and holds', () => {
    expect(placesOf(['c', 'a'], 'file')).toEqual({ c: 1, a: 2, b: 3 });
  });
});
