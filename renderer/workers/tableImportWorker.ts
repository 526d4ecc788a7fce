/// <reference lib="webworker" />
import { RefusedError } from '../engine/errors.ts';
import { cellText } from '../engine/sheet/cellText.ts';
import { csvGrid, pastedGrid } from '../engine/sheet/csvGrid.ts';
import { delimiterNames } from '../engine/sheet/delimiter.ts';
import type { Grid } from '../engine/sheet/grid.ts';
import { openWorkbook, type Workbook } from '../engine/sheet/xlsx/index.ts';
import {
  DryRun,
  guessMapping,
  importTargets,
  unitsSeen,
  type ImportTarget,
  type KeptRow,
} from '../engine/tableImport/index.ts';
import type {
  RunAsked,
  TableChoice,
  TableImportAsked,
  TableImportTold,
  TableOrigin,
  TableShown,
} from './tableImportMessages.ts';

/** Rows between two words to the page. */
const pieceRows = 500;
const firstRows = 12;

/** Of the file at hand; null where it is none. */
let workbook: Workbook | null = null;
let open: { grid: Grid; target: ImportTarget } | null = null;
/** What the table is held against in the next run. */
let kept: KeptRow[] = [];

function send(message: TableImportTold): void {
  self.postMessage(message);
}

/** A workbook is a packed file, whatever its ending says; everything else is read as text. */
function isWorkbook({ name, bytes }: { name: string; bytes: Uint8Array }): boolean {
  const packed = bytes[0] === 0x50 && bytes[1] === 0x4b;
  const old = bytes[0] === 0xd0 && bytes[1] === 0xcf;
  return packed || old || /\.xls[xmb]?$/i.test(name);
}

function gridOf(origin: TableOrigin, choice: TableChoice, known: string[]): { grid: Grid; notes: string[] } {
  if (origin.kind === 'paste')
    return { grid: pastedGrid({ text: origin.text, hasHeader: choice.hasHeader, known }), notes: [] };
  if (!isWorkbook(origin)) return { grid: csvGrid({ content: origin.bytes, file: origin.name, known }), notes: [] };
  workbook = openWorkbook(origin.bytes, origin.name);
  return { grid: workbook.read(choice.sheet, choice.headerRow), notes: workbook.notes };
}

function sheetsShown(): TableShown['sheets'] {
  return (workbook?.sheets ?? []).map(({ name, state }) => ({ name, state }));
}

function openTable({ target: name, origin, choice }: Extract<TableImportAsked, { kind: 'open' }>): void {
  const target = importTargets[name];
  open = null;
  workbook = null;
  const { grid, notes } = gridOf(
    origin,
    choice,
    target.columns.map((column) => column.name),
  );
  open = { grid, target };
  const { mapping, doubts } = guessMapping(grid.names, target);
  const quantities = mapping.flatMap(({ column }, at) => {
    const kind = target.columns.find((one) => one.name === column)?.unitKind;
    return kind === undefined ? [] : [[at, unitsSeen(grid, at, kind)] as [number, ReturnType<typeof unitsSeen>]];
  });
  send({
    kind: 'shown',
    shown: {
      sheets: sheetsShown(),
      names: grid.names,
      headerRow: grid.headerRow,
      rows: grid.records.length + grid.ragged.length,
      first: grid.records.slice(0, firstRows).map(({ row, cells }) => ({
        row,
        cells: grid.names.map((_, at) => cellText(cells[at] ?? '').text),
      })),
      units: quantities,
      guess: { mapping, doubts: [...doubts] },
      read: {
        encoding: grid.encoding,
        delimiter: grid.source === 'csv' ? delimiterNames[grid.delimiter] : null,
        sheet: grid.sheet,
      },
      notes: [...notes, ...grid.notes],
    },
  });
}

function run({ mapping, context }: Omit<RunAsked, 'kept'>): void {
  if (open === null) return;
  const dryRun = new DryRun({ ...open, mapping, context, kept });
  for (let done = 0; done < dryRun.count;) {
    const { ready, refusals } = dryRun.next(pieceRows);
    const progress = dryRun.progress;
    done = progress.done;
    send({ kind: 'found', ready, refusals });
    send({ kind: 'progress', ...progress, count: dryRun.count });
  }
  send({ kind: 'found', ready: [], refusals: dryRun.next(0).refusals });
  send({ kind: 'done', columns: dryRun.columns, counts: dryRun.progress.counts });
}

self.addEventListener('message', ({ data }: MessageEvent<TableImportAsked>) => {
  try {
    if (data.kind === 'open') openTable(data);
    else if (data.kind === 'kept') {
      if (data.isFirst) kept = [];
      for (const row of data.rows) kept.push(row);
    } else run(data.asked);
  } catch (error) {
    const refusal =
      error instanceof RefusedError ? error.refusal : { code: 'internal' as const, message: String(error) };
    send({ kind: 'refused', refusal, sheets: sheetsShown() });
  }
});
