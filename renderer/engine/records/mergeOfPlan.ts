import type { Plan } from '../../../shared-types/plan.ts';
import type { RecordOf, TableName } from '../../../shared-types/records/index.ts';
import type { Shelf } from '../../../shared-types/records/item.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import type { WatchOut } from '../../../shared-types/records/watchOut.ts';
import { carriedToSteps, withoutCarried } from '../watchOuts/index.ts';
import { freeCode } from './freeNames.ts';
import { mergeItems } from './mergeItems.ts';
import { mergeOutings, mergeSteps } from './mergeOrdered.ts';
import { mergeTask } from './mergeTask.ts';
import type { Comparison, Differing } from './merged.ts';
import type { TaskRecords } from './planOfTask.ts';
import { readableTask, type Missing } from './readableTask.ts';
import { recordsOfPlan, type PlanRecords } from './recordsOfPlan.ts';

/** Everything kept that a plan file may meet. */
export interface KeptWork extends Omit<TaskRecords, 'task'> {
  tasks: readonly Task[];
  /** What was learned: words of the file that are carried to a step anyway are no difference. */
  watchOuts?: readonly WatchOut[];
}

export interface IntoKept {
  /** Key of the shelf that takes the file's catalog; null for a new one. */
  shelf: string | null;
  /** Name of the new shelf. */
  shelfName: string;
  /** Key of the task that the file's outings and steps go into; null for a new one. */
  task: string | null;
  /** Name and code of a new task where the file names none. */
  taskNamed: string;
  /** Which version holds where both have an entry and they differ. */
  differing: 'keep' | 'take';
  newId: () => string;
}

/** One record to be kept; an import takes nothing away. */
export type PlanPut = { [T in TableName]: { table: T; put: RecordOf<T> } }[TableName];

export interface MergeOfPlan {
  items: Comparison;
  outings: Comparison;
  steps: Comparison;
  /** `add`: a new task. `none`: the file is a catalog alone. */
  task: 'none' | 'add' | 'same' | Differing;
  /** All of it is one act, so that one undo takes it back whole. */
  puts: PlanPut[];
  /** The task as it will be; null where the file is a catalog alone. */
  result: Task | null;
  /** The shelf that takes the file's catalog. */
  shelf: Shelf;
  /** What the planner will still need of that task. */
  missing: Missing[];
  /** Fields of the file that no record has. */
  ignored: string[];
}

/**
 * What keeping a plan file would do, before anything is done: what comes new, what is the same, what differs field by
 * field, what is here alone. Nothing is overwritten unless `differing` says so, and nothing is ever removed.
 */
export function mergeOfPlan(kept: KeptWork, plan: Plan, into: IntoKept): MergeOfPlan {
  const file = recordsOfPlan(plan, into);
  const shelf = kept.shelves.find(({ id }) => id === into.shelf) ?? file.shelf;
  const items = mergeItems({
    here: kept.items.filter((item) => item.shelf === shelf.id),
    file: file.items.map((item) => ({ ...item, shelf: shelf.id })),
    differing: into.differing,
  });
  const work = holdsTask(plan) ? mergeWork(kept, file, shelf, into) : null;
  const puts: PlanPut[] = [
    ...(shelf === file.shelf ? [{ table: 'shelves' as const, put: shelf }] : []),
    ...items.puts.map((put) => ({ table: 'items' as const, put })),
    ...(work?.puts ?? []),
  ];
  const result = work?.result ?? null;
  return {
    items: items.comparison,
    outings: work?.outings ?? nothing,
    steps: work?.steps ?? nothing,
    task: work?.task ?? 'none',
    puts,
    result,
    shelf,
    missing: result === null ? [] : readableTask({ ...after(kept, puts), task: result }).missing,
    ignored: file.ignored,
  };
}

const nothing: Comparison = { add: [], same: [], differ: [], onlyHere: [] };

/** A file that says nothing of a task is stock for a shelf. */
export function holdsTask(plan: Plan): boolean {
  return plan.task !== undefined || plan.outings.length > 0 || plan.steps.length > 0;
}

/** The file's steps without the words that are carried to the step of the same code here. */
function unlearned(x: {
  kept: KeptWork;
  task: Task;
  here: readonly TaskStep[];
  file: readonly TaskStep[];
}): TaskStep[] {
  const interfaces = new Map(x.kept.interfaces.map((one) => [one.id, one]));
  const carried = carriedToSteps({ task: x.task, steps: x.here, interfaces, records: x.kept.watchOuts ?? [] });
  const byCode = new Map(x.here.map((step) => [step.code, step]));
  return x.file.map((step) => {
    const one = byCode.get(step.code);
    const own = [...(one?.watchOuts ?? []), ...(interfaces.get(one?.interface ?? '')?.watchOuts ?? [])];
    return withoutCarried(step, carried.get(step.code) ?? [], own);
  });
}

function mergeWork(kept: KeptWork, file: PlanRecords, shelf: Shelf, into: IntoKept) {
  const { told, puts, result } = taskPart(kept, file.task, shelf, into);
  const { differing } = into;
  const ofTask = <R extends { task: string }>(rows: readonly R[]) => rows.filter(({ task }) => task === result.id);
  const intoTask = <R extends { task: string }>(rows: readonly R[]) => rows.map((row) => ({ ...row, task: result.id }));
  const outings = mergeOutings({ here: ofTask(kept.outings), file: intoTask(file.outings), differing });
  const { interfaces } = kept;
  const here = ofTask(kept.steps);
  const given = unlearned({ kept, task: result, here, file: intoTask(file.steps) });
  const steps = mergeSteps({ here, file: given, differing, interfaces });
  return {
    task: told,
    result,
    outings: outings.comparison,
    steps: steps.comparison,
    puts: [
      ...puts.map((put) => ({ table: 'tasks' as const, put })),
      ...outings.puts.map((put) => ({ table: 'outings' as const, put })),
      ...steps.puts.map((put) => ({ table: 'steps' as const, put })),
    ],
  };
}

function taskPart(
  kept: KeptWork,
  file: Task,
  shelf: Shelf,
  into: IntoKept,
): { told: 'add' | 'same' | Differing; puts: Task[]; result: Task } {
  const { differing } = into;
  const here = kept.tasks.find(({ id }) => id === into.task);
  if (here !== undefined) return mergeTask({ here, file, shelf: shelf.id, differing, sites: kept.sites });
  const taken = kept.tasks.map(({ code }) => code);
  const added: Task = { ...file, code: freeCode(file.code, taken), shelves: [shelf.id] };
  return { told: 'add', puts: [added], result: added };
}

/** The tables as they will be. */
function after(kept: KeptWork, puts: readonly PlanPut[]): KeptWork {
  const withPuts = <T extends TableName>(table: T, rows: readonly RecordOf<T>[]): RecordOf<T>[] => {
    const byKey = new Map(rows.map((row) => [row.id, row]));
    for (const one of puts) if (one.table === table) byKey.set(one.put.id, one.put as RecordOf<T>);
    return [...byKey.values()];
  };
  return {
    ...kept,
    shelves: withPuts('shelves', kept.shelves),
    items: withPuts('items', kept.items),
    outings: withPuts('outings', kept.outings),
    steps: withPuts('steps', kept.steps),
  };
}
