import type { Interface, Site } from '../../../shared-types/records/site.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import { inOrder } from '../../engine/records/inOrder.ts';
import { stepName } from '../steps/stepTexts.ts';

/** A task that uses a site or an interface, with its steps that do. */
export interface Use {
  task: Task;
  /** Whether the task itself names the site. */
  names: boolean;
  steps: { number: number; code: string; name: string }[];
}

/** Which tasks name the site, and which steps act on these interfaces. */
export function usesOf(
  { site, interfaces }: { site: Site | null; interfaces: readonly Interface[] },
  { tasks, steps }: { tasks: ReadonlyMap<string, Task>; steps: ReadonlyMap<string, TaskStep> },
): Use[] {
  const wanted = new Set(interfaces.map(({ id }) => id));
  const byTask = new Map<string, TaskStep[]>();
  for (const step of steps.values()) {
    if (step.interface !== undefined && wanted.has(step.interface))
      byTask.set(step.task, [...(byTask.get(step.task) ?? []), step]);
  }
  return [...tasks.values()]
    .filter((task) => byTask.has(task.id) || (site !== null && task.site === site.id))
    .map((task) => {
      const acting = byTask.get(task.id) ?? [];
      const numbers =
        acting.length === 0
          ? new Map<string, number>()
          : new Map(
              inOrder([...steps.values()].filter((step) => step.task === task.id)).map(({ id }, at) => [id, at + 1]),
            );
      return {
        task,
        names: site !== null && task.site === site.id,
        steps: inOrder(acting).map((step) => ({
          number: numbers.get(step.id) ?? 0,
          code: step.code,
          name: stepName(step),
        })),
      };
    })
    .toSorted((a, b) => (a.task.code < b.task.code ? -1 : 1));
}
