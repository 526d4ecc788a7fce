import type { TableName } from '../../../shared-types/records/index.ts';

/** Which field of which table holds keys of which other. */
export const keyFields = [
  { table: 'items', field: 'shelf', to: 'shelves' },
  { table: 'interfaces', field: 'site', to: 'sites' },
  { table: 'tasks', field: 'site', to: 'sites' },
  { table: 'tasks', field: 'shelves', to: 'shelves' },
  { table: 'outings', field: 'task', to: 'tasks' },
  { table: 'steps', field: 'task', to: 'tasks' },
  { table: 'steps', field: 'interface', to: 'interfaces' },
  { table: 'results', field: 'id', to: 'tasks' },
  { table: 'notes', field: 'task', to: 'tasks' },
  { table: 'calloutLists', field: 'task', to: 'tasks' },
  { table: 'callouts', field: 'list', to: 'calloutLists' },
  { table: 'asRunLists', field: 'task', to: 'tasks' },
  { table: 'asRunLists', field: 'callouts', to: 'calloutLists' },
  { table: 'asRuns', field: 'list', to: 'asRunLists' },
  { table: 'revisions', field: 'task', to: 'tasks' },
  { table: 'events', field: 'revision', to: 'revisions' },
  { table: 'discrepancies', field: 'task', to: 'tasks' },
  { table: 'discrepancies', field: 'revision', to: 'revisions' },
] as const satisfies { table: TableName; field: string; to: TableName }[];

/** What tells the records of a table apart beside their key: what they are in, and what stands there once. */
export const onceWithin = [
  { table: 'items', parent: 'shelf', field: 'code' },
  { table: 'interfaces', parent: 'site', field: 'code' },
  { table: 'outings', parent: 'task', field: 'code' },
  { table: 'steps', parent: 'task', field: 'code' },
  { table: 'revisions', parent: 'task', field: 'number' },
  { table: 'events', parent: 'revision', field: 'no' },
  { table: 'discrepancies', parent: 'task', field: 'number' },
  { table: 'items', parent: null, field: 'tag' },
] as const satisfies { table: TableName; parent: string | null; field: string }[];
