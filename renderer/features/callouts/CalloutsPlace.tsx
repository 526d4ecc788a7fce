import { useEffect, useMemo, useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { Place } from '../../store/place.ts';
import type { TaskAtHand } from '../../store/session.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { useTable } from '../session/useStore.ts';
import { Unread } from '../task/SheetState.tsx';
import { CalloutsSheet } from './CalloutsSheet.tsx';
import { fileDesk, fileTable } from './desks.ts';
import { FileSheet } from './FileSheet.tsx';
import { listsOfTask, rowsByList } from '../judged/listRows.ts';
import '../steps/steps.css';
import '../judged/judged.css';

export interface CalloutsPlaceProps {
  place: Extract<Place, { at: 'callouts' }>;
  atHand: TaskAtHand;
  host: Host;
  units: UnitsShown;
  person: string;
}

/** A drawing's callouts: lists that are kept with the task, or a file that is judged without being kept. */
export function CalloutsPlace({ place, atHand, host, units, person }: CalloutsPlaceProps) {
  const lists = useTable('calloutLists');
  const callouts = useTable('callouts');
  const [file, setFile] = useState<string | null>(null);
  const own = useMemo(() => listsOfTask(lists.rows, atHand.id), [lists.rows, atHand.id]);
  const list = own.find(({ id }) => id === place.list) ?? own[0] ?? null;
  const rows = useMemo(
    () => (list === null ? [] : (rowsByList(callouts.rows, new Set([list.id])).get(list.id) ?? [])),
    [callouts.rows, list],
  );
  useEffect(() => {
    if (file !== null && fileDesk().state(fileTable) === null) setFile(null);
  }, [file]);

  const fault = lists.fault ?? callouts.fault;
  if (fault !== null) return <Unread what="callouts" reason={fault} />;
  if (!lists.ready || !callouts.ready)
    return (
      <p className="bw-pane-detail" role="status">
        Reading the callouts…
      </p>
    );
  const openFile = (name: string, bytes: Uint8Array<ArrayBuffer>): void => {
    fileDesk().cancel();
    fileDesk().judgeFile(fileTable, name, bytes, null);
    setFile(name);
  };
  const closeFile = (): void => {
    fileDesk().cancel();
    fileDesk().forget(fileTable);
    setFile(null);
  };
  if (file !== null)
    return (
      <FileSheet
        name={file}
        taskId={atHand.id}
        lists={own}
        host={host}
        units={units}
        person={person}
        onOpenFile={openFile}
        onClose={closeFile}
      />
    );
  return (
    <CalloutsSheet
      atHand={atHand}
      lists={own}
      list={list}
      rows={rows}
      callout={place.callout ?? null}
      host={host}
      units={units}
      person={person}
      onOpenFile={openFile}
    />
  );
}
