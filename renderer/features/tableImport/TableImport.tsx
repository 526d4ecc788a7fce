import { Button } from '@mantine/core';
import { useEffect, useRef, useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { KeptRow, ReadyRow, TargetContext, TargetName } from '../../engine/tableImport/index.ts';
import { StoppedError } from '../../store/store.ts';
import type { KeepingProgress, Watched } from '../../store/store.ts';
import type { RunResult, TableOrigin, TableShown } from '../../workers/tableImport.ts';
import { FirstRows } from './FirstRows.tsx';
import { MappingTable } from './MappingTable.tsx';
import { RunPanel } from './RunPanel.tsx';
import { SourceChoice, SourceFields } from './SourceFields.tsx';
import { useTableImport } from './useTableImport.ts';
import { writesText, writtenText } from './writesText.ts';
import './tableImport.css';

/** Rows as they are to be kept. */
export interface ImportedRows {
  /** Added and changed ones; what is kept already and the same is none of them. */
  rows: ReadyRow[];
  /** The names cells stand under, in the file's order. */
  columns: string[];
  from: { file: string; sheet?: string };
  /** Rows left out because they cannot be read: a person said so. */
  leftOut: number;
}

export interface TableImportProps {
  target: TargetName;
  /** What the target needs to judge a row. */
  context?: TargetContext | undefined;
  /** What is kept already, to be held against the table. */
  kept: readonly KeptRow[];
  host: Host;
  /** Writes them in one act. What it throws is shown, and nothing counts as written. */
  onWrite: (imported: ImportedRows, watched: Watched) => Promise<void>;
  onClose: () => void;
  /** A file or rows that came with the question. */
  first?: TableOrigin | undefined;
}

const noContext: TargetContext = { callouts: [] };

/** A table somebody else made, on its way in: chosen, mapped, tried out whole, then written by one button. */
export function TableImport(props: TableImportProps) {
  const { target, context = noContext, kept, host, onWrite, onClose, first = null } = props;
  const state = useTableImport({ target, context, kept, first });
  const { table, origin } = state;
  const [writing, setWriting] = useState<KeepingProgress | null>(null);
  const stopping = useRef<AbortController | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const [written, setWritten] = useState<string | null>(null);
  const fileName = origin === null ? '' : origin.kind === 'file' ? origin.name : 'pasted rows';

  const write = (result: RunResult): void => {
    const sheet = table.kind === 'shown' ? table.shown.read.sheet : null;
    const rows = result.ready.filter(({ outcome }) => outcome !== 'same');
    const from = { file: fileName, ...(sheet === null ? {} : { sheet }) };
    const stop = new AbortController();
    stopping.current = stop;
    setWriting({ share: 0, canStop: true });
    setRefused(null);
    onWrite(
      { rows, columns: result.columns, from, leftOut: result.counts.bad },
      { signal: stop.signal, onProgress: setWriting },
    )
      .then(
        () => setWritten(writtenText(writesText(result.counts, state.target.words) ?? '')),
        (error: unknown) =>
          setRefused(
            error instanceof StoppedError ? 'Stopped.' : error instanceof Error ? error.message : String(error),
          ),
      )
      .finally(() => setWriting(null));
  };

  if (written !== null) return <Written text={written} onClose={onClose} />;
  return (
    <div className="bw-table-import">
      {origin === null ? (
        <SourceFields state={state} />
      ) : (
        <div className="bw-table-source">
          <div>
            <b>{fileName}</b>
            {table.kind === 'shown' ? <span className="bw-second"> {readText(table.shown)}</span> : null}
          </div>
          <SourceChoice state={state} />
          <Button onClick={state.leave}>Another table…</Button>
        </div>
      )}
      {table.kind === 'opening' ? <p role="status">Reading the table…</p> : null}
      {table.kind === 'refused' ? (
        <div role="alert" className="bw-table-refused">
          <p>
            <b>The table is not read.</b> {table.refusal.message}
            {table.refusal.row === undefined ? '' : ` (row ${table.refusal.row})`}
          </p>
          <p className="bw-second">Nothing of it was written. Mend it and choose it again.</p>
        </div>
      ) : null}
      {table.kind === 'shown' ? (
        <>
          {table.shown.notes.map((note) => (
            <p key={note} className="bw-table-note">
              {note}
            </p>
          ))}
          <MappingTable state={state} shown={table.shown} />
          <FirstRows shown={table.shown} mapping={state.mapping} />
          <RunPanel
            state={state}
            fileName={fileName}
            host={host}
            refused={refused}
            writing={writing}
            onWrite={write}
            onStopWriting={() => stopping.current?.abort()}
          />
        </>
      ) : null}
    </div>
  );
}

function readText({ rows, read }: TableShown): string {
  const parts = [
    `${rows} ${rows === 1 ? 'row' : 'rows'}`,
    ...(read.sheet === null ? [] : [`sheet “${read.sheet}”`]),
    ...(read.encoding === null ? [] : [read.encoding]),
    ...(read.delimiter === null ? [] : [`parted by ${read.delimiter}`]),
  ];
  return parts.join(', ');
}

function Written({ text, onClose }: { text: string; onClose: () => void }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <div className="bw-table-import">
      <h3 ref={heading} tabIndex={-1} className="bw-heading">
        {text}
      </h3>
      <p className="bw-second">Undo takes all of it back in one go.</p>
      <Button variant="filled" onClick={onClose}>
        Close
      </Button>
    </div>
  );
}
