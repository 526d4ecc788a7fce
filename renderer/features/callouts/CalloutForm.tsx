import { useMemo } from 'react';
import { calloutColumns } from '../../../shared-types/callout.ts';
import type { CalloutList } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed, JudgedTable } from '../../engine/inspection/index.ts';
import type { Cells } from '../judged/listActs.ts';
import { RowForm } from '../judged/RowForm.tsx';
import type { RowFormKind, RowFormProps } from '../judged/RowForm.tsx';
import { addCallout, editCallout } from './calloutActs.ts';
import { calloutGroups } from './calloutFields.ts';

/** Read as the rules will read it. A table without a column for a band refuses itself as a whole: the columns are there, empty. */
function judgedAlone(cells: Cells): ReturnType<RowFormKind['judge']> {
  const columns = [...new Set(['id', 'thread', 'torqueMin', 'torqueMax', ...Object.keys(cells)])];
  const table = new JudgedTable({ columns, rows: [{ key: 'typed', cells }] });
  table.next(1);
  return table.judgedRows(0, 1)[0] ?? { row: null, refusals: [] };
}

/** A callout as it is written. */
export function CalloutForm(props: RowFormProps & { list: CalloutList }) {
  const { list, isNewList = false, before, initial } = props;
  const kind = useMemo<RowFormKind>(
    () => ({
      one: 'callout',
      saveLabel: before === null ? 'Add callout' : `Save ${cellNamed(before.cells, 'id')}`,
      groups: calloutGroups,
      columns: calloutColumns,
      firstColumn: 'id',
      judge: judgedAlone,
      act: (cells) =>
        before === null ? addCallout(list, { ...initial, cells }, isNewList) : editCallout(list, before, cells),
    }),
    [list, isNewList, before, initial],
  );
  return <RowForm {...props} kind={kind} />;
}
