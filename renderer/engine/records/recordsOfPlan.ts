import type { Plan, PlanCatalog } from '../../../shared-types/plan.ts';
import { fastenerRecord, type Item, type ItemKind, type Shelf } from '../../../shared-types/records/item.ts';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';

export interface PlanRecords {
  shelf: Shelf;
  items: Item[];
  task: Task;
  outings: TaskOuting[];
  steps: TaskStep[];
  /** Fields of the file that no record has, by path. */
  ignored: string[];
}

interface NewRecords {
  shelfName: string;
  /** What the task is called where the file names none. */
  taskNamed: string;
  newId: () => string;
}

/**
 * A plan file's content as the records of a new shelf and a new task. `planOfTask` of them gives the same plan back.
 *
 * What a file does not say is set as a new entry has it: one part each, field kit, not retired. A file knows no
 * interfaces and no kept sites, so that every step says its own access and the site stays the words it is.
 *
 * @returns the records, none of them kept yet, and what of the plan has no place in a record
 */
export function recordsOfPlan(plan: Plan, { shelfName, taskNamed, newId }: NewRecords): PlanRecords {
  const shelf: Shelf = { id: newId(), rev: 0, name: shelfName };
  const { items, ignored } = itemsOfCatalog(plan.catalog, { shelf: shelf.id, newId });
  const { id: code, site, ...said } = plan.task ?? { id: taskNamed, name: taskNamed };
  const task: Task = {
    ...said,
    id: newId(),
    rev: 0,
    code,
    shelves: [shelf.id],
    places: plan.places ?? [],
    ...(site === undefined ? {} : { siteText: site }),
    ...(plan.rangeShareMin === undefined ? {} : { rangeShareMin: plan.rangeShareMin }),
  };
  const ofTask = (position: number) => ({ id: newId(), rev: 0, task: task.id, position: position + 1 });
  return {
    shelf,
    items,
    task,
    outings: plan.outings.map(({ id, ...own }, index) => ({ ...own, ...ofTask(index), code: id })),
    steps: plan.steps.map(({ id, ...own }, index) => ({ ...own, ...ofTask(index), code: id })),
    ignored,
  };
}

const kindOfList = {
  fasteners: 'fastener',
  sockets: 'socket',
  extensions: 'extension',
  drivers: 'driver',
  torqueTools: 'torque-tool',
  carryGear: 'gear',
  bags: 'bag',
} as const satisfies Record<keyof PlanCatalog, ItemKind>;

export const catalogLists = Object.keys(kindOfList) as (keyof PlanCatalog)[];

/** Items of one shelf from a plan's catalog, in its order. */
export function itemsOfCatalog(
  catalog: PlanCatalog,
  { shelf, newId }: { shelf: string; newId: () => string },
): { items: Item[]; ignored: string[] } {
  const ignored: string[] = [];
  const items: Item[] = [];
  const common = (code: string) => ({
    id: newId(),
    rev: 0,
    shelf,
    code,
    position: items.length + 1,
    retired: false,
    parts: 1,
    kit: 'field' as const,
  });
  for (const [index, { id, strength, ...own }] of catalog.fasteners.entries()) {
    // A plan file may say of strength what it likes; the planner does not read it.
    const known = fastenerRecord.shape.strength.safeParse(strength);
    if (!known.success) ignored.push(`catalog.fasteners[${index}].strength`);
    const kept = known.success && known.data !== undefined ? { strength: known.data } : {};
    items.push({ ...own, ...common(id), ...kept, kind: 'fastener' });
  }
  for (const { id, ...own } of catalog.sockets) items.push({ ...own, ...common(id), kind: 'socket' });
  for (const { id, kind: form, ...own } of catalog.extensions)
    items.push({ ...own, ...common(id), kind: 'extension', form });
  for (const { id, ...own } of catalog.drivers) items.push({ ...own, ...common(id), kind: 'driver' });
  for (const { id, ...own } of catalog.torqueTools) items.push({ ...own, ...common(id), kind: 'torque-tool' });
  for (const { id, ...own } of catalog.carryGear)
    items.push({ ...own, ...common(id), kind: 'gear', use: own.consumed === true ? 'consumable' : 'other' });
  for (const { id, ...own } of catalog.bags) items.push({ ...own, ...common(id), kind: 'bag' });
  return { items, ignored };
}
