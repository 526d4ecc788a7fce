import { planOfTask } from '../../engine/records/planOfTask.ts';
import { textOfPlan } from '../../engine/records/textOfPlan.ts';
import type { RecordOf, TableName } from '../../../shared-types/records/index.ts';
import type { Store } from '../../store/store.ts';

/**
 * Whether a plan's text is still what the records say. Between a change and the reading of the task lies a moment in which the catalog is newer
 * than the plan: nothing is frozen of both.
 */
export function isCurrent(store: Store, taskId: string, text: string): boolean {
  const rows = <T extends TableName>(name: T): RecordOf<T>[] => [...store.table(name).state().rows.values()];
  const task = store.table('tasks').state().rows.get(taskId);
  if (task === undefined) return false;
  const { plan } = planOfTask({
    task,
    outings: rows('outings'),
    steps: rows('steps'),
    interfaces: rows('interfaces'),
    sites: rows('sites'),
    shelves: rows('shelves'),
    items: rows('items'),
  });
  return textOfPlan(plan) === text;
}
