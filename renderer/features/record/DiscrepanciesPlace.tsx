import { Suspense, lazy, useState } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import type { Discrepancy, Doer } from '../../../shared-types/records/revision.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { Switch } from '../../components/Switch/Switch.tsx';
import { amountText } from '../../engine/return/index.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import { spoken } from '../manifest/pageFurniture.ts';
import { tableFile, tableForms } from '../report/tableFile.ts';
import type { TableForm } from '../report/tableFile.ts';
import { goTo } from '../session/usePlace.ts';
import { useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { CloseDiscrepancy } from './CloseDiscrepancy.tsx';
import { discrepancyNames, discrepancyTable, howWords } from './recordTables.ts';
import { frozenRead } from './useFrozenRead.ts';
import { useDoer } from '../revisions/useDoer.tsx';
import './record.css';

const DiscrepancyReport = lazy(async () => ({
  default: (await import('./DiscrepancyReport.tsx')).DiscrepancyReport,
}));

export interface DiscrepanciesPlaceProps {
  place: Extract<Place, { at: 'discrepancies' }>;
  /** Key of the task at hand; null where none is: all are shown then. */
  task: string | null;
  host: Host;
  now: () => Date;
}

const scopes = [
  { value: 'task', label: 'Of this task' },
  { value: 'all', label: 'Of every task' },
] as const;

/** What went out and was not accounted for. Nothing here closes by itself. */
export function DiscrepanciesPlace({ place, task, host, now }: DiscrepanciesPlaceProps) {
  const discrepancies = useTable('discrepancies');
  const revisions = useTable('revisions');
  const tasks = useTable('tasks');
  const { withDoer, dialog } = useDoer();
  const [closing, setClosing] = useState<{ one: Discrepancy; by: Doer } | null>(null);
  const [form, setForm] = useState<TableForm>('csv');
  const [said, setSaid] = useState('');
  const fault = [discrepancies, revisions, tasks].find((table) => table.fault !== null)?.fault ?? null;
  if (fault !== null) return <p className="bw-pane-detail">The discrepancies could not be read: {fault}</p>;
  if (![discrepancies, revisions, tasks].every(({ ready }) => ready))
    return (
      <p className="bw-pane-detail" role="status">
        Reading the discrepancies…
      </p>
    );
  const scope = task === null || place.of === 'all' ? 'all' : 'task';
  const shown = [...discrepancies.rows.values()]
    .filter((one) => scope === 'all' || one.task === task)
    .toSorted((a, b) => Number(a.closed !== undefined) - Number(b.closed !== undefined) || a.number - b.number);
  const open = shown.filter(({ closed }) => closed === undefined).length;
  const taskOf = (one: Discrepancy): string => tasks.rows.get(one.task)?.code ?? 'gone';
  const numberOf = (one: Discrepancy): number | null => revisions.rows.get(one.revision)?.number ?? null;
  const calledOf = (one: Discrepancy) => {
    const revision = revisions.rows.get(one.revision);
    if (revision === undefined) return null;
    const read = frozenRead(revision);
    return { content: revision.content, plan: read.kind === 'read' ? read.frozen.plan : null };
  };
  const partsOf = (one: Discrepancy): number =>
    revisions.rows.get(one.revision)?.content.things.find(({ id }) => id === one.item)?.parts ?? 1;
  if (place.discrepancy === 'report')
    return (
      <Suspense fallback={<p className="bw-pane-detail">Opening the report…</p>}>
        <DiscrepancyReport
          {...{ discrepancies: shown, scope, host, now, partsOf, taskOf, numberOf }}
          task={task === null ? null : (tasks.rows.get(task) ?? null)}
          namesOf={(one) => discrepancyNames(one, calledOf(one))}
        />
      </Suspense>
    );
  const save = async (): Promise<void> => {
    const table = discrepancyTable(shown, { taskOf, revisionOf: numberOf });
    const file = tableFile({
      name: `discrepancies_${scope === 'all' ? 'all' : taskOf(shown[0] ?? ({ task } as Discrepancy))}`,
      form,
      ...table,
    });
    setSaid((await host.saveFile(file)) ? `Saved as ${file.name}.` : 'Not saved.');
  };
  return (
    <div className="bw-pane-detail bw-record">
      <div className="bw-record-bar">
        <h1>Discrepancies</h1>
        {task === null ? null : (
          <Switch
            label="Whose discrepancies"
            value={scope}
            choices={scopes}
            onChange={(of) => goTo({ at: 'discrepancies', of }, 'replace')}
          />
        )}
        <NativeSelect
          aria-label="Form of the file"
          value={form}
          data={[...tableForms]}
          onChange={({ currentTarget }) =>
            setForm(tableForms.find(({ value }) => value === currentTarget.value)?.value ?? 'csv')
          }
        />
        <Button
          disabled={shown.length === 0}
          onClick={() =>
            void save().catch((error: unknown) => setSaid(error instanceof Error ? error.message : String(error)))
          }
        >
          Save discrepancies…
        </Button>
        <a href={placeAddress({ at: 'discrepancies', of: scope, discrepancy: 'report' })}>Report as it is printed</a>
        <p role="status">{said}</p>
      </div>
      <p>
        {shown.length === 0
          ? 'None. Whatever is open when a return is closed gets a discrepancy of its own, and stays one until a named person closes it.'
          : `${countOf(open, 'is', 'are')} open of ${shown.length}. A discrepancy is closed by a named person alone, with how and in words; counting a piece in closes none.`}
      </p>
      {shown.length === 0 ? null : (
        <div className="bw-task-scroll" role="region" aria-label="Discrepancies" tabIndex={0}>
          <table className="bw-task-table bw-record-open">
            <thead>
              <tr>
                <th scope="col">No</th>
                <th scope="col">State</th>
                <th scope="col">What</th>
                <th scope="col">How much</th>
                <th scope="col">Out with</th>
                <th scope="col">Seen last</th>
                <th scope="col">Opened</th>
                <th scope="col">Closed</th>
              </tr>
            </thead>
            <tbody>
              {shown.map((one) => {
                const { id, number, opened, lastSeen, words, closed } = one;
                const names = discrepancyNames(one, calledOf(one));
                return (
                  <tr key={id} aria-current={id === place.discrepancy || undefined}>
                    <th scope="row">
                      D-{number}
                      {scope === 'all' ? <div className="bw-code bw-second">{taskOf(one)}</div> : null}
                    </th>
                    <td>
                      <StateMark
                        state={closed === undefined ? 'missing' : 'back'}
                        text={closed === undefined ? 'Open' : 'Closed'}
                      />
                    </td>
                    <td dir="auto">{names.thing}</td>
                    <td>{amountText(one, partsOf(one))}</td>
                    <td dir="auto">
                      {names.outing}, {names.bag}
                      <div className="bw-second">revision {numberOf(one) ?? 'gone'}</div>
                    </td>
                    <td dir="auto">
                      {lastSeen.place}
                      <div className="bw-second">
                        {lastSeen.at === undefined ? '' : spoken(lastSeen.at)}
                        {lastSeen.event === undefined ? '' : `, event ${lastSeen.event}`}
                      </div>
                    </td>
                    <td>
                      {spoken(opened.at)}
                      <div className="bw-second">
                        <bdi>{opened.by.name}</bdi>, <bdi>{opened.by.role}</bdi>
                        {words === undefined ? '' : `: ${words}`}
                      </div>
                    </td>
                    <td>
                      {closed === undefined ? (
                        <Button size="xs" onClick={() => withDoer((by) => setClosing({ one, by }))}>
                          Close D-{number}…
                        </Button>
                      ) : (
                        <>
                          {howWords[closed.how]}, {spoken(closed.at)}
                          <div className="bw-second bw-disc-words">
                            <bdi>{closed.by.name}</bdi>, <bdi>{closed.by.role}</bdi>: {closed.words}
                          </div>
                        </>
                      )}
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
      {closing === null ? null : (
        <CloseDiscrepancy
          {...{ ...closing, now, partsOfOne: partsOf(closing.one) }}
          revision={revisions.rows.get(closing.one.revision) ?? null}
          onClose={() => setClosing(null)}
        />
      )}
      {dialog}
    </div>
  );
}
