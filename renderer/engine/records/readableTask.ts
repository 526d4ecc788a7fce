import type { Refusal } from '../../../shared-types/errors.ts';
import type { Plan } from '../../../shared-types/plan.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { RefusedError } from '../errors.ts';
import { planFrom } from '../plan/readPlan.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { allOf, plainWords } from './faults.ts';
import type { Origins, TaskRecords } from './planOfTask.ts';
import { planOfTask } from './planOfTask.ts';
import type { LeftOut } from './stockOfTask.ts';

/** A record that the planner cannot read yet, one for each thing that is wrong or still wanted. */
export interface Missing {
  table: 'items' | 'outings' | 'steps' | 'tasks';
  /** The record's key and code. */
  id: string;
  code: string;
  /** Field of the record, as `callout.min`; empty for the record as a whole. */
  path: string;
  reason: string;
}

export interface ReadableTask {
  /** The whole plan, with what cannot be read. */
  plan: Plan;
  /** All of it that can be read: steps are judged on this. */
  resolved: ResolvedPlan;
  /** What `resolved` lacks. */
  missing: Missing[];
  leftOut: LeftOut[];
  /** Nothing is missing: only then a bag is planned. */
  complete: boolean;
}

/**
 * A task read as far as it goes. A step without its callout is work in hand, and keeps nobody from judging the others;
 * a bag planned without it would be no answer, so `complete` says whether everything is there.
 */
export function readableTask(records: TaskRecords): ReadableTask {
  const { plan, leftOut, origins } = planOfTask(records);
  const clashes = leftOut.filter(({ isFault }) => isFault);
  const adrift = stepsAdrift(origins.steps, records);
  const missing: Missing[] = [
    ...missingShelves(records),
    ...clashes.map(({ table, id, code, reason }): Missing => ({ table, id, code, path: 'code', reason })),
    ...adrift.map(({ missing: of }) => of),
  ];
  const absent = new Map(leftOut.map(({ code, reason }) => [code, reason]));
  let rest = without({ plan, origins }, new Set(adrift.map(({ entry }) => entry)));
  for (;;) {
    const read = attempt(rest.plan);
    if (!Array.isArray(read)) return { plan, resolved: read, missing, leftOut, complete: missing.length === 0 };
    const found = read.map((refusal) => ({ refusal, at: originOf(refusal, rest.origins, records) }));
    for (const { refusal, at } of found) missing.push({ ...at.record, reason: reasonOf(refusal, absent) });
    for (const { at, refusal } of found) {
      if (at.record.table === 'items') absent.set(at.record.code, `it cannot be read: ${plainWords(refusal)}`);
    }
    // Each round takes at least one entry away, so that this ends; what stood on it is refused in the next.
    rest = without(rest, new Set(found.map(({ at }) => at.entry)));
  }
}

/** Steps whose interface is gone: without its access they would be judged as if nothing stood in the way. */
function stepsAdrift(steps: readonly TaskStep[], { interfaces }: TaskRecords): { missing: Missing; entry: string }[] {
  const kept = new Set(interfaces.map(({ id }) => id));
  return steps.flatMap(({ id, code, interface: at }, index) => {
    if (at === undefined || kept.has(at)) return [];
    const reason = 'the interface it names is not kept any more: name another, or none';
    return [{ missing: { table: 'steps', id, code, path: 'interface', reason }, entry: `steps[${index}]` }];
  });
}

function missingShelves({ task, shelves }: TaskRecords): Missing[] {
  const kept = new Set(shelves.map(({ id }) => id));
  return task.shelves.flatMap((shelf, index): Missing[] =>
    kept.has(shelf)
      ? []
      : [
          {
            table: 'tasks',
            id: task.id,
            code: task.code,
            path: `shelves[${index}]`,
            reason: 'a shelf it draws on is not kept any more: take it off the task',
          },
        ],
  );
}

interface Part {
  plan: Plan;
  origins: Origins;
}

function attempt(plan: Plan): ResolvedPlan | Refusal[] {
  try {
    return planFrom(plan);
  } catch (error) {
    if (error instanceof RefusedError) return allOf(error.refusal);
    throw error;
  }
}

interface Origin {
  record: Omit<Missing, 'reason'>;
  /** `catalog.sockets[2]`: what is taken out of the plan. */
  entry: string;
}

const entryPath = /^(?:catalog\.(?<list>\w+)|(?<top>outings|steps|places))\[(?<index>\d+)\]\.?(?<path>.*)$/;

function originOf(refusal: Refusal, origins: Origins, { task }: TaskRecords): Origin {
  const field = refusal.field ?? '';
  const { list, top, index = '', path = '' } = entryPath.exec(field)?.groups ?? {};
  const entry = `${list ?? top ?? 'task'}[${index}]`;
  const own = (table: Missing['table'], { id, code }: { id: string; code: string }, at: string): Origin => {
    // A plan's id is the record's code.
    return { record: { table, id, code, path: at === 'id' ? 'code' : at }, entry };
  };
  const lists: Partial<Record<string, readonly Item[]>> = origins.catalog;
  const item = lists[list ?? '']?.[Number(index)];
  if (item !== undefined) return own('items', item, path);
  const outing = top === 'outings' ? origins.outings[Number(index)] : undefined;
  if (outing !== undefined) return own('outings', outing, path);
  const step = top === 'steps' ? origins.steps[Number(index)] : undefined;
  if (step !== undefined) return own('steps', step, path);
  if (top === 'places' || field.startsWith('task')) return own('tasks', task, field);
  throw new RefusedError(refusal);
}

/** In a person's words; where a name is known but left out, with the reason for that. */
function reasonOf(refusal: Refusal, absent: ReadonlyMap<string, string>): string {
  const words = plainWords(refusal).replace(' has the id ', ' has the code ');
  const why =
    typeof refusal.value === 'string' && refusal.code === 'unknown-id' ? absent.get(refusal.value) : undefined;
  return why === undefined ? words : `${words}: it is left out (${why})`;
}

function without({ plan, origins }: Part, gone: ReadonlySet<string>): Part {
  const kept = <T>(list: string, entries: readonly T[]): T[] =>
    entries.filter((_, index) => !gone.has(`${list}[${index}]`));
  const lists = Object.keys(plan.catalog) as (keyof Plan['catalog'])[];
  const each = <R>(of: (list: keyof Plan['catalog']) => R[]) =>
    Object.fromEntries(lists.map((list) => [list, of(list)]));
  const { task: _, ...untitled } = plan;
  const { places } = plan;
  return {
    plan: {
      ...(gone.has('task[]') ? untitled : plan),
      ...(places === undefined ? {} : { places: kept('places', places) }),
      catalog: each((list) => kept<unknown>(list, plan.catalog[list])) as Plan['catalog'],
      outings: kept('outings', plan.outings),
      steps: kept('steps', plan.steps),
    },
    origins: {
      catalog: each((list) => kept(list, origins.catalog[list])) as Origins['catalog'],
      outings: kept('outings', origins.outings),
      steps: kept('steps', origins.steps),
    },
  };
}
