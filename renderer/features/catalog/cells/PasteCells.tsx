import { useMemo, useState } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import type { CellBlock } from '../../../components/RowGrid/block.ts';
import { RowGrid } from '../../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../../components/RowGrid/RowGrid.tsx';
import { overKept } from '../../../store/overKept.ts';
import { useStore } from '../../session/useStore.ts';
import type { ItemColumn } from '../columns.ts';
import { DeedDialog } from '../DeedDialog.tsx';
import { countOf } from '../words.ts';
import { cellsIn } from './cellBlock.ts';
import { pasteAct, pastedChanges } from './pastedChanges.ts';
import type { PastedCell } from './pastedChanges.ts';

export interface PasteCellsProps {
  text: string;
  block: CellBlock;
  rows: readonly Item[];
  columns: readonly ItemColumn[];
  onDone: () => void;
  onClose: () => void;
}

const heads: GridColumn[] = [
  { key: 'item', label: 'Item', width: 'minmax(80px, 0.6fr)' },
  { key: 'column', label: 'Column', width: 'minmax(80px, 0.6fr)' },
  { key: 'before', label: 'Before', width: 'minmax(96px, 1fr)' },
  { key: 'after', label: 'After', width: 'minmax(96px, 1fr)' },
  { key: 'why', label: 'Why it is not taken', width: 'minmax(120px, 1.6fr)' },
];

const empty = <span className="bw-second">empty</span>;

function lineOf(cell: PastedCell, index: number): GridRow {
  return {
    kind: 'row',
    id: String(index),
    cells: () => ({
      item: <span className="bw-item-code">{cell.item.code}</span>,
      column: cell.label,
      before: cell.before === '' ? empty : cell.before,
      after: cell.after === '' ? empty : cell.after,
      why: cell.why ?? '',
    }),
  };
}

/** Pasted cells, before and after, and each that cannot be taken; nothing is written before it is chosen. */
export function PasteCells({ text, block, rows, columns, onDone, onClose }: PasteCellsProps) {
  const store = useStore();
  const [selected, setSelected] = useState<string | null>(null);
  const [leaveOut, setLeaveOut] = useState(false);
  const pasted = useMemo(() => pastedChanges(cellsIn(text), { block, rows, columns }), [text, block, rows, columns]);
  const bad = pasted.cells.filter(({ why }) => why !== null).length;
  const good = pasted.cells.length - bad;
  const lines = useMemo(
    () => pasted.cells.toSorted((a, b) => Number(a.why === null) - Number(b.why === null)).map(lineOf),
    [pasted],
  );
  return (
    <DeedDialog
      title="Paste over cells"
      deed={good === 0 || (bad > 0 && !leaveOut) ? null : `Change ${countOf(good, 'cell')}`}
      run={(over) => store.commit(overKept(pasteAct(pasted), over))}
      onDone={onDone}
      onClose={onClose}
    >
      <p role="status">
        <b>{countOf(good, 'cell')} will change</b>, {pasted.same} say what is kept already
        {bad === 0 ? '' : `, ${bad} cannot be taken`}
        {pasted.outside === 0 ? '' : `, ${pasted.outside} lie outside of the table and are left out`}. Nothing is
        written yet.
      </p>
      {pasted.cells.length === 0 ? null : (
        <div className="bw-catalog-pasted">
          <RowGrid
            label="Cells before and after"
            columns={heads}
            rows={lines}
            selected={selected}
            onSelect={setSelected}
            empty={null}
          />
        </div>
      )}
      {bad === 0 || good === 0 ? null : (
        <label className="bw-catalog-check">
          <input
            type="checkbox"
            checked={leaveOut}
            onChange={({ currentTarget }) => setLeaveOut(currentTarget.checked)}
          />
          Leave out the {countOf(bad, 'cell')} that cannot be taken
        </label>
      )}
    </DeedDialog>
  );
}
