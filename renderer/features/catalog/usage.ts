import type { Item } from '../../../shared-types/records/item.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';

/** The tables in which codes of the catalog stand. */
export interface CodeHolders {
  items: ReadonlyMap<string, Item>;
  tasks: ReadonlyMap<string, Task>;
  outings: ReadonlyMap<string, TaskOuting>;
  steps: ReadonlyMap<string, TaskStep>;
  interfaces: ReadonlyMap<string, Interface>;
}

/** What names an item by its code. */
export interface Usage {
  steps: { task: Task; step: TaskStep }[];
  outings: { task: Task; outing: TaskOuting }[];
  interfaces: Interface[];
  /** Packs on the same shelf that this fastener comes in. */
  packs: GearItem[];
}

type GearItem = Extract<Item, { kind: 'gear' }>;

export function usageCount({ steps, outings, interfaces, packs }: Usage): number {
  return steps.length + outings.length + interfaces.length + packs.length;
}

function stepNames(step: TaskStep, code: string): boolean {
  return (
    step.fastener === code ||
    step.hold?.fastener === code ||
    step.gear?.some(({ id }) => id === code) === true ||
    step.moves?.some(({ id }) => id === code) === true
  );
}

/**
 * Steps and outings of the tasks that draw on the item's shelf, and interfaces at such a task's site. A task that has the
 * same code from another of its shelves means that one, or no one can tell: it is not counted. An interface at a site of
 * no task counts where no other shelf has the code.
 */
export function usageOf(item: Item, holders: CodeHolders): Usage {
  const { code, shelf } = item;
  const others = new Set<string>();
  const packs: GearItem[] = [];
  for (const other of holders.items.values()) {
    if (other.code === code && other.shelf !== shelf) others.add(other.shelf);
    if (other.kind === 'gear' && other.shelf === shelf && other.supplies?.fastener === code) packs.push(other);
  }
  const tasks = [...holders.tasks.values()];
  const drawing = tasks.filter(
    ({ shelves }) => shelves.includes(shelf) && !shelves.some((key) => key !== shelf && others.has(key)),
  );
  const taskOf = new Map(drawing.map((task) => [task.id, task]));
  const usage: Usage = { steps: [], outings: [], interfaces: [], packs };
  const sites = new Set(drawing.map(({ site }) => site));
  const touched = new Set<string>();
  for (const step of holders.steps.values()) {
    const task = taskOf.get(step.task);
    if (task === undefined) continue;
    if (step.interface !== undefined) touched.add(step.interface);
    if (stepNames(step, code)) usage.steps.push({ task, step });
  }
  for (const outing of holders.outings.values()) {
    const task = taskOf.get(outing.task);
    if (task !== undefined && outing.bags.includes(code)) usage.outings.push({ task, outing });
  }
  const sitesOfTasks = new Set(tasks.map(({ site }) => site));
  for (const at of holders.interfaces.values()) {
    if (at.fastener !== code) continue;
    const alone = others.size === 0 && !sitesOfTasks.has(at.site);
    if (sites.has(at.site) || touched.has(at.id) || alone) usage.interfaces.push(at);
  }
  return usage;
}

/** The step with another code in the place of one; null where it does not name it. */
export function stepRenamed(step: TaskStep, from: string, to: string): TaskStep | null {
  if (!stepNames(step, from)) return null;
  const renamed = <T extends { id: string }>(list: T[]): T[] =>
    list.map((one) => (one.id === from ? { ...one, id: to } : one));
  return {
    ...step,
    ...(step.fastener === from ? { fastener: to } : {}),
    ...(step.hold?.fastener === from ? { hold: { ...step.hold, fastener: to } } : {}),
    ...(step.gear === undefined ? {} : { gear: renamed(step.gear) }),
    ...(step.moves === undefined ? {} : { moves: renamed(step.moves) }),
  };
}
