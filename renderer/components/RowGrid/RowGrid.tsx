import { defaultRangeExtractor, useVirtualizer } from '@tanstack/react-virtual';
import type { Range } from '@tanstack/react-virtual';
import { useEffect, useId, useMemo, useRef } from 'react';
import type { CSSProperties, KeyboardEvent, ReactNode } from 'react';
import { landing } from './landing.ts';
import './RowGrid.css';

export interface GridColumn {
  key: string;
  label: string;
  /** A track of CSS grid. */
  width: string;
  end?: boolean;
  /** Left out where the grid is narrow; what it says stands in the sheet beside. */
  wideOnly?: boolean;
}

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
  empty: ReactNode;
}

const virtualAbove = 100;
const rowHeightPx = 30;

/**
 * A table with one row in hand. One tab stop; arrows, Home, End, Page and Ctrl with Home and End move the hand. Above a
 * hundred rows only those in view are drawn, and the row in hand always, so that the focus is never lost.
 */
export function RowGrid({ label, columns, rows, selected, onSelect, onOpen, empty }: RowGridProps) {
  const body = useRef<HTMLDivElement>(null);
  const idBase = useId();
  const followFocus = useRef(false);
  const takeable = useMemo(() => rows.flatMap((row, index) => (row.kind === 'row' ? [index] : [])), [rows]);
  const indexOf = useMemo(() => new Map(takeable.map((index) => [rows[index]?.id ?? '', index])), [rows, takeable]);
  const selectedIndex = selected === null ? -1 : (indexOf.get(selected) ?? -1);
  const stopIndex = selectedIndex >= 0 ? selectedIndex : (takeable[0] ?? -1);
  const virtual = rows.length > virtualAbove;

  const virtualizer = useVirtualizer({
    count: rows.length,
    enabled: virtual,
    getScrollElement: () => body.current,
    estimateSize: () => rowHeightPx,
    overscan: 8,
    scrollMargin: rowHeightPx,
    scrollPaddingStart: rowHeightPx,
    getItemKey: (index) => rows[index]?.id ?? index,
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

  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>): void => {
    if (event.key === 'Enter' && selectedIndex >= 0) {
      const row = rows[selectedIndex];
      if (row !== undefined) onOpen?.(row.id);
      return;
    }
    const page = Math.max(1, Math.floor((body.current?.clientHeight ?? 300) / rowHeightPx) - 2);
    const to = landing(takeable, { from: stopIndex, key: event.key, page });
    if (to === null) return;
    event.preventDefault();
    const row = rows[to];
    if (row === undefined || to === selectedIndex) return;
    followFocus.current = true;
    onSelect(row.id);
  };

  const line = (row: GridRow, index: number, style?: CSSProperties): ReactNode => {
    const cells = row.kind === 'row' ? row.cells() : {};
    return row.kind === 'group' ? (
      <div
        key={row.id}
        role="row"
        className="bw-grid-row bw-grid-group"
        aria-rowindex={index + 2}
        data-index={index}
        ref={virtual ? virtualizer.measureElement : undefined}
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
        aria-selected={row.id === selected}
        data-index={index}
        ref={virtual ? virtualizer.measureElement : undefined}
        tabIndex={index === stopIndex ? 0 : -1}
        style={style}
        onClick={() => onSelect(row.id)}
      >
        {columns.map((column) => (
          <div
            key={column.key}
            role="gridcell"
            className="bw-grid-cell"
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
    <div className="bw-grid" style={{ '--grid-columns': wide, '--grid-narrow': narrow } as CSSProperties}>
      <div
        ref={body}
        className="bw-grid-body"
        role="grid"
        aria-label={label}
        aria-rowcount={rows.length + 1}
        aria-colcount={columns.length}
        data-virtual={virtual || undefined}
        data-empty={rows.length === 0 || undefined}
        onKeyDown={onKeyDown}
      >
        <div role="rowgroup" className="bw-grid-headgroup">
          <div role="row" className="bw-grid-row bw-grid-head" aria-rowindex={1}>
            {columns.map((column) => (
              <div
                key={column.key}
                role="columnheader"
                className="bw-grid-cell"
                data-end={column.end || undefined}
                data-wide={column.wideOnly || undefined}
              >
                {column.label}
              </div>
            ))}
          </div>
        </div>
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
                    transform: `translateY(${item.start - rowHeightPx}px)`,
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
