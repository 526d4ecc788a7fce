import { Button } from '@mantine/core';
import { useState } from 'react';
import { unitsOf, type Kind, type Unit } from '../../engine/units/index.ts';
import type { TableShown } from '../../workers/tableImport.ts';
import { columnOrder, neededNames, unitsText } from './mappingWords.ts';
import type { TableImportState } from './useTableImport.ts';

export interface MappingTableProps {
  state: TableImportState;
  shown: TableShown;
}

/** Each of our columns with the file's column that feeds it. */
export function MappingTable({ state, shown }: MappingTableProps) {
  const { target, mapping, fault, isRemembered } = state;
  const [all, setAll] = useState(false);
  const { shown: names, more } = columnOrder(target, mapping);
  const others = shown.names.filter((_, at) => mapping[at]?.column === null);
  return (
    <section aria-labelledby="table-import-mapping">
      <div className="bw-table-head">
        <h3 id="table-import-mapping">Which column is which</h3>
        {isRemembered ? <span className="bw-second">As the last time for these headers.</span> : null}
        {isRemembered ? (
          <Button size="compact-sm" onClick={state.guessAnew}>
            Guess by the names
          </Button>
        ) : null}
      </div>
      <div className="bw-table-scroll">
        <table className="bw-table-mapping">
          <thead>
            <tr>
              <th scope="col">Here</th>
              <th scope="col">Fed by the file’s column</th>
              <th scope="col">Its first cells</th>
              <th scope="col">Units</th>
            </tr>
          </thead>
          <tbody>
            {[...names, ...(all ? more : [])].map((name) => (
              <MappingRow key={name} name={name} state={state} shown={shown} />
            ))}
          </tbody>
        </table>
      </div>
      {more.length === 0 ? null : (
        <button type="button" className="bw-link" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? 'Show fewer columns' : `Show the ${more.length} columns the file does not feed`}
        </button>
      )}
      {others.length === 0 ? null : (
        <p className="bw-table-others">
          <b>{target.keepsOthers === false ? 'Not brought in:' : 'Read by no rule, kept with each row:'}</b>{' '}
          {others.join(', ')}
        </p>
      )}
      {fault === null ? null : (
        <p role="status" className="bw-table-fault">
          {fault}
        </p>
      )}
    </section>
  );
}

function MappingRow({ name, state, shown }: MappingTableProps & { name: string }) {
  const { target, mapping } = state;
  const column = target.columns.find((one) => one.name === name);
  if (column === undefined) return null;
  const at = mapping.findIndex((feed) => feed.column === name);
  const unit = mapping[at]?.unit ?? null;
  const isNeeded = neededNames(target, new Set(mapping.map((feed) => feed.column))).has(name);
  const samples = shown.first.flatMap(({ cells }) => cells[at] ?? []).filter((text) => text.trim() !== '');
  const doubt = shown.guess.doubts.find(([place]) => place === at)?.[1];
  const change = (value: string): void => {
    if (value !== '') return state.feed(Number(value), { column: name, unit: guessedUnit(shown, Number(value), name) });
    if (at >= 0) state.feed(at, { column: null, unit: null });
  };
  return (
    <tr data-lacking={(isNeeded && at < 0) || undefined}>
      <th scope="row">
        <span className="bw-code">{name}</span>
        {isNeeded ? <span className="bw-table-needed"> needed</span> : null}
        <div className="bw-second bw-small">{column.meaning}</div>
      </th>
      <td>
        <select
          className="bw-table-select"
          aria-label={`Column of the file for ${name}`}
          value={at < 0 ? '' : String(at)}
          onChange={({ currentTarget }) => change(currentTarget.value)}
        >
          <option value="">none</option>
          {shown.names.map((header, place) => (
            <option key={place} value={place}>
              {header}
            </option>
          ))}
        </select>
        {doubt === undefined ? null : <div className="bw-table-doubt bw-small">{doubt}</div>}
      </td>
      <td className="bw-table-samples">{samples.slice(0, 3).join(' · ')}</td>
      <td>
        {column.unitKind === undefined || at < 0 ? null : (
          <Units kind={column.unitKind} at={at} unit={unit} state={state} shown={shown} name={name} />
        )}
      </td>
    </tr>
  );
}

function guessedUnit({ guess }: TableShown, at: number, name: string): Unit | null {
  const guessed = guess.mapping[at];
  return guessed?.column === name ? guessed.unit : null;
}

/** Which units stand in the cells; numbers without one are refused unless a person says here what they are in. */
function Units(x: MappingTableProps & { kind: Kind; at: number; unit: Unit | null; name: string }) {
  const { kind, at, unit, state, shown, name } = x;
  const seen = shown.units.find(([place]) => place === at)?.[1];
  const said = seen === undefined ? null : unitsText(seen, unit);
  return (
    <>
      {said === null ? null : <div className={said.isDoubt ? 'bw-table-doubt' : undefined}>{said.text}</div>}
      {(seen?.bare ?? 0) === 0 && unit === null ? null : (
        <label className="bw-small">
          Numbers without a unit{' '}
          <select
            className="bw-table-select"
            aria-label={`Unit of numbers without one in ${name}`}
            value={unit ?? ''}
            onChange={({ currentTarget }) =>
              state.feed(at, { unit: unitsOf(kind).find((one) => one === currentTarget.value) ?? null })
            }
          >
            <option value="">are refused</option>
            {unitsOf(kind).map((one) => (
              <option key={one} value={one}>
                are in {one}
              </option>
            ))}
          </select>
        </label>
      )}
    </>
  );
}
