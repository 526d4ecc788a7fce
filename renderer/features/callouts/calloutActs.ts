import type { CalloutList } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed } from '../../engine/inspection/index.ts';
import { listActs } from '../judged/listActs.ts';

export type { Cells } from '../judged/listActs.ts';

/** What is done to lists of callouts. */
export const {
  addList,
  bringIn: bringCalloutsIn,
  addRow: addCallout,
  editRow: editCallout,
  removeRows: removeCallouts,
  removeList,
  renameList,
  acceptFinding,
  withdrawAcceptance,
} = listActs<CalloutList>({
  one: 'callout',
  many: 'callouts',
  putList: (put) => ({ table: 'calloutLists', put }),
  removeList: (remove) => ({ table: 'calloutLists', remove }),
  putRow: (put) => ({ table: 'callouts', put }),
  removeRow: (remove) => ({ table: 'callouts', remove }),
  nameOf: (cells) => cellNamed(cells, 'id') || 'without id',
});
