import { useEffect, useMemo, useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { fileTable } from '../callouts/desks.ts';
import { listsOfTask, rowsByList } from '../judged/listRows.ts';
import { useKnownPlaces } from '../judged/useKnownPlaces.ts';
import { useTable } from '../session/useStore.ts';
import { Unread } from '../task/SheetState.tsx';
import { AsRunSheet } from './AsRunSheet.tsx';
import { fileRecordDesk } from './recordDesks.ts';
import { besideOf, calloutsFor, useKnownTools } from './useBeside.ts';
import '../steps/steps.css';
import '../judged/judged.css';
import './asrun.css';

export interface AsRunPlaceProps {
  place: Extract<Place, { at: 'asrun' }>;
  atHand: TaskAtHand;
  host: Host;
  units: UnitsShown;
  person: string;
  today: string;
}

/** What was recorded at the work site: lists that are kept with the task, or a file that is judged without being kept. */
export function AsRunPlace({ place, atHand, host, units, person, today }: AsRunPlaceProps) {
  const lists = useTable('asRunLists');
  const records = useTable('asRuns');
  const calloutLists = useTable('calloutLists');
  const callouts = useTable('callouts');
  const tools = useKnownTools();
  const [file, setFile] = useState<string | null>(null);
  const own = useMemo(() => listsOfTask(lists.rows, atHand.id), [lists.rows, atHand.id]);
  const list = own.find(({ id }) => id === place.list) ?? own[0] ?? null;
  const rows = useMemo(
    () => (list === null ? [] : (rowsByList(records.rows, new Set([list.id])).get(list.id) ?? [])),
    [records.rows, list],
  );
  const ofTask = useMemo(() => listsOfTask(calloutLists.rows, atHand.id), [calloutLists.rows, atHand.id]);
  const against = calloutsFor(list, ofTask);
  const known = useKnownPlaces(atHand.id);
  const beside = useMemo(
    () => (known === null ? null : besideOf(against, callouts.rows, { tools, known })),
    [against, callouts.rows, tools, known],
  );
  useEffect(() => {
    if (file !== null && fileRecordDesk().state(fileTable) === null) setFile(null);
  }, [file]);

  const tables = [lists, records, calloutLists, callouts];
  const fault = tables.find((table) => table.fault !== null)?.fault ?? null;
  if (fault !== null) return <Unread what="records" reason={fault} />;
  if (beside === null || tables.some((table) => !table.ready))
    return (
      <p className="bw-pane-detail" role="status">
        Reading the records…
      </p>
    );
  const closeFile = (): void => {
    fileRecordDesk().cancel();
    fileRecordDesk().forget(fileTable);
    setFile(null);
  };
  return (
    <AsRunSheet
      key={file ?? 'kept'}
      atHand={atHand}
      lists={own}
      list={list}
      rows={rows}
      record={place.record ?? null}
      calloutLists={ofTask}
      against={against}
      beside={beside}
      tools={tools}
      host={host}
      units={units}
      person={person}
      today={today}
      file={file}
      onOpenFile={(name, bytes) => {
        fileRecordDesk().cancel();
        fileRecordDesk().judgeFile(fileTable, name, bytes, beside);
        setFile(name);
      }}
      onCloseFile={closeFile}
    />
  );
}
