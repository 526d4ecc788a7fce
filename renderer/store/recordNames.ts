import type { AnyRecord, TableName } from '../../shared-types/records/index.ts';

/** What people call one record of each table, and many. */
export const tableWords: Record<TableName, { one: string; many: string }> = {
  shelves: { one: 'shelf', many: 'shelves' },
  items: { one: 'item', many: 'items' },
  sites: { one: 'site', many: 'sites' },
  interfaces: { one: 'interface', many: 'interfaces' },
  tasks: { one: 'task', many: 'tasks' },
  outings: { one: 'outing', many: 'outings' },
  steps: { one: 'step', many: 'steps' },
  results: { one: 'planned bag', many: 'planned bags' },
  notes: { one: 'bench result', many: 'bench results' },
  preferences: { one: 'preferences', many: 'preferences' },
  calloutLists: { one: 'list of callouts', many: 'lists of callouts' },
  callouts: { one: 'callout', many: 'callouts' },
  asRunLists: { one: 'list of as-run records', many: 'lists of as-run records' },
  asRuns: { one: 'as-run record', many: 'as-run records' },
  watchOuts: { one: 'watch-out', many: 'watch-outs' },
  revisions: { one: 'frozen manifest', many: 'frozen manifests' },
  events: { one: 'event', many: 'events' },
  discrepancies: { one: 'discrepancy', many: 'discrepancies' },
};

/** "item S-18D", "frozen manifest 2": by code, by number, by name where it has neither, or by its table alone. */
export function nameOf(table: TableName, record: Partial<AnyRecord>): string {
  const { code, name, number, no, cells } = record as Partial<Record<'code' | 'name' | 'number' | 'no', unknown>> & {
    cells?: Record<string, unknown>;
  };
  const numbered = [number, no].find((held) => typeof held === 'number');
  if (numbered !== undefined) return `${tableWords[table].one} ${numbered}`;
  // A row of a list is called by its cell "id", however the header spells it.
  const [, own] = Object.entries(cells ?? {}).find(([column]) => column.trim().toLowerCase() === 'id') ?? [];
  const called = [code, name, own].find((held): held is string => typeof held === 'string' && held !== '');
  return called === undefined ? tableWords[table].one : `${tableWords[table].one} ${called}`;
}
