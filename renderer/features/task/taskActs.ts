import type { Shelf } from '../../../shared-types/records/item.ts';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { Act, Proposal } from '../../store/store.ts';

/** A new task, with its first outing where the roles of one are named, and with a new shelf where that is. */
export function addTask(task: Task, { outing, shelf }: { outing: TaskOuting | null; shelf: Shelf | null }): Act {
  const shelves = shelf === null ? task.shelves : [...task.shelves, shelf.id];
  return {
    action: 'add-task',
    title: `Add task ${task.code}`,
    proposals: [
      ...(shelf === null ? [] : [{ table: 'shelves', put: shelf } as Proposal]),
      { table: 'tasks', put: { ...task, shelves } },
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
