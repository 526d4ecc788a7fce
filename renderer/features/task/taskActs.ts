import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { Act, Proposal } from '../../store/store.ts';

/** A new task, with its first outing where the roles of one are named. */
export function addTask(task: Task, outing: TaskOuting | null): Act {
  return {
    action: 'add-task',
    title: `Add task ${task.code}`,
    proposals: [
      { table: 'tasks', put: task },
      ...(outing === null ? [] : [{ table: 'outings', put: outing } as Proposal]),
    ],
  };
}

/** Keeps a task's own facts changed. Moves follow the new ids of its places. */
export function editTask(
  before: Task,
  task: Task,
  { steps, places }: { steps: readonly TaskStep[]; places: ReadonlyMap<string, string> },
): Act {
  const renamed = (place: string): string => places.get(place) ?? place;
  const followed = steps.flatMap((step): Proposal[] => {
    const { moves = [] } = step;
    if (!moves.some(({ from, to }) => places.has(from) || places.has(to))) return [];
    const next = moves.map((move) => ({ ...move, from: renamed(move.from), to: renamed(move.to) }));
    return [{ table: 'steps', put: { ...step, moves: next } }];
  });
  return {
    action: 'edit-task',
    title: `Edit task ${before.code}`,
    proposals: [{ table: 'tasks', put: task }, ...followed],
  };
}

/** Roles as they are written on one line. */
export function rolesIn(text: string): string[] {
  const names = text.split(/[,;\n]/).map((name) => name.trim());
  return [...new Set(names.filter(Boolean))];
}
