import type { Wish } from './wishes.ts';

/** A planned bag is of its task and goes with it. */
export function withFollowUps(wishes: readonly Wish[]): Wish[] {
  const named = new Set(wishes.flatMap(({ table, id }) => (table === 'results' ? [id] : [])));
  const gone = wishes.filter(({ table, id, after }) => table === 'tasks' && after === null && !named.has(id));
  return [
    ...wishes,
    ...gone.map(({ id }): Wish => ({ table: 'results', id, after: null, from: 'whatever', pastRev: 0 })),
  ];
}
