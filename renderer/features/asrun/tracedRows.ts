import type { KnownTool } from '../../../shared-types/inspection.ts';
import type { AsRunList, KeptAsRun } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed, sameSerial, tracedState } from '../../engine/inspection/index.ts';

export interface TracedRow {
  row: KeptAsRun;
  list: AsRunList;
  /** `accepted`: re-opened, and a person took it as it is. */
  state: 'not-found-out' | 'kept' | 're-opened' | 'accepted';
}

/** Every value that a tool gave, over all lists kept, the newest first; what its being found out does to each. */
export function tracedRows(
  serial: string,
  kept: {
    lists: readonly AsRunList[];
    rows: ReadonlyMap<string, KeptAsRun>;
    tools: readonly KnownTool[];
  },
): TracedRow[] {
  if (serial.trim() === '') return [];
  const lists = new Map(kept.lists.map((list) => [list.id, list]));
  const tool = kept.tools.find((one) => sameSerial(one.serial, serial));
  const found: TracedRow[] = [];
  for (const row of kept.rows.values()) {
    const list = lists.get(row.list);
    if (list === undefined || !sameSerial(cellNamed(row.cells, 'serial'), serial)) continue;
    const state = tracedState(row.cells, tool);
    const isTaken = row.accepted?.some(({ rule }) => rule === 'tool-found-out') ?? false;
    found.push({ row, list, state: state === 'open' ? (isTaken ? 'accepted' : 're-opened') : state });
  }
  const timeOf = ({ row }: TracedRow): string => cellNamed(row.cells, 'time');
  return found.toSorted((a, b) => (timeOf(a) < timeOf(b) ? 1 : timeOf(a) > timeOf(b) ? -1 : 0));
}
