import { defaultRangeExtractor, useVirtualizer } from '@tanstack/react-virtual';
import type { Range } from '@tanstack/react-virtual';
import { useCallback, useEffect, useId, useMemo, useRef } from 'react';
import type { CSSProperties, KeyboardEvent, MouseEvent, ReactNode } from 'react';
import { blockAside, blockPlaces, blockTo } from './block.ts';
import type { BlockPlaces, CellBlock } from './block.ts';
import { chosenRange, chosenToggled } from './choosing.ts';
import type { GridColumn } from './column.ts';
import { GridHead } from './GridHead.tsx';
import { landing } from './landing.ts';
import type { WantedWidth } from './WidthGrip.tsx';
import './RowGrid.css';

export type { GridColumn } from './column.ts';

/** A heading over the rows that follow, or a row that can be taken in hand; its cells are asked for where it is drawn. */
export type GridRow =
  | { kind: 'group'; id: string; cells: { key: string; span: number; content: ReactNode; end?: boolean }[] }
  | { kind: 'row'; id: string; cells: () => Record<string, ReactNode> };

export interface RowGridProps {
  label: string;
  columns: GridColumn[];
  rows: GridRow[];
  selected: string | null;
  onSelect: (id: string) => void;
  /** Enter on a row: to the sheet beside. */
  onOpen?: (id: string) => void;
  /** F2 on a row. */
  onEdit?: (id: string) => void;
  onSort?: (key: string) => void;
  /** Columns can be made wider and narrower. */
  onWidth?: (key: string, width: WantedWidth) => void;
  /** Rows chosen together; with `onChoose` the table takes Space, Shift and Ctrl for them. */
  chosen?: ReadonlySet<string>;
  onChoose?: (chosen: ReadonlySet<string>) => void;
  /** Cells in hand; with `onBlock` Left and Right take cells, Shift takes more, Escape goes back to rows. */
  block?: CellBlock | null;
  onBlock?: (block: CellBlock | null) => void;
  /** Narrower than this it scrolls sideways. */
  minWidthPx?: number;
  /** Every row is so high; without it each is as high as its content asks, and measured. */
  rowHeightPx?: number;
  empty: ReactNode;
}

const none: ReadonlySet<string> = new Set();

/** Whether a cell lies in the block, and whether the hand is there. */
function blockMark(places: BlockPlaces | null, row: number, column: number): 'in' | 'hand' | undefined {
  if (places === null) return undefined;
  if (row === places.handRow && column === places.handColumn) return 'hand';
  const isIn =
    row >= places.firstRow && row <= places.lastRow && column >= places.firstColumn && column <= places.lastColumn;
  return isIn ? 'in' : undefined;
}

const virtualAbove = 100;
const usualHeightPx = 30;
const headHeightPx = 30;

/**
 * A table with one row in hand. One tab stop; arrows, Home, End, Page and Ctrl with Home and End move the hand. Above a
 * hundred rows only those in view are drawn, and the row in hand always, so that the focus is never lost.
 */
export function RowGrid(props: RowGridProps) {
  const { label, columns, rows, selected, onSelect, onOpen, onEdit, onSort, empty } = props;
  const { chosen = none, onChoose, rowHeightPx = usualHeightPx, block = null, onBlock, minWidthPx } = props;
  const measured = props.rowHeightPx === undefined;
  const body = useRef<HTMLDivElement>(null);
  const idBase = useId();
  const followFocus = useRef(false);
  /** Where a range of chosen rows begins. */
  const anchor = useRef<string | null>(null);
  // Many thousand rows change with each key of a search: only what a key in the table needs is made then.
  const takeable = (): number[] => rows.flatMap((row, index) => (row.kind === 'row' ? [index] : []));
  const firstIndex = useMemo(() => rows.findIndex(({ kind }) => kind === 'row'), [rows]);
  const selectedIndex = useMemo(
    () => (selected === null ? -1 : rows.findIndex(({ kind, id }) => kind === 'row' && id === selected)),
    [rows, selected],
  );
  const stopIndex = selectedIndex >= 0 ? selectedIndex : firstIndex;
  const virtual = rows.length > virtualAbove;

  const virtualizer = useVirtualizer({
    count: rows.length,
    enabled: virtual,
    getScrollElement: () => body.current,
    estimateSize: useCallback(() => rowHeightPx, [rowHeightPx]),
    overscan: 5,
    scrollMargin: headHeightPx,
    scrollPaddingStart: headHeightPx,
    getItemKey: useCallback((index: number) => rows[index]?.id ?? index, [rows]),
    rangeExtractor: (range: Range) => {
      const drawn = defaultRangeExtractor(range);
      if (stopIndex < 0 || drawn.includes(stopIndex)) return drawn;
      return [...drawn, stopIndex].toSorted((a, b) => a - b);
    },
  });

  // The row in hand comes into view, whoever chose it; the focus goes along only where it already was in the table.
  useEffect(() => {
    if (selectedIndex < 0) return;
    if (virtual) virtualizer.scrollToIndex(selectedIndex, { align: 'auto' });
    const row = document.getElementById(`${idBase}-${selectedIndex}`);
    if (!virtual) row?.scrollIntoView({ block: 'nearest' });
    if (followFocus.current) row?.focus({ preventScroll: true });
    followFocus.current = false;
  }, [selectedIndex, virtual, idBase, virtualizer]);

  const places = useMemo(() => (block === null ? null : blockPlaces(block, rows, columns)), [block, rows, columns]);
  // A cell to the side may lie outside of what is seen.
  useEffect(() => {
    if (places === null) return;
    const cells = document.getElementById(`${idBase}-${places.handRow}`)?.querySelectorAll('[role=gridcell]');
    cells?.[places.handColumn]?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [places, idBase]);

  const choice = () => ({ chosen, ids: takeable().map((index) => rows[index]?.id ?? '') });
  const take = (id: string, extend: boolean): void => {
    if (block !== null && onBlock !== undefined) {
      onBlock(blockTo(block, id, extend));
      onSelect(id);
      return;
    }
    if (onChoose !== undefined && extend) {
      anchor.current ??= selected ?? id;
      onChoose(chosenRange(choice(), anchor.current, id));
    } else anchor.current = id;
    onSelect(id);
  };
  const onRowClick = (event: MouseEvent<HTMLElement>, id: string): void => {
    const cell = event.target instanceof Element ? event.target.closest('[role=gridcell]') : null;
    const column = cell === null ? undefined : columns[[...event.currentTarget.children].indexOf(cell)];
    // With Alt a cell is taken; then a click takes another one, and Shift all between.
    if (onBlock !== undefined && column !== undefined && (event.altKey || (block !== null && event.shiftKey))) {
      const isMore = event.shiftKey && block !== null;
      onBlock({
        ...(isMore ? block : { fromId: id, fromColumn: column.key }),
        ...{ toId: id, toColumn: column.key },
      });
      return onSelect(id);
    }
    if (block !== null) {
      onBlock?.(null);
      anchor.current = id;
      return onSelect(id);
    }
    if (onChoose === undefined || event.shiftKey) return take(id, event.shiftKey);
    if (event.ctrlKey || event.metaKey) onChoose(chosenToggled(choice(), id));
    else if (chosen.size > 0) onChoose(none);
    return take(id, false);
  };
  /** Keys of the rows chosen together; true where the key was one of them. */
  const chooseByKey = ({ key, ctrlKey, metaKey }: KeyboardEvent): boolean => {
    if (onChoose === undefined) return false;
    const inHand = rows[stopIndex]?.id;
    if (key === ' ' && inHand !== undefined) {
      if (selectedIndex < 0) onSelect(inHand);
      onChoose(chosenToggled(choice(), inHand));
    } else if (key.toLowerCase() === 'a' && (ctrlKey || metaKey)) onChoose(new Set(choice().ids));
    else if (key === 'Escape' && chosen.size > 0) onChoose(none);
    else return false;
    return true;
  };

  /** Keys of the cells; true where the key was one of them. */
  const cellByKey = ({ key, shiftKey, ctrlKey, metaKey, altKey }: KeyboardEvent): boolean => {
    const inHand = rows[stopIndex]?.id;
    if (onBlock === undefined || inHand === undefined || ctrlKey || metaKey || altKey) return false;
    if (key === 'Escape' && block !== null) {
      onBlock(null);
      return true;
    }
    const next = blockAside(block, { key, extend: shiftKey, row: inHand, columns });
    if (next === null) return false;
    if (selectedIndex < 0) onSelect(inHand);
    onBlock(next);
    return true;
  };

  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>): void => {
    const inHand = rows[selectedIndex];
    if (event.key === 'Enter' || event.key === 'F2') {
      if (inHand === undefined) return;
      const deed = event.key === 'F2' ? onEdit : onOpen;
      // What opens may take the focus at once, and this very key would then be typed into it: Enter would send its form.
      if (deed !== undefined) event.preventDefault();
      deed?.(inHand.id);
      return;
    }
    if (cellByKey(event)) return event.preventDefault();
    if (chooseByKey(event)) return event.preventDefault();
    if (event.key === 'ArrowUp' && stopIndex === firstIndex) {
      body.current?.querySelector<HTMLElement>('.bw-grid-sort')?.focus();
      return event.preventDefault();
    }
    const page = Math.max(1, Math.floor((body.current?.clientHeight ?? 300) / rowHeightPx) - 2);
    const to = landing(takeable(), { from: stopIndex, key: event.key, page });
    if (to === null) return;
    event.preventDefault();
    const row = rows[to];
    if (row === undefined || to === selectedIndex) return;
    followFocus.current = true;
    take(row.id, event.shiftKey);
  };
  const toRows = (): void => body.current?.querySelector<HTMLElement>('[role=row][tabindex="0"]')?.focus();

  const line = (row: GridRow, index: number, style?: CSSProperties): ReactNode => {
    const cells = row.kind === 'row' ? row.cells() : {};
    return row.kind === 'group' ? (
      <div
        key={row.id}
        role="row"
        className="bw-grid-row bw-grid-group"
        aria-rowindex={index + 2}
        data-index={index}
        ref={virtual && measured ? virtualizer.measureElement : undefined}
        style={style}
      >
        {row.cells.map((cell) => (
          <div
            key={cell.key}
            role="gridcell"
            className="bw-grid-cell"
            data-end={cell.end || undefined}
            aria-colspan={cell.span}
            style={{ gridColumn: `span ${cell.span}` }}
          >
            {cell.content}
          </div>
        ))}
      </div>
    ) : (
      <div
        key={row.id}
        role="row"
        id={`${idBase}-${index}`}
        className="bw-grid-row"
        aria-rowindex={index + 2}
        aria-selected={chosen.size > 0 ? chosen.has(row.id) : row.id === selected}
        data-hand={row.id === selected || undefined}
        data-index={index}
        ref={virtual && measured ? virtualizer.measureElement : undefined}
        tabIndex={index === stopIndex ? 0 : -1}
        style={style}
        onClick={(event) => onRowClick(event, row.id)}
      >
        {columns.map((column, at) => (
          <div
            key={column.key}
            role="gridcell"
            className="bw-grid-cell"
            data-block={blockMark(places, index, at)}
            data-end={column.end || undefined}
            data-wide={column.wideOnly || undefined}
          >
            {cells[column.key]}
          </div>
        ))}
      </div>
    );
  };

  const wide = columns.map((column) => column.width).join(' ');
  const narrow = columns
    .filter((column) => column.wideOnly !== true)
    .map((column) => column.width)
    .join(' ');
  return (
    <div
      className="bw-grid"
      data-fixed={!measured || undefined}
      style={
        {
          '--grid-columns': wide,
          '--grid-narrow': narrow,
          '--grid-row-height': `${rowHeightPx}px`,
          ...(minWidthPx === undefined ? {} : { '--grid-least': `${minWidthPx}px` }),
        } as CSSProperties
      }
    >
      <div
        ref={body}
        className="bw-grid-body"
        role="grid"
        aria-label={label}
        aria-rowcount={rows.length + 1}
        aria-colcount={columns.length}
        aria-multiselectable={onChoose === undefined ? undefined : true}
        data-virtual={virtual || undefined}
        data-empty={rows.length === 0 || undefined}
        onKeyDown={onKeyDown}
      >
        <GridHead columns={columns} onSort={onSort} onWidth={props.onWidth} onDown={toRows} />
        {rows.length === 0 ? null : virtual ? (
          <div role="rowgroup" style={{ height: `${virtualizer.getTotalSize()}px`, position: 'relative' }}>
            {virtualizer.getVirtualItems().map((item) => {
              const row = rows[item.index];
              return row === undefined
                ? null
                : line(row, item.index, {
                    position: 'absolute',
                    top: 0,
                    left: 0,
                    width: '100%',
                    transform: `translateY(${item.start - headHeightPx}px)`,
                  });
            })}
          </div>
        ) : (
          <div role="rowgroup">{rows.map((row, index) => line(row, index))}</div>
        )}
      </div>
      {rows.length === 0 ? <div className="bw-grid-empty">{empty}</div> : null}
    </div>
  );
}
