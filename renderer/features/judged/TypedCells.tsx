import type { ReactNode } from 'react';
import type { Refusal } from '../../../shared-types/errors.ts';

export interface UnreadCellsProps {
  refusals: readonly Refusal[];
  /** "row", "record": what no rule looked at. */
  what: string;
  /** What a column is called; itself where nothing is said. */
  named?: (field: string) => ReactNode;
}

/** Which cells of a row cannot be read, and why; nothing where all can. */
export function UnreadCells({ refusals, what, named }: UnreadCellsProps) {
  if (refusals.length === 0) return null;
  return (
    <section className="bw-callout-part" aria-label="What cannot be read">
      <h2>What cannot be read</h2>
      <ul className="bw-callout-lines">
        {refusals.map(({ field, message, value }) => (
          <li key={`${field} ${message}`}>
            {field === undefined ? null : <b>{named?.(field) ?? field}: </b>}
            {field === undefined ? message : message.replace(`${field}: `, '')}
            {value === undefined ? null : <code className="bw-code"> {String(value)}</code>}
          </li>
        ))}
      </ul>
      <p className="bw-second">No rule looked at this {what} before all of it can be read.</p>
    </section>
  );
}

/** A row column by column, word for word as it came. */
export function TypedCells({ cells }: { cells: Readonly<Record<string, string>> }) {
  return (
    <details className="bw-callout-part">
      <summary>As typed</summary>
      <dl className="bw-callout-typed">
        {Object.entries(cells).map(([column, typed]) => (
          <div key={column}>
            <dt>{column}</dt>
            <dd>{typed}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
