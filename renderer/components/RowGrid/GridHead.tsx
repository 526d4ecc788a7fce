import type { KeyboardEvent } from 'react';
import type { GridColumn } from './column.ts';

export interface GridHeadProps {
  columns: readonly GridColumn[];
  onSort?: ((key: string) => void) | undefined;
  /** Down from the head: back into the rows. */
  onDown: () => void;
}

const marks = { ascending: '↑', descending: '↓', none: '' } as const;

/** The row of headings. Those that sort are buttons; Up from the first row leads to them, so that the table stays one tab stop. */
export function GridHead({ columns, onSort, onDown }: GridHeadProps) {
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
          </div>
        ))}
      </div>
    </div>
  );
}
