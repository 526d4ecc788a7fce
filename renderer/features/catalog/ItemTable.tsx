import { memo, useMemo, useRef } from 'react';
import type { ClipboardEvent, ReactNode } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import type { WantedWidth } from '../../components/RowGrid/WidthGrip.tsx';
import { wantedPx, widthIn } from './table/columnWidth.ts';
import { clipboardText } from '../../engine/sheet/csvText.ts';
import { leastWidthPx } from './table/leastWidth.ts';
import type { CellBlock } from '../../components/RowGrid/block.ts';
import { copiedCells } from './cells/cellBlock.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { CalibrationMark } from './CalibrationMark.tsx';
import type { ItemColumn, Shown } from './columns.ts';
import type { Sorting } from './rowOrder.ts';

export interface ItemTableProps {
  items: readonly Item[];
  columns: readonly ItemColumn[];
  shown: Shown;
  sorting: Sorting;
  onSort: (key: string) => void;
  /** A column shall be so wide [px]. */
  onWidth: (key: string, px: number) => void;
  rowHeightPx: number;
  selected: string | null;
  onSelect: (id: string) => void;
  onOpen: (id: string) => void;
  onEdit: (id: string) => void;
  chosen: ReadonlySet<string>;
  onChoose: (chosen: ReadonlySet<string>) => void;
  /** Cells in hand; null where rows are. */
  block: CellBlock | null;
  onBlock: (block: CellBlock | null) => void;
  onPaste: (text: string) => void;
  empty: ReactNode;
}

/** From so high a row its letters are larger too. */
const glovedFromPx = 72;

function cellOf(item: Item, column: ItemColumn, shown: Shown): ReactNode {
  const text = column.text(item, shown);
  if (column.key === 'calibration') return <CalibrationMark item={item} today={shown.today} />;
  if (column.key === 'code') {
    return (
      <span className="bw-item-code" title={text}>
        {text}
      </span>
    );
  }
  if (column.key === 'name') {
    return (
      <span className="bw-item-cell" title={text}>
        {text}
        {item.retired ? (
          <>
            {' '}
            <StateMark state="retired" />
          </>
        ) : null}
      </span>
    );
  }
  return text;
}

/** The rows of the catalog, copied as they stand. Drawn again only when they change: a key in the search costs nothing here. */
export const ItemTable = memo(function ItemTable(props: ItemTableProps) {
  const { items, columns, shown, sorting, onSort, onWidth, rowHeightPx, chosen, empty } = props;
  const table = useRef<HTMLDivElement>(null);
  const { selected, onSelect, onOpen, onEdit, onChoose, block, onBlock, onPaste } = props;
  const heads = useMemo(
    () =>
      columns.map(({ key, label, width, end, wideOnly }): GridColumn => {
        const sorted = sorting.key !== key ? 'none' : sorting.down ? 'descending' : 'ascending';
        return { key, label, width, sorted, ...(end ? { end } : {}), ...(wideOnly ? { wideOnly } : {}) };
      }),
    [columns, sorting],
  );
  // A row is made once for each version of an item, a list of them once for each list: a key of the search only picks among them.
  const rowsOf = useMemo(() => {
    const known = new WeakMap<Item, GridRow>();
    const made = (item: Item): GridRow => {
      const before = known.get(item);
      if (before !== undefined) return before;
      const row: GridRow = {
        kind: 'row',
        id: item.id,
        cells: () => Object.fromEntries(columns.map((column) => [column.key, cellOf(item, column, shown)])),
      };
      known.set(item, row);
      return row;
    };
    const lists = new WeakMap<readonly Item[], GridRow[]>();
    return (list: readonly Item[]): GridRow[] => {
      const before = lists.get(list);
      if (before !== undefined) return before;
      const own = list.map(made);
      lists.set(list, own);
      return own;
    };
  }, [columns, shown]);
  const rows = useMemo(() => rowsOf(items), [items, rowsOf]);

  const widen = (key: string, width: WantedWidth): void => {
    const column = columns.find((one) => one.key === key);
    if (column === undefined) return;
    const at = columns.indexOf(column);
    const measured = () => {
      const cells = table.current?.querySelector('[role=gridcell]')?.parentElement?.children;
      return { items, column, shown, widthPx: widthIn(cells?.[at]?.firstElementChild ?? cells?.[at] ?? null) };
    };
    onWidth(key, wantedPx(width, measured));
  };

  const onCopy = (event: ClipboardEvent): void => {
    if (window.getSelection()?.isCollapsed === false) return;
    if (block !== null) {
      event.preventDefault();
      event.clipboardData.setData('text/plain', copiedCells(block, items, columns));
      return;
    }
    const wanted = items.filter(({ id }) => (chosen.size > 0 ? chosen.has(id) : id === selected));
    if (wanted.length === 0) return;
    event.preventDefault();
    const cells = wanted.map((item) => columns.map((column) => column.text(item, shown)));
    event.clipboardData.setData('text/plain', clipboardText([columns.map(({ label }) => label), ...cells]));
  };

  return (
    <div
      ref={table}
      className="bw-catalog-table"
      data-gloved={rowHeightPx >= glovedFromPx || undefined}
      onCopy={onCopy}
      onPaste={(event) => {
        const text = event.clipboardData.getData('text/plain');
        if (text.trim() === '') return;
        event.preventDefault();
        onPaste(text);
      }}
    >
      <RowGrid
        label="Items"
        columns={heads}
        rows={rows}
        selected={selected}
        onSelect={onSelect}
        onOpen={onOpen}
        onEdit={onEdit}
        onSort={onSort}
        onWidth={widen}
        chosen={chosen}
        onChoose={onChoose}
        rowHeightPx={rowHeightPx}
        minWidthPx={leastWidthPx(columns)}
        block={block}
        onBlock={onBlock}
        empty={empty}
      />
    </div>
  );
});
