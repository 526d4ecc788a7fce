import { useMemo, useRef, useState } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { useStore } from '../session/useStore.ts';
import { TableImport } from '../tableImport/TableImport.tsx';
import type { ImportedRows } from '../tableImport/TableImport.tsx';
import { cellsAsMapped, importAct } from './importAct.ts';

export interface CalloutImportProps {
  taskId: string;
  /** The list at hand; null where the task has none yet. */
  list: CalloutList | null;
  rows: readonly KeptCallout[];
  person: string;
  host: Host;
  /** Key of the list into which rows came; null where none did. */
  onClose: (list: string | null) => void;
}

/** A spreadsheet of callouts brought in: mapped, tried out, written as one act. */
export function CalloutImport({ taskId, list, rows, person, host, onClose }: CalloutImportProps) {
  const store = useStore();
  const [intoNew, setIntoNew] = useState(list === null);
  const written = useRef<string | null>(null);
  const kept = useMemo(
    () => (intoNew ? [] : rows.map(({ cells }) => ({ cells: cellsAsMapped(cells) }))),
    [intoNew, rows],
  );
  const write = async ({ rows: ready, columns, from }: ImportedRows): Promise<void> => {
    const isNewList = intoNew || list === null;
    const on: CalloutList = isNewList
      ? {
          ...{ id: store.newId(), rev: 0, task: taskId, name: from.file.slice(0, 200) || 'Callouts', columns, person },
          from: { ...from, file: from.file.slice(0, 400), at: isoWithOffset(new Date()) },
        }
      : list;
    await store.commit(
      importAct({ list: on, isNewList, kept: isNewList ? [] : rows, rows: ready, columns, newId: store.newId }),
    );
    written.current = on.id;
  };
  return (
    <div className="bw-pane-detail bw-callouts-whole">
      <div className="bw-callouts-line">
        <h1>Import callouts</h1>
        {list === null ? null : (
          <NativeSelect
            aria-label="Into which list"
            data={[
              { value: 'this', label: `Into “${list.name}”` },
              { value: 'new', label: 'Into a new list' },
            ]}
            value={intoNew ? 'new' : 'this'}
            onChange={({ currentTarget }) => setIntoNew(currentTarget.value === 'new')}
          />
        )}
        <Button onClick={() => onClose(written.current)}>Back to the callouts</Button>
      </div>
      <TableImport target="callouts" kept={kept} host={host} onWrite={write} onClose={() => onClose(written.current)} />
    </div>
  );
}
