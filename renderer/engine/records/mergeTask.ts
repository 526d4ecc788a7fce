import type { Site } from '../../../shared-types/records/site.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import { differencesOf } from './differences.ts';
import { withFileFields, type Differing } from './merged.ts';
import { taskEntry } from './planOfTask.ts';
import { textOfValue } from './textOfPlan.ts';

type Place = Task['places'][number];

/** A file's word on a task that is kept: its name and notes, its places, the least share of a tool's range. */
export function mergeTask(x: {
  here: Task;
  file: Task;
  /** Key of the shelf that takes the file's catalog: the task draws on it from then on. */
  shelf: string;
  differing: 'keep' | 'take';
  sites: readonly Site[];
}): { told: 'same' | Differing; puts: Task[]; result: Task } {
  const { here, file, sites } = x;
  const takes = x.differing === 'take';
  const [mine, theirs] = [said(here, sites), said(file, sites)];
  const all = differencesOf(mine, theirs, ['name', 'site', 'about', 'crew', 'rangeShareMin', 'places']);
  // A place that is here alone stays, whichever version holds.
  const fields = all.filter(({ path, file: given }) => !path.startsWith('places.') || given !== null);
  const changed = takes ? withFileFields(here, file, ['name', 'about', 'crew', 'rangeShareMin']) : here;
  const sited = takes && mine.site !== theirs.site ? withFileFields(changed, file, ['siteText']) : changed;
  const places = mergedPlaces(here.places, file.places, takes);
  const shelves = here.shelves.includes(x.shelf) ? here.shelves : [...here.shelves, x.shelf];
  const result: Task = { ...sited, places, shelves };
  const isNew = textOfValue(result) !== textOfValue(here);
  return {
    told: fields.length === 0 ? 'same' : { table: 'tasks', code: here.code, name: here.name, fields },
    puts: isNew ? [result] : [],
    result,
  };
}

function said(task: Task, sites: readonly Site[]) {
  const { id: _, ...words } = taskEntry(task, sites);
  const places = Object.fromEntries(task.places.map(({ id, ...place }) => [id, place]));
  return { ...words, rangeShareMin: task.rangeShareMin, places };
}

/** Places of either; a place that steps here move things to must not go. */
function mergedPlaces(here: readonly Place[], file: readonly Place[], takes: boolean): Place[] {
  const known = new Map(here.map((place) => [place.id, place]));
  const given = new Map(file.map((place) => [place.id, place]));
  return [
    ...here.map((place) => (takes ? (given.get(place.id) ?? place) : place)),
    ...file.filter(({ id }) => !known.has(id)),
  ];
}
