import { useMemo, useState } from 'react';
import type { Ref } from 'react';
import { Button, TextInput } from '@mantine/core';
import type { KnownTool } from '../../../shared-types/inspection.ts';
import type { AsRunList, KeptAsRun } from '../../../shared-types/records/judgedLists.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { cellNamed, sameSerial } from '../../engine/inspection/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { placeAddress } from '../../store/place.ts';
import { oneUnit } from '../callouts/torqueWords.ts';
import { countOf } from '../steps/words.ts';
import { FoundOutDialog } from './FoundOutDialog.tsx';
import type { FoundOut } from './recordActs.ts';
import { recordName } from './recordActs.ts';
import { typedTorque } from './recordWords.ts';
import { tracedRows } from './tracedRows.ts';
import type { TracedRow } from './tracedRows.ts';

export interface ToolPaneProps {
  /** As typed; empty where none is chosen yet. */
  serial: string;
  onSerial: (serial: string) => void;
  lists: readonly AsRunList[];
  rows: ReadonlyMap<string, KeptAsRun>;
  tools: readonly KnownTool[];
  /** Codes of the tasks, by their keys. */
  tasks: ReadonlyMap<string, string>;
  task: string;
  units: UnitsShown;
  person: string;
  today: string;
  headingRef: Ref<HTMLHeadingElement>;
  onFound: (found: Omit<FoundOut, 'at'>) => void;
  onWithdraw: (serial: string) => void;
  onClose: () => void;
}

const shownMost = 400;

/** Every value that a tool gave, over all lists of all tasks; and the tool found out of calibration. */
export function ToolPane(props: ToolPaneProps) {
  const { serial, onSerial, lists, rows, tools, tasks, task, units, person, today, headingRef } = props;
  const { onFound, onWithdraw, onClose } = props;
  const [asks, setAsks] = useState(false);
  const tool = tools.find((one) => sameSerial(one.serial, serial));
  const traced = useMemo(() => tracedRows(serial, { lists, rows, tools }), [serial, lists, rows, tools]);
  const serials = useMemo(
    () =>
      [
        ...new Set([
          ...tools.map((one) => one.serial),
          ...Array.from(rows.values(), ({ cells }) => cellNamed(cells, 'serial')).filter((one) => one !== ''),
        ]),
      ].toSorted(),
    [tools, rows],
  );
  const said = lists.flatMap(({ foundOut = [] }) => foundOut).filter((one) => sameSerial(one.serial, serial));
  const told = [...new Map(said.map((one) => [one.at + one.foundOut, one])).values()];
  const open = traced.filter(({ state }) => state === 're-opened').length;
  return (
    <article className="bw-callout" aria-labelledby="tool-heading">
      <header className="bw-callout-head">
        <h1 id="tool-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          {serial.trim() === '' ? 'Values of a tool' : `Tool ${serial}`}
        </h1>
        <span className="bw-callout-deeds">
          <Button size="xs" onClick={onClose}>
            Back to the record
          </Button>
        </span>
      </header>
      <div className="bw-asrun-serial">
        <TextInput
          label="Serial"
          description="Typed, or chosen among those known"
          autoComplete="off"
          list="bw-known-serials"
          value={serial}
          onChange={({ currentTarget }) => onSerial(currentTarget.value)}
        />
        <datalist id="bw-known-serials">
          {serials.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </datalist>
        {traced.length === 0 ? null : (
          <Button onClick={() => setAsks(true)}>
            {told.length === 0 ? 'Found out of calibration…' : 'Found out again…'}
          </Button>
        )}
        {told.length === 0 ? null : <Button onClick={() => onWithdraw(serial)}>Withdraw</Button>}
      </div>
      {tool?.calibrationDue === undefined ? null : (
        <p className="bw-second">Its calibration holds until {tool.calibrationDue}, by the catalog.</p>
      )}
      {told.map((one) => (
        <p key={one.at + one.foundOut} className="bw-finding-accepted">
          <b>Found out of calibration {one.foundOut}</b>,{' '}
          {one.lastGood === undefined ? 'last known to be right on no day' : `last known to be right ${one.lastGood}`}
          {one.reason === undefined ? '' : `: ${one.reason}`} <span className="bw-second">{one.person}</span>
        </p>
      ))}
      {serial.trim() === '' ? (
        <p className="bw-second">Type the serial of a tool to see every value that it set or read.</p>
      ) : traced.length === 0 ? (
        <p className="bw-second">No record of any task names serial {serial}.</p>
      ) : (
        <>
          <p role="status">
            {countOf(traced.length, 'value')} in {countOf(new Set(traced.map(({ list }) => list.id)).size, 'list')}
            {open === 0 ? '.' : `, ${open} re-opened.`}
          </p>
          <TracedTable traced={traced.slice(0, shownMost)} tasks={tasks} task={task} units={units} serial={serial} />
          {traced.length <= shownMost ? null : (
            <p className="bw-second">
              The first {shownMost} of {traced.length} are shown; all of them are re-opened where the tool is found out.
            </p>
          )}
        </>
      )}
      {asks ? (
        <FoundOutDialog
          serial={serial.trim()}
          person={person}
          today={today}
          values={traced.length}
          onFound={(found) => {
            setAsks(false);
            // Until when it held then: a later day in the catalog says that it was calibrated since.
            onFound({ ...found, ...(tool?.calibrationDue === undefined ? {} : { due: tool.calibrationDue }) });
          }}
          onClose={() => setAsks(false)}
        />
      ) : null}
    </article>
  );
}

const stateTexts: Record<TracedRow['state'], string> = {
  'not-found-out': '–',
  kept: 'Before its last good day',
  're-opened': 'Re-opened',
  accepted: 'Re-opened, accepted',
};

function TracedTable(props: {
  traced: readonly TracedRow[];
  tasks: ReadonlyMap<string, string>;
  task: string;
  units: UnitsShown;
  serial: string;
}) {
  const { traced, tasks, task, units, serial } = props;
  return (
    <div className="bw-asrun-traced" tabIndex={0} role="group" aria-label={`Values of tool ${serial}`}>
      <table>
        <thead>
          <tr>
            <th scope="col">Record</th>
            <th scope="col">State</th>
            <th scope="col" className="bw-num">
              Final torque
            </th>
            <th scope="col">Method</th>
            <th scope="col">Time</th>
            <th scope="col">List</th>
            <th scope="col">Task</th>
          </tr>
        </thead>
        <tbody>
          {traced.map(({ row, list, state }) => (
            <tr key={row.id}>
              <td>
                {list.task === task ? (
                  <a href={placeAddress({ at: 'asrun', list: list.id, record: row.id })}>{recordName(row.cells)}</a>
                ) : (
                  recordName(row.cells)
                )}
              </td>
              <td>
                {state === 're-opened' ? <StateMark state="indeterminate" text="Re-opened" /> : stateTexts[state]}
              </td>
              <td className="bw-num">{typedTorque(cellNamed(row.cells, 'final'), oneUnit(units))}</td>
              <td>{cellNamed(row.cells, 'method')}</td>
              <td>{cellNamed(row.cells, 'time')}</td>
              <td>{list.name}</td>
              <td>{tasks.get(list.task) ?? ''}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
