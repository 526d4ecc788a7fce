import type { Plan, PlanCatalog, PlanStep } from '../../../shared-types/plan.ts';
import type { Item, Shelf } from '../../../shared-types/records/item.ts';
import type { Interface, Site } from '../../../shared-types/records/site.ts';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { inOrder } from './inOrder.ts';
import { planEntryOf } from './planEntries.ts';
import { picked, planFields } from './planFields.ts';
import { stockOfTask, type LeftOut } from './stockOfTask.ts';

/** A task and the tables it refers to. Records of other tasks, shelves and sites may be among them. */
export interface TaskRecords {
  task: Task;
  outings: readonly TaskOuting[];
  steps: readonly TaskStep[];
  interfaces: readonly Interface[];
  sites: readonly Site[];
  shelves: readonly Shelf[];
  items: readonly Item[];
}

/** Which record each entry of a plan was made of, list by list in the plan's order. */
export interface Origins {
  catalog: { [L in keyof PlanCatalog]: Item[] };
  outings: TaskOuting[];
  steps: TaskStep[];
}

export interface ComposedPlan {
  plan: Plan;
  /** Of the task's shelves, what the plan's catalog does not have. */
  leftOut: LeftOut[];
  origins: Origins;
}

/**
 * The plan of a task from its records. Pure, and a matter of what people see alone: neither keys nor revisions of the
 * records change it, so that the same work gives the same text and the same hash.
 *
 * Where a step is silent, its interface gives fastener, count and access; the interface's watch-outs come before its own.
 *
 * @returns the plan, what of the stock it leaves out, and which record each of its entries came from
 */
export function planOfTask(records: TaskRecords): ComposedPlan {
  const { task } = records;
  const { stock, leftOut } = stockOfTask(records);
  const { catalog, origins } = catalogOf(stock);
  const outings = inOrder(records.outings.filter((outing) => outing.task === task.id));
  const steps = inOrder(records.steps.filter((step) => step.task === task.id));
  const interfaces = new Map(records.interfaces.map((it) => [it.id, it]));
  const plan: Plan = {
    task: taskEntry(task, records.sites),
    catalog,
    outings: outings.map((o) => ({ id: o.code, ...picked(o, planFields.outing) })),
    steps: steps.map((step) => stepEntry(step, interfaces.get(step.interface ?? '') ?? null)),
    ...(task.places.length === 0 ? {} : { places: task.places }),
    ...picked(task, ['rangeShareMin']),
  };
  return { plan, leftOut, origins: { catalog: origins, outings, steps } };
}

/** A task’s own lines as a plan writes them. */
export function taskEntry(task: Task, sites: readonly Site[]): NonNullable<Plan['task']> {
  const kept = sites.find(({ id }) => id === task.site);
  const site = task.siteText ?? kept?.name ?? kept?.code;
  return { id: task.code, ...picked(task, ['name', 'about', 'crew']), ...(site === undefined ? {} : { site }) };
}

function catalogOf(stock: readonly Item[]): { catalog: PlanCatalog; origins: Origins['catalog'] } {
  const catalog: PlanCatalog = emptyLists();
  const origins: Origins['catalog'] = emptyLists();
  for (const item of stock) {
    const made = planEntryOf(item);
    if (made === null) continue;
    // An entry belongs to the list it names; the compiler does not follow one union through two places.
    (catalog[made.list] as unknown[]).push(made.entry);
    origins[made.list].push(item);
  }
  return { catalog, origins };
}

function emptyLists() {
  return { fasteners: [], sockets: [], extensions: [], drivers: [], torqueTools: [], carryGear: [], bags: [] };
}

/** A step as a plan writes it, its interface’s words filled in. */
export function stepEntry(step: TaskStep, at: Interface | null): PlanStep {
  const own = { id: step.code, ...picked(step, planFields.step) };
  if (at === null) return own;
  // Some of its positions are not all of them: how many, only the step can say.
  const count = step.positions === undefined ? picked(at, ['count']) : {};
  const turned = step.action === 'use' ? {} : picked(at, ['fastener', 'access']);
  const watchOuts = [...new Set([...(at.watchOuts ?? []), ...(step.watchOuts ?? [])])];
  return { ...turned, ...count, ...own, ...(watchOuts.length === 0 ? {} : { watchOuts }) };
}
