import type { KeptCallout } from '../../../shared-types/records/judgedLists.ts';

/** The rows of some lists, each list in its order. */
export function rowsByList<Row extends KeptCallout>(
  callouts: ReadonlyMap<string, Row>,
  wanted: ReadonlySet<string>,
): Map<string, Row[]> {
  const rows = new Map<string, Row[]>();
  if (wanted.size === 0) return rows;
  for (const callout of callouts.values()) {
    if (!wanted.has(callout.list)) continue;
    const held = rows.get(callout.list);
    if (held === undefined) rows.set(callout.list, [callout]);
    else held.push(callout);
  }
  for (const held of rows.values()) held.sort((a, b) => a.position - b.position || (a.id < b.id ? -1 : 1));
  return rows;
}

/** A list is called as its file; a second one of the same name is told apart. */
export function freshListName(file: string, lists: readonly { name: string }[], otherwise: string): string {
  const base = file.replace(/\.[a-z0-9]{1,5}$/i, '').slice(0, 200) || otherwise;
  const taken = new Set(lists.map(({ name }) => name));
  for (let number = 2, name = base; ; number += 1) {
    if (!taken.has(name)) return name;
    name = `${base}, ${number}`;
  }
}

/** The lists of a task, by name. */
export function listsOfTask<List extends { id: string; name: string; task: string }>(
  lists: ReadonlyMap<string, List>,
  task: string,
): List[] {
  return [...lists.values()]
    .filter((list) => list.task === task)
    .toSorted((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : a.id < b.id ? -1 : 1));
}
