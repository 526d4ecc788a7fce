import { useRef } from 'react';
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import './RowsField.css';

export interface RowsFieldProps<Row> {
  /** What one line is: "Gear", "Move". */
  what: string;
  rows: readonly Row[];
  addLabel: string;
  onAdd: () => void;
  onRemove: (index: number) => void;
  /** Why a line cannot be taken out; null where it can. */
  hindered?: (row: Row, index: number) => string | null;
  children: (row: Row, index: number) => ReactNode;
}

/** A list of which each line has fields of its own. Lines are added and taken out in place; the focus stays near. */
export function RowsField<Row>(props: RowsFieldProps<Row>) {
  const { what, rows, addLabel, onAdd, onRemove, hindered = () => null, children } = props;
  const element = useRef<HTMLDivElement>(null);
  const focusLine = (index: number): void => {
    // After the line is there, or gone.
    setTimeout(() => {
      const lines = element.current?.querySelectorAll<HTMLElement>('.bw-rows-line');
      const target =
        lines?.[index]?.querySelector<HTMLElement>('input, select') ??
        element.current?.querySelector<HTMLElement>('.bw-rows-add');
      target?.focus();
    });
  };
  return (
    <div ref={element} className="bw-rows">
      {rows.map((row, index) => {
        const why = hindered(row, index);
        return (
          <div key={index} className="bw-rows-line" role="group" aria-label={`${what}, line ${index + 1}`}>
            <div className="bw-rows-fields">{children(row, index)}</div>
            <Button
              size="xs"
              aria-disabled={why !== null}
              data-disabled={why !== null}
              aria-label={`Take out ${what.toLowerCase()} ${index + 1}${why === null ? '' : `: ${why}`}`}
              onClick={() => {
                if (why !== null) return;
                onRemove(index);
                focusLine(Math.min(index, rows.length - 2));
              }}
            >
              Take out
            </Button>
            {why === null ? null : <p className="bw-second bw-small bw-rows-why">{why}</p>}
          </div>
        );
      })}
      <Button
        size="xs"
        className="bw-rows-add"
        onClick={() => {
          onAdd();
          focusLine(rows.length);
        }}
      >
        {addLabel}
      </Button>
    </div>
  );
}
