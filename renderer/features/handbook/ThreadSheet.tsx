import { Button, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import { Assumed } from '../../components/Assumed/Assumed.tsx';
import { SourceNote } from '../../components/SourceNote/SourceNote.tsx';
import { RefusedError } from '../../engine/errors.ts';
import { tableByKey } from '../../engine/handbook/index.ts';
import { readThread } from '../../engine/thread/index.ts';
import type { Thread } from '../../engine/thread/index.ts';
import { showBand, showLimit, showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { TorqueBand } from '../../engine/torqueTable/index.ts';
import { placeAddress } from '../../store/place.ts';
import { limitsTable } from '../bench/sheets/limits.ts';
import { SourceLink } from '../bench/SourceLinks.tsx';
import { goTo } from '../session/usePlace.ts';
import { BandsDrawing } from './BandsDrawing.tsx';
import { rowNameOfThread } from './rowThread.ts';
import { threadFacts } from './threadFacts.ts';

export interface ThreadSheetProps {
  designation: string;
  units: UnitsShown;
}

type Read = { thread: Thread; why: null } | { thread: null; why: string };

function read(designation: string): Read {
  try {
    return { thread: readThread(designation), why: null };
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return { thread: null, why: error.refusal.message };
  }
}

/** One thread in every document that has it: bands, limits and heads side by side, and where the documents differ. */
export function ThreadSheet({ designation, units }: ThreadSheetProps) {
  const [typed, setTyped] = useState(designation);
  const { thread, why } = read(designation);
  useEffect(() => setTyped(designation), [designation]);
  return (
    <div className="bw-pane-detail bw-handbook-sheet" role="region" aria-label="Thread in hand" tabIndex={0}>
      <h1>{thread === null ? 'One thread, every document' : `${thread.designation} in every document`}</h1>
      <form
        className="bw-handbook-thread"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          goTo({ at: 'handbook', table: 'thread', row: typed.trim() }, 'replace');
        }}
      >
        <TextInput
          className="bw-field"
          label="Thread"
          value={typed}
          error={why !== null && designation !== '' ? why : undefined}
          autoComplete="off"
          spellCheck={false}
          onChange={({ currentTarget }) => setTyped(currentTarget.value)}
        />
        <Button type="submit">Show this thread</Button>
      </form>
      {thread === null ? null : <Facts thread={thread} units={units} />}
    </div>
  );
}

function Facts({ thread, units }: { thread: Thread; units: UnitsShown }) {
  const { bands, limits, heads, disagreements } = threadFacts(thread);
  const unit = bands[0]?.printed.unit ?? 'N·m';
  const { designation } = thread;
  if (bands.length === 0 && limits.length === 0 && heads.length === 0)
    return <p>No published value held for {designation}; none is interpolated.</p>;
  return (
    <>
      {disagreements.length === 0 ? (
        <p>What is held of it agrees wherever two documents print the same thing.</p>
      ) : (
        <section className="bw-handbook-differ">
          <h2>Where documents differ</h2>
          <dl>
            {disagreements.map(({ about, words }) => (
              <div key={about}>
                <dt>{about}</dt>
                <dd>{words}</dd>
              </div>
            ))}
          </dl>
        </section>
      )}
      {bands.length === 0 ? null : (
        <section>
          <h2>Torque bands</h2>
          <BandsDrawing
            thread={designation}
            unit={units === 'si' ? 'N·m' : unit}
            bars={bands.map((band) => ({
              name: `${band.source.number}, ${band.condition}`,
              text: bandText(band, units),
              minNm: band.minNm,
              maxNm: band.maxNm,
            }))}
          />
          <Table
            thread={thread}
            caption={`Published torque bands for ${designation}`}
            heads={['Document', 'Condition', 'Band', 'Notes']}
            rows={bands.map((band) => ({
              key: `${band.source.key} ${band.condition}`,
              table: band.source.key,
              cells: [
                `${band.source.number}, ${band.source.table}`,
                band.condition,
                bandText(band, units),
                band.notes.join(' '),
              ],
            }))}
          />
        </section>
      )}
      {limits.length === 0 ? null : (
        <section>
          <h2>Running and breakaway torque</h2>
          <LimitRows limits={limits} thread={thread} units={units} />
        </section>
      )}
      {heads.length === 0 ? null : (
        <section>
          <h2>Heads and nuts</h2>
          <Table
            thread={thread}
            caption={`Widths across flats for ${designation}`}
            heads={['Document', 'Form', 'Across flats']}
            rows={heads.map(({ form, nominal, document, key }, index) => ({
              key: `${key} ${form} ${index}`,
              table: key,
              cells: [document, form, nominal],
            }))}
          />
        </section>
      )}
      <Assumed
        what={['Diameter and pitch decide; where a table prints no pitches, the diameter alone, and the row says so.']}
      />
      <SourceNote>Printed numbers first; conversions of limits to their safe side. No value is chosen here.</SourceNote>
    </>
  );
}

function bandText({ printed: { min, max, unit }, tolerance }: TorqueBand, units: UnitsShown): string {
  const within = tolerance === undefined ? '' : ` ± ${showNumber(tolerance.percent)} %`;
  if (min !== null && max !== null) return `${showBand(`${min} ${unit}`, `${max} ${unit}`, units)}${within}`;
  return max === null
    ? `at least ${showLimit(`${min ?? 0} ${unit}`, 'minimum', units)}`
    : `at most ${showLimit(`${max} ${unit}`, 'maximum', units)}`;
}

function LimitRows({
  limits,
  thread,
  units,
}: {
  limits: ReturnType<typeof threadFacts>['limits'];
  thread: Thread;
  units: UnitsShown;
}) {
  const { caption, heads, rows } = limitsTable(limits, thread, units);
  return (
    <div className="bw-task-scroll" tabIndex={0} role="group" aria-label={`${caption}, scrolls sideways where narrow`}>
      <table className="bw-task-table">
        <caption className="bw-hidden">{caption}</caption>
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, index) => (
            <tr key={index}>
              {row.map((cell, column) => (
                <td key={column}>
                  {typeof cell === 'string' ? cell : <SourceLink source={{ ...cell.source, text: cell.text }} />}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface TableProps {
  thread: Thread;
  caption: string;
  heads: readonly string[];
  rows: readonly { key: string; table: string; cells: readonly string[] }[];
}

function rowAddress(key: string, thread: Thread): string {
  const row = rowNameOfThread(tableByKey(key), thread);
  return placeAddress({ at: 'handbook', table: key, ...(row === undefined ? {} : { row }) });
}

function Table({ caption, heads, rows, thread }: TableProps) {
  return (
    <div className="bw-task-scroll" tabIndex={0} role="group" aria-label={`${caption}, scrolls sideways where narrow`}>
      <table className="bw-task-table">
        <caption className="bw-hidden">{caption}</caption>
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, table, cells }) => (
            <tr key={key}>
              {cells.map((cell, column) => (
                <td key={column}>{column === 0 ? <a href={rowAddress(table, thread)}>{cell}</a> : cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
