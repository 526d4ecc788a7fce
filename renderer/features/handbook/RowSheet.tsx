import type { AnyTable } from '../../engine/handbook/tables.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { placeAddress } from '../../store/place.ts';
import { leaveEntries } from '../bench/benchDraft.ts';
import { CalloutUses } from './CalloutUses.tsx';
import { benchUsesOf, calloutsOf } from './rowUses.ts';
import { rowThread } from './rowThread.ts';
import { cellText, columnsOf, headingOf, rowName, rowsOf, type TableColumn } from './tableColumns.ts';
import { tableName } from './topics.ts';
import { twinsOf, type Twin } from './twins.ts';

export interface RowSheetProps {
  table: AnyTable;
  index: number;
  columns: readonly TableColumn[];
  units: UnitsShown;
}

/** The row in hand: its cells one below the other, and where its values can go. */
export function RowSheet({ table, index, columns, units }: RowSheetProps) {
  const row = rowsOf(table)[index];
  if (row === undefined) return null;
  const callouts = calloutsOf(table, row);
  const uses = benchUsesOf(table, row);
  const thread = rowThread(table, row);
  const twins = twinsOf(table, index);
  return (
    <section className="bw-handbook-row" aria-label="Row in hand">
      <dl className="bw-handbook-cells">
        {columns.map((column) => {
          const text = cellText(column, row[column.key], units);
          return text === '' ? null : (
            <div key={column.key}>
              <dt>{headingOf(column, units)}</dt>
              <dd>{text}</dd>
            </div>
          );
        })}
      </dl>
      {thread === null ? null : (
        <p>
          <a href={placeAddress({ at: 'handbook', table: 'thread', row: thread.designation })}>
            All documents side by side for {thread.designation}
          </a>
        </p>
      )}
      {twins.length === 0 ? null : <Twins twins={twins} units={units} />}
      {uses.length === 0 ? null : (
        <p className="bw-handbook-uses">
          <b>Open on the Bench:</b>{' '}
          {uses.map(({ sheet, words, typed }) => (
            <a
              key={`${sheet} ${words}`}
              href={placeAddress({ at: 'bench', sheet })}
              onClick={() => leaveEntries(sheet, typed)}
            >
              {words}
            </a>
          ))}
        </p>
      )}
      {callouts.length === 0 ? null : <CalloutUses callouts={callouts} />}
    </section>
  );
}

/** What other documents print for the same class or grade, cell by cell. */
function Twins({ twins, units }: { twins: readonly Twin[]; units: UnitsShown }) {
  return (
    <div>
      <b>The same in other documents</b>
      <ul className="bw-handbook-twins">
        {twins.map(({ table, index }) => (
          <li key={`${table.key} ${index}`}>
            <a href={placeAddress({ at: 'handbook', table: table.key, row: rowName(table, index) })}>
              {tableName(table)}
            </a>
            <span>
              {columnsOf(table)
                .slice(1)
                .map((column) => [
                  headingOf(column, units),
                  cellText(column, rowsOf(table)[index]?.[column.key], units),
                ])
                .filter(([, text]) => text !== '')
                .map(([heading, text]) => `${heading}: ${text}`)
                .join(' · ')}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}
