import type { Shelf } from '../../../shared-types/records/item.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import type { Draft } from '../../components/RecordForm/draft.ts';
import { faultsOf } from '../../engine/records/faultsOf.ts';
import type { Fault } from '../../engine/records/faultsOf.ts';
import { countOf } from '../steps/words.ts';

/** A place's line in the form; `was` is its id as it is kept, so that a new id is no new place. */
export interface PlaceLine {
  id: string;
  name?: string | undefined;
  final?: boolean | undefined;
  was?: string;
}

/** A task's form holds its places with the ids they had, and the share as people say it. */
export function draftOfTask({ places, rangeShareMin, ...rest }: Task): Draft {
  return {
    ...rest,
    placeLines: places.map((place): PlaceLine => ({ ...place, was: place.id })),
    ...(rangeShareMin === undefined ? {} : { rangePercent: Math.round(rangeShareMin * 1e10) / 1e8 }),
  };
}

export function placeLinesOf(draft: Draft): readonly PlaceLine[] {
  return Array.isArray(draft['placeLines']) ? (draft['placeLines'] as PlaceLine[]) : [];
}

/** The draft as it is kept: lines that say nothing are none; a kept site takes the place of its words. */
export function taskOf(draft: Draft): Task {
  const { placeLines: _lines, rangePercent, siteText, roleText: _roles, newShelf: _shelf, ...rest } = draft;
  const places = placeLinesOf(draft)
    .filter(({ id, name = '' }) => id.trim() !== '' || name !== '')
    .map(({ id, name = '', final }) => ({
      id: id.trim(),
      ...(name.trim() === '' ? {} : { name: name.trim() }),
      ...(final === true ? { final } : {}),
    }));
  return {
    shelves: [],
    name: '',
    code: '',
    ...(rest as Partial<Task>),
    ...(typeof siteText === 'string' && draft['site'] === undefined ? { siteText } : {}),
    places,
    ...(rangePercent === undefined
      ? {}
      : { rangeShareMin: typeof rangePercent === 'number' ? rangePercent / 100 : Number.NaN }),
  } as Task;
}

/** The shelf that is made with a new task; null where none is named. */
export function newShelfOf(draft: Draft, id: string): Shelf | null {
  const { newShelf: name } = draft;
  return typeof name === 'string' && name.trim() !== '' ? { id, rev: 0, name: name.trim() } : null;
}

export function renamedPlaces(draft: Draft): ReadonlyMap<string, string> {
  return new Map(
    placeLinesOf(draft).flatMap(({ id, was }): [string, string][] =>
      was === undefined || id.trim() === '' || id.trim() === was ? [] : [[was, id.trim()]],
    ),
  );
}

/** Why a place has to stay: the moves from and to it; null where it may go. */
export function placeHindered(place: string | undefined, steps: readonly TaskStep[]): string | null {
  const own = steps.filter(({ moves = [] }) => moves.some(({ from, to }) => from === place || to === place));
  return place === undefined || own.length === 0
    ? null
    : `${countOf(own.length, 'step')} of this task ${own.length === 1 ? 'moves' : 'move'} things there`;
}

/** What keeps a task from being kept. */
export function taskChecks(
  draft: Draft,
  around: { tasks: Iterable<Task>; steps: readonly TaskStep[] },
): readonly Fault[] {
  const task = taskOf(draft);
  const faults = faultsOf('tasks', task).map(({ path, message }): Fault => {
    if (path.startsWith('rangeShareMin'))
      return { path: 'rangePercent', message: 'must be a share from 0 to 100, as "20".' };
    const place = /^places\[(\d+)\]/.exec(path)?.[1];
    return place === undefined ? { path, message } : { path: `placeLines.${place}`, message };
  });
  const shelf = newShelfOf(draft, 'new');
  if (shelf !== null)
    faults.push(...faultsOf('shelves', shelf).map(({ message }): Fault => ({ path: 'newShelf', message })));
  for (const { id, code } of around.tasks)
    if (id !== task.id && code === task.code)
      faults.push({ path: 'code', message: `"${code}" is another task’s: choose another one.` });
  for (const [index, { id, was }] of placeLinesOf(draft).entries()) {
    const hindered = placeHindered(was, around.steps);
    if (id.trim() === '' && hindered !== null)
      faults.push({ path: `placeLines.${index}`, message: `needs its id: ${hindered}.` });
  }
  return faults;
}
