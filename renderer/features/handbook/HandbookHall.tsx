import { useDeferredValue, useMemo, useState } from 'react';
import { TextInput } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { allTables } from '../../engine/handbook/index.ts';
import type { AnyTable } from '../../engine/handbook/tables.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import { countOf } from '../steps/words.ts';
import { useAsked } from '../task/useAsked.ts';
import { handbookAsking } from './handbookCommands.ts';
import { searchHandbook, type FoundTable } from './search.ts';
import { TableSheet } from './TableSheet.tsx';
import { threadIn } from './rowThread.ts';
import { ThreadSheet } from './ThreadSheet.tsx';
import { rowName, rowsOf } from './tableColumns.ts';
import { tableName, topicName, topics } from './topics.ts';
import '../steps/steps.css';
import '../task/task.css';
import './handbook.css';

export interface HandbookHallProps {
  place: Extract<Place, { at: 'handbook' }>;
  units: UnitsShown;
}

const searchId = 'handbook-search';
const rowsShown = 4;

/** Every table held, as printed: found as you type, and side by side where documents have the same thread. */
export function HandbookHall({ place, units }: HandbookHallProps) {
  const [query, setQuery] = useState('');
  const asked = useDeferredValue(query);
  const found = useMemo(() => searchHandbook(asked), [asked]);
  const isSearch = asked.trim() !== '';
  const rows = found.reduce((sum, one) => sum + one.rows.length, 0);
  const thread = threadIn(asked.trim());
  const table = allTables.find(({ key }) => key === place.table);
  const stacked = useMediaQuery('(max-width: 1100px)', false, { getInitialValueInEffect: false });
  useAsked(handbookAsking, () => document.getElementById(searchId)?.focus());
  const find = (
    <div key="find" className="bw-handbook-find">
      <h2>
        <label htmlFor={searchId}>Handbook</label>
      </h2>
      <TextInput
        id={searchId}
        placeholder="Thread, document or word…"
        type="search"
        autoComplete="off"
        value={query}
        onChange={({ currentTarget }) => setQuery(currentTarget.value)}
      />
      <p role="status" className="bw-second bw-small">
        {isSearch
          ? `${countOf(found.length, 'table')}, ${countOf(rows, 'row')}`
          : `${countOf(allTables.length, 'table')}, ${countOf(allRows, 'row')}`}
      </p>
      <p>
        {thread === null ? (
          <a href={placeAddress({ at: 'handbook', table: 'thread' })}>One thread in every document</a>
        ) : (
          <a href={placeAddress({ at: 'handbook', table: 'thread', row: thread.designation })}>
            All documents side by side for {thread.designation}
          </a>
        )}
      </p>
    </div>
  );
  const list = (
    <nav key="list" className="bw-handbook-topics" aria-label="Tables by subject">
      {found.length === 0 ? (
        <p className="bw-second">
          No published value: nothing held has “{asked.trim()}”. Nothing is interpolated or guessed.
        </p>
      ) : null}
      {topics.map((topic) => (
        <Topic
          key={topic}
          topic={topic}
          found={found.filter((one) => one.table.topic === topic)}
          isSearch={isSearch}
          place={place}
        />
      ))}
    </nav>
  );
  const sheet =
    place.table === 'thread' ? (
      <ThreadSheet key="sheet" designation={place.row ?? ''} units={units} />
    ) : table === undefined ? (
      <Beginning key="sheet" />
    ) : (
      <TableSheet
        key={table.key}
        table={table}
        row={place.row}
        units={units}
        matched={isSearch ? (found.find((one) => one.table === table)?.rows ?? []) : []}
      />
    );
  // Where the panes stack, what was chosen stands before what else there is; a search shows what it finds first.
  const sheetFirst = stacked && !isSearch && (table !== undefined || place.table === 'thread');
  return <div className="bw-split bw-handbook">{sheetFirst ? [find, sheet, list] : [find, list, sheet]}</div>;
}

const allRows = allTables.reduce((sum, table) => sum + table.rows.length, 0);

interface TopicProps {
  topic: string;
  found: readonly FoundTable[];
  isSearch: boolean;
  place: HandbookHallProps['place'];
}

function Topic({ topic, found, isSearch, place }: TopicProps) {
  if (found.length === 0) return null;
  return (
    <section>
      <h3>{topicName(topic)}</h3>
      <ul>
        {found.map(({ table, rows }) => (
          <li key={table.key}>
            <a
              href={placeAddress({ at: 'handbook', table: table.key })}
              aria-current={place.table === table.key ? 'page' : undefined}
            >
              {tableName(table)}
              <span className="bw-second bw-small">
                {table.source.title}. {rowsText(table)}
              </span>
            </a>
            {isSearch && rows.length > 0 ? (
              <ul className="bw-handbook-rows">
                {rows.slice(0, rowsShown).map((at) => (
                  <li key={at}>
                    <a
                      className="bw-small"
                      href={placeAddress({ at: 'handbook', table: table.key, row: rowName(table, at) })}
                    >
                      {Object.values(rowsOf(table)[at] ?? {})
                        .filter((value) => value !== null && value !== '')
                        .slice(0, 5)
                        .map(String)
                        .join(' · ')}
                    </a>
                  </li>
                ))}
                {rows.length > rowsShown ? (
                  <li className="bw-second bw-small">and {rows.length - rowsShown} more</li>
                ) : null}
              </ul>
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What tells two tables of one name apart: how many rows, from which to which. */
function rowsText(table: AnyTable): string {
  const names = rowsOf(table).map((row) => String(Object.values(row)[0]));
  const [first, last] = [names[0] ?? '', names.at(-1) ?? ''];
  const count = countOf(names.length, 'row');
  return names.length < 2 || Math.max(first.length, last.length) > 14 ? count : `${count}, ${first} to ${last}`;
}

function Beginning() {
  return (
    <div className="bw-pane-detail bw-handbook-sheet" role="region" aria-label="Table in hand" tabIndex={0}>
      <h1>What is held, and where it comes from</h1>
      <p>
        Each table stands as its document prints it, in the printed units, with edition and table, and how it came to
        us: read in a public text, from memory, or common practice without a source. Standards were read in
        reproductions, not in the standards themselves. Where documents differ, both are shown; between two printed
        sizes there is nothing.
      </p>
      <p>Choose a table, or type a thread, a document’s number or a word.</p>
    </div>
  );
}
