import { useEffect, useMemo, useRef } from 'react';
import type { AnyTable } from '../../engine/handbook/tables.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { SourceNote } from '../../components/SourceNote/SourceNote.tsx';
import { placeAddress } from '../../store/place.ts';
import { RowSheet } from './RowSheet.tsx';
import { cellText, columnsOf, headingOf, rowIndex, rowName, rowsOf } from './tableColumns.ts';
import { tableName } from './topics.ts';

export interface TableSheetProps {
  table: AnyTable;
  /** The row in hand, by its name. */
  row: string | undefined;
  units: UnitsShown;
  /** Rows that a search has found. */
  matched: readonly number[];
}

/** A table as printed, with what there is to know of where it comes from, and the row in hand below it. */
export function TableSheet({ table, row, units, matched }: TableSheetProps) {
  const columns = useMemo(() => columnsOf(table), [table]);
  const at = rowIndex(table, row);
  const inHand = useRef<HTMLTableRowElement>(null);
  const { source, obtained, confidence, notes, aliases, rowCount } = table;
  useEffect(() => {
    inHand.current?.scrollIntoView({ block: 'nearest' });
  }, [at]);
  const found = new Set(matched);
  return (
    <div className="bw-pane-detail bw-handbook-sheet" role="region" aria-label="Table in hand" tabIndex={0}>
      <h1>{tableName(table)}</h1>
      <p className="bw-handbook-title">{source.title}</p>
      {at < 0 ? null : <RowSheet table={table} index={at} columns={columns} units={units} />}
      <div
        className="bw-handbook-scroll"
        tabIndex={0}
        role="group"
        aria-label={`${tableName(table)}, scrolls where it does not fit`}
      >
        <table className="bw-task-table bw-handbook-table" data-long={hasLongNames(table) || undefined}>
          <caption className="bw-hidden">
            {tableName(table)}: {source.title}
          </caption>
          <thead>
            <tr>
              {columns.map((column) => (
                <th key={column.key} scope="col" className={column.isNumber ? 'bw-end' : undefined}>
                  {headingOf(column, units)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rowsOf(table).map((printed, index) => (
              <tr
                key={rowName(table, index)}
                ref={index === at ? inHand : undefined}
                data-hand={index === at || undefined}
                data-found={found.has(index) || undefined}
              >
                {columns.map((column, place) => {
                  const text = cellText(column, printed[column.key], units);
                  return place === 0 ? (
                    <th key={column.key} scope="row">
                      <a
                        href={placeAddress({ at: 'handbook', table: table.key, row: rowName(table, index) })}
                        aria-current={index === at ? 'true' : undefined}
                      >
                        {text === '' ? `row ${index + 1}` : text}
                      </a>
                      {found.has(index) ? <span className="bw-hidden"> found</span> : null}
                    </th>
                  ) : (
                    <td key={column.key} className={column.isNumber ? 'bw-end' : undefined}>
                      {text}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <dl className="bw-task-facts">
        <dt>Document</dt>
        <dd>
          {source.number}, {source.table}
        </dd>
        <dt>Edition</dt>
        <dd>{source.edition}</dd>
        <dt>Published by</dt>
        <dd>{source.publisher}</dd>
        {aliases.length === 0 ? null : (
          <>
            <dt>Also asked for as</dt>
            <dd>{aliases.join(', ')}</dd>
          </>
        )}
        <dt>How it came to us</dt>
        <dd>
          {obtained}; confidence {confidence}
        </dd>
        <dt>Checked</dt>
        <dd>
          {rowCount} rows counted{sumsText(table)}; each row held against its own shape
        </dd>
        <dt>Notes</dt>
        <dd>{notes}</dd>
      </dl>
      <SourceNote>
        {units === 'as-written'
          ? 'As printed, in the printed units.'
          : 'The printed number stands first. Conversions to four figures: least and greatest values to their safe side, others half to even.'}
      </SourceNote>
    </div>
  );
}

const longName = 24;

/** Rows that begin with a sentence are wrapped; sizes and designations stay whole. */
function hasLongNames(table: AnyTable): boolean {
  return rowsOf(table).some((row) => String(Object.values(row)[0]).length > longName);
}

function sumsText({ columnSums }: AnyTable): string {
  const count = Object.keys(columnSums).length;
  return count === 0 ? '' : `, ${count === 1 ? '1 column' : `${count} columns`} added up against a slipped digit`;
}
