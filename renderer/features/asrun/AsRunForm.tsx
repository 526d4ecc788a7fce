import { useMemo } from 'react';
import { asRunColumns, asRunFurtherColumns } from '../../../shared-types/asRun.ts';
import type { AsRunBeside } from '../../../shared-types/inspection.ts';
import type { AsRunList, KeptAsRun } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed, JudgedRecords } from '../../engine/inspection/index.ts';
import type { Cells } from '../judged/listActs.ts';
import { RowForm } from '../judged/RowForm.tsx';
import type { RowFormKind, RowFormProps } from '../judged/RowForm.tsx';
import { addRecord, editRecord, recordName } from './recordActs.ts';
import { recordGroups } from './recordFields.ts';

const columnsRead = [...asRunColumns, ...asRunFurtherColumns];

/** Judged with the other records of its fastener and of its pattern, so that series and repeated entries are seen already. */
function judgedAmong(
  cells: Cells,
  others: readonly KeptAsRun[],
  beside: AsRunBeside,
): ReturnType<RowFormKind['judge']> {
  const same = (other: KeptAsRun, ...names: string[]): boolean =>
    names.every((name) => cellNamed(other.cells, name) === cellNamed(cells, name));
  const near = others.filter(
    (other) => same(other, 'callout') && (same(other, 'position') || same(other, 'cycle', 'pass')),
  );
  const rows = [...near.map(({ id, cells: own }) => ({ key: id, cells: own })), { key: 'typed', cells }];
  const columns = [
    ...new Set(['callout', 'position', 'cycle', 'final', ...rows.flatMap((row) => Object.keys(row.cells))]),
  ];
  const table = new JudgedRecords({ columns, rows, beside });
  return table.judgedRows(rows.length - 1, 1)[0] ?? { row: null, refusals: [] };
}

export type AsRunFormProps = RowFormProps & {
  list: AsRunList;
  /** Of the list, to be judged together with it. */
  rows: readonly KeptAsRun[];
  beside: AsRunBeside;
};

/** A record as it is written down. */
export function AsRunForm(props: AsRunFormProps) {
  const { list, isNewList = false, before, initial, rows, beside } = props;
  const kind = useMemo<RowFormKind>(() => {
    const others = rows.filter(({ id }) => id !== initial.id);
    const ids = [...new Set(beside.callouts.rows.map(({ cells }) => cellNamed(cells, 'id')))];
    return {
      one: 'record',
      saveLabel: before === null ? 'Add record' : `Save ${recordName(before.cells)}`,
      groups: recordGroups(ids.filter((id) => id !== '')),
      columns: columnsRead,
      firstColumn: 'callout',
      judge: (cells) => judgedAmong(cells, others, beside),
      act: (cells) =>
        before === null ? addRecord(list, { ...initial, cells }, isNewList) : editRecord(list, before, cells),
    };
  }, [list, isNewList, before, initial, rows, beside]);
  return <RowForm {...props} kind={kind} />;
}
