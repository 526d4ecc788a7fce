import { planSchema, type Plan } from '../../../shared-types/plan.ts';
import type { TaskRecords } from '../../../renderer/engine/records/planOfTask.ts';
import { recordsOfPlan } from '../../../renderer/engine/records/recordsOfPlan.ts';

/** Keys in order: `k1`, `k2`, …; a stem of its own keeps two sets of records apart. */
export function keys(stem = 'k'): () => string {
  let count = 0;
  return () => `${stem}${(count += 1)}`;
}

/** A plan as it is kept: the records of one shelf and one task, as the tables of the database hold them. */
export function keptTask(plan: unknown, stem = 'k') {
  const { shelf, items, task, outings, steps, ignored } = recordsOfPlan(planSchema.parse(plan), {
    shelfName: 'Field kit',
    taskNamed: 'plan',
    newId: keys(stem),
  });
  const tables: Omit<TaskRecords, 'task'> = { outings, steps, items, shelves: [shelf], interfaces: [], sites: [] };
  return { shelf, task, ignored, records: { ...tables, task } };
}

/** The same records with other keys and revisions and in another order: what nobody sees. */
export function disguised(records: TaskRecords): TaskRecords {
  const key = (id: string) => `${[...id].toReversed().join('')}-other`;
  const other = <R extends { id: string; rev: number }>(record: R): R => ({ ...record, id: key(record.id), rev: 7 });
  const task = other(records.task);
  return {
    task: { ...task, shelves: task.shelves.map(key) },
    shelves: records.shelves.map(other),
    items: records.items.map((item) => ({ ...other(item), shelf: key(item.shelf) })).toReversed(),
    outings: records.outings.map((outing) => ({ ...other(outing), task: task.id })).toReversed(),
    steps: records.steps
      .map((step) => ({
        ...other(step),
        task: task.id,
        ...(step.interface === undefined ? {} : { interface: key(step.interface) }),
      }))
      .toReversed(),
    interfaces: records.interfaces.map((it) => ({ ...other(it), site: key(it.site) })).toReversed(),
    sites: records.sites.map(other),
  };
}

export function withoutTask(plan: Plan): Omit<Plan, 'task'> {
  const { task: _task, ...others } = plan;
  return others;
}
