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
  preferences: { one: 'preferences', many: 'preferences' },
};

/** "item S-18D": by code, or by name where it has no code, or by its table alone. */
export function nameOf(table: TableName, record: Partial<AnyRecord>): string {
  const { code, name } = record as { code?: unknown; name?: unknown };
  const called = [code, name].find((held): held is string => typeof held === 'string' && held !== '');
  return called === undefined ? tableWords[table].one : `${tableWords[table].one} ${called}`;
}
