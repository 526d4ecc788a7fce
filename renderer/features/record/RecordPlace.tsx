import { useState } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { safeFileName } from '../../../shared-types/fileName.ts';
import { recordBytesMax, recordFileText } from '../../engine/record/recordFile.ts';
import { shortHash } from '../../engine/record/shortHash.ts';
import { placeAddress } from '../../store/place.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { sha256 } from '../../store/sha256.ts';
import { spoken } from '../manifest/pageFurniture.ts';
import { tableFile, tableForms } from '../report/tableFile.ts';
import type { TableForm } from '../report/tableFile.ts';
import { goTo } from '../session/usePlace.ts';
import { countOf } from '../steps/words.ts';
import { BringRecordIn } from './BringRecordIn.tsx';
import type { Called } from './deedWords.ts';
import { EventTable } from './EventTable.tsx';
import { discrepancyTable, eventTable, lineTable } from './recordTables.ts';
import { frozenRead } from './useFrozenRead.ts';
import { useTaskRecord } from './useTaskRecord.ts';
import type { TaskRecord } from './useTaskRecord.ts';
import { VerifyRecord } from './VerifyRecord.tsx';
import './record.css';

export interface RecordPlaceProps {
  place: Extract<Place, { at: 'record' }>;
  atHand: TaskAtHand;
  host: Host;
  now: () => Date;
}

/** Everything that was done with a frozen manifest, in order: verified, saved, handed to another copy. */
export function RecordPlace({ place, atHand, host, now }: RecordPlaceProps) {
  const record = useTaskRecord(atHand.id);
  const [bringing, setBringing] = useState(false);
  if (record.fault !== null) return <p className="bw-pane-detail">The record could not be read: {record.fault}</p>;
  if (!record.ready)
    return (
      <p className="bw-pane-detail" role="status">
        Reading the record…
      </p>
    );
  const revision = record.revisions.find(({ number }) => String(number) === place.number) ?? record.revisions.at(-1);
  return (
    <div className="bw-pane-detail bw-record">
      <div className="bw-record-bar">
        <h1>Record</h1>
        {revision === undefined ? null : (
          <NativeSelect
            label="Manifest"
            value={String(revision.number)}
            data={record.revisions.toReversed().map(({ number, at }) => ({
              value: String(number),
              label: `Revision ${number}, ${spoken(at)}`,
            }))}
            onChange={({ currentTarget }) => goTo({ at: 'record', number: currentTarget.value }, 'replace')}
          />
        )}
        <Button onClick={() => setBringing(true)}>Bring a manifest with its record in…</Button>
        <a href={placeAddress({ at: 'discrepancies' })}>Discrepancies: {openText(record)}</a>
      </div>
      {revision === undefined ? (
        <p>
          Nothing of this task is frozen yet. What is done with a manifest is recorded from its freezing on:{' '}
          <a href={placeAddress({ at: 'revisions' })}>Frozen manifests</a>.
        </p>
      ) : (
        <RevisionRecord key={revision.id} {...{ revision, record, atHand, host }} />
      )}
      {bringing ? <BringRecordIn host={host} now={now} onClose={() => setBringing(false)} /> : null}
    </div>
  );
}

function openText({ discrepancies }: TaskRecord): string {
  const open = discrepancies.filter(({ closed }) => closed === undefined).length;
  return discrepancies.length === 0 ? 'none' : `${open} open of ${discrepancies.length}`;
}

function RevisionRecord(props: { revision: Revision; record: TaskRecord; atHand: TaskAtHand; host: Host }) {
  const { revision, record, atHand, host } = props;
  const [form, setForm] = useState<TableForm>('csv');
  const [said, setSaid] = useState('');
  const read = frozenRead(revision);
  const called: Called = { content: revision.content, plan: read.kind === 'read' ? read.frozen.plan : null };
  const events = record.events.filter((event) => event.revision === revision.id);
  const discrepancies = record.discrepancies.filter((one) => one.revision === revision.id);
  const last = events.at(-1);
  const { code } = atHand.task;
  const attempt = (work: () => Promise<string>): void => {
    setSaid('Writing the file…');
    work().then(setSaid, (error: unknown) =>
      setSaid(`Not saved: ${error instanceof Error ? error.message : String(error)}`),
    );
  };
  const saveTable = async (what: string, table: ReturnType<typeof lineTable>): Promise<string> => {
    const file = tableFile({ name: `${what}_${code}_revision_${revision.number}`, form, ...table });
    return (await host.saveFile(file)) ? `Saved as ${file.name}.` : 'Not saved.';
  };
  const saveRecord = async (): Promise<string> => {
    const text = await recordFileText({ revision, events, discrepancies }, sha256);
    const bytes = new TextEncoder().encode(text);
    if (bytes.length > recordBytesMax)
      return `Not saved: the file would have ${bytes.length} bytes, and no more than ${recordBytesMax} are read.`;
    const name = safeFileName(`record_${code}_revision_${revision.number}.json`, 'record.json');
    return (await host.saveFile({ name, mediaType: 'application/json', bytes })) ? `Saved as ${name}.` : 'Not saved.';
  };
  const outings = [...new Set(events.map(({ outing }) => outing))];
  return (
    <>
      <dl className="bw-task-facts">
        <dt>Frozen</dt>
        <dd>
          {spoken(revision.at)} by <bdi>{revision.by.name}</bdi>, <bdi>{revision.by.role}</bdi>:{' '}
          <bdi>{revision.why}</bdi>
        </dd>
        <dt>Content</dt>
        <dd>
          <span className="bw-code">{shortHash(revision.hash)}</span> ·{' '}
          <a href={placeAddress({ at: 'revisions', number: String(revision.number) })}>Revision {revision.number}</a>
        </dd>
        <dt>Head of the record</dt>
        <dd>
          {last === undefined ? 'no event yet' : `event ${last.no}, `}
          {last === undefined ? null : <span className="bw-code">{shortHash(last.hash)}</span>}
        </dd>
        {revision.broughtIn === undefined ? null : (
          <>
            <dt>Brought in</dt>
            <dd>
              from <bdi>{revision.broughtIn.file}</bdi>, {spoken(revision.broughtIn.at)}, by{' '}
              <bdi>{revision.broughtIn.person}</bdi>
            </dd>
          </>
        )}
        {outings.length === 0 ? null : (
          <>
            <dt>Returns</dt>
            <dd>
              {outings.map((outing, index) => (
                <span key={outing}>
                  {index === 0 ? '' : ' · '}
                  <a href={placeAddress({ at: 'return', outing })}>
                    {called.plan?.outings.find(({ id }) => id === outing)?.name ?? outing}
                  </a>
                </span>
              ))}
            </dd>
          </>
        )}
      </dl>
      <VerifyRecord revision={revision} events={events} />
      <div className="bw-record-bar">
        <Button onClick={() => attempt(saveRecord)}>Save manifest with its record…</Button>
        <NativeSelect
          aria-label="Form of the tables"
          value={form}
          data={[...tableForms]}
          onChange={({ currentTarget }) =>
            setForm(tableForms.find(({ value }) => value === currentTarget.value)?.value ?? 'csv')
          }
        />
        <Button onClick={() => attempt(() => saveTable('lines', lineTable(revision.content)))}>Save lines…</Button>
        <Button onClick={() => attempt(() => saveTable('events', eventTable(events, called)))}>Save events…</Button>
        <Button
          onClick={() =>
            attempt(() =>
              saveTable(
                'discrepancies',
                discrepancyTable(discrepancies, { taskOf: () => code, revisionOf: () => revision.number }),
              ),
            )
          }
        >
          Save discrepancies…
        </Button>
        <p role="status">{said}</p>
      </div>
      <h2>{countOf(events.length, 'event')}</h2>
      <EventTable events={events} called={called} />
    </>
  );
}
