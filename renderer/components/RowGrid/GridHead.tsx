import type { KeyboardEvent } from 'react';
import type { GridColumn } from './column.ts';
import { WidthGrip } from './WidthGrip.tsx';
import type { WantedWidth } from './WidthGrip.tsx';

export interface GridHeadProps {
  columns: readonly GridColumn[];
  onSort?: ((key: string) => void) | undefined;
  /** A column made wider or narrower, by its edge or by Shift with Left and Right on its heading; Shift with Enter fits its texts. */
  onWidth?: ((key: string, width: WantedWidth) => void) | undefined;
  /** Down from the head: back into the rows. */
  onDown: () => void;
}

/** So much wider or narrower by one key. */
const stepPx = 8;

const marks = { ascending: '↑', descending: '↓', none: '' } as const;

/** The row of headings. Those that sort are buttons; Up from the first row leads to them, so that the table stays one tab stop. */
export function GridHead({ columns, onSort, onWidth, onDown }: GridHeadProps) {
  const widthByKey = ({ key, shiftKey }: KeyboardEvent): boolean => {
    const cell = document.activeElement?.closest<HTMLElement>('[role=columnheader]');
    const column = cell?.dataset['column'];
    if (onWidth === undefined || !shiftKey || !cell || column === undefined) return false;
    const now = Math.round(cell.getBoundingClientRect().width);
    if (key === 'ArrowRight') onWidth(column, now + stepPx);
    else if (key === 'ArrowLeft') onWidth(column, now - stepPx);
    else if (key === 'Enter') onWidth(column, 'fits');
    else return false;
    return true;
  };
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>): void => {
    const buttons = [...event.currentTarget.querySelectorAll('button')];
    const at = buttons.findIndex((button) => button === document.activeElement);
    const to: Record<string, number> = {
      ArrowRight: Math.min(at + 1, buttons.length - 1),
      ArrowLeft: Math.max(at - 1, 0),
      Home: 0,
      End: buttons.length - 1,
    };
    // What is pressed here is none of the rows'.
    if (at >= 0) event.stopPropagation();
    if (at >= 0 && widthByKey(event)) return event.preventDefault();
    const wanted = to[event.key];
    if (event.key === 'ArrowDown' && at >= 0) {
      event.preventDefault();
      onDown();
    } else if (wanted !== undefined && at >= 0) {
      event.preventDefault();
      buttons[wanted]?.focus();
    }
  };
  return (
    <div role="rowgroup" className="bw-grid-headgroup" onKeyDown={onKeyDown}>
      <div role="row" className="bw-grid-row bw-grid-head" aria-rowindex={1}>
        {columns.map((column) => (
          <div
            key={column.key}
            role="columnheader"
            className="bw-grid-cell"
            data-column={column.key}
            data-end={column.end || undefined}
            data-wide={column.wideOnly || undefined}
            aria-sort={column.sorted}
          >
            {column.sorted === undefined || onSort === undefined ? (
              column.label
            ) : (
              <button
                type="button"
                className="bw-grid-sort"
                tabIndex={-1}
                title={`Sort by ${column.label}`}
                onClick={() => onSort(column.key)}
              >
                {column.label}
                <span aria-hidden="true">{marks[column.sorted]}</span>
              </button>
            )}
            {onWidth === undefined ? null : <WidthGrip onWidth={(width) => onWidth(column.key, width)} />}
          </div>
        ))}
      </div>
    </div>
  );
}
