import type { AsRunList, KeptAsRun } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed, sameSerial } from '../../engine/inspection/index.ts';
import type { Act } from '../../store/store.ts';
import { listActs, titled } from '../judged/listActs.ts';

/** "b4-coupling / 1 / 6" */
export function recordName(cells: Readonly<Record<string, string>>): string {
  const parts = ['callout', 'position', 'cycle', 'pass'].map((name) => cellNamed(cells, name));
  return parts.filter((part) => part !== '').join(' / ') || 'without callout';
}

/** "b4-coupling, position 1, cycle 6" */
export function recordTitle(cells: Readonly<Record<string, string>>): string {
  const parts = ['position', 'cycle', 'pass'].flatMap((name) => {
    const said = cellNamed(cells, name);
    return said === '' ? [] : [`${name} ${said}`];
  });
  return [cellNamed(cells, 'callout') || 'Record without callout', ...parts].join(', ');
}

/** What is done to lists of records. */
export const {
  addList,
  bringIn: bringRecordsIn,
  addRow: addRecord,
  editRow: editRecord,
  removeRows: removeRecords,
  removeList,
  renameList,
  acceptFinding,
  withdrawAcceptance,
} = listActs<AsRunList>({
  one: 'record',
  many: 'records',
  putList: (put) => ({ table: 'asRunLists', put }),
  removeList: (remove) => ({ table: 'asRunLists', remove }),
  putRow: (put) => ({ table: 'asRuns', put }),
  removeRow: (remove) => ({ table: 'asRuns', remove }),
  nameOf: recordName,
});

export function judgeAgainst(list: AsRunList, callouts: { id: string; name: string }): Act {
  return {
    action: 'edit-records',
    title: titled(`Judge “${list.name}” against “${callouts.name}”`),
    proposals: [{ table: 'asRunLists', put: { ...list, callouts: callouts.id } }],
  };
}

export type FoundOut = NonNullable<AsRunList['foundOut']>[number];

/** Lists that hold a value of the tool: what was found out of it stands with each of them. */
export function listsOfTool(
  serial: string,
  lists: readonly AsRunList[],
  rows: Iterable<Pick<KeptAsRun, 'list' | 'cells'>>,
): AsRunList[] {
  const holding = new Set<string>();
  for (const { list, cells } of rows) if (sameSerial(cellNamed(cells, 'serial'), serial)) holding.add(list);
  return lists.filter(({ id }) => holding.has(id));
}

/** A tool found out of calibration: kept with every list that has a value of it, in one act. */
export function markFoundOut(found: FoundOut, lists: readonly AsRunList[]): Act {
  return {
    action: 'tool-found-out',
    title: titled(`Found out tool ${found.serial}`),
    proposals: lists.map((list) => ({
      table: 'asRunLists',
      put: { ...list, foundOut: [...(list.foundOut ?? []), found] },
    })),
  };
}

/** What was said of a tool by mistake, taken back everywhere. */
export function withdrawFoundOut(serial: string, lists: readonly AsRunList[]): Act {
  return {
    action: 'withdraw-tool-found-out',
    title: titled(`Withdraw that tool ${serial} was found out`),
    proposals: lists.flatMap((list) => {
      const left = (list.foundOut ?? []).filter((one) => !sameSerial(one.serial, serial));
      if (left.length === (list.foundOut ?? []).length) return [];
      const { foundOut: _before, ...rest } = list;
      return [{ table: 'asRunLists', put: left.length === 0 ? rest : { ...rest, foundOut: left } }];
    }),
  };
}
