import type { AsRunResult, AsRunRow } from '../../../shared-types/asRun.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type {
  AsRunBeside,
  AsRunLine,
  AsRunLook,
  AsRunTableJudged,
  JudgedTyped,
  KnownTool,
  LineView,
  TypedRow,
} from '../../../shared-types/inspection.ts';
import { judgedOf } from '../asrun/judgeAsRun.ts';
import { readAsRun } from '../asrun/readAsRun.ts';
import { sequenceFrom, sequenceOf } from '../asrun/sequence.ts';
import { readTools } from '../asrun/tools.ts';
import { readCallouts } from '../callout/index.ts';
import { cellNamed } from './cellNamed.ts';
import { emptyRow, grouped, type TableSource } from './judgeTable.ts';
import { typedCell } from './typedCell.ts';
import { keptTable } from './keptTable.ts';
import { orderOfRecords } from './orderOf.ts';
import { recordLine } from './recordLine.ts';
import { tallyOf } from './tally.ts';

interface Row {
  typed: TypedRow;
  place: number;
  line: number;
}

type ReadRecords = ReturnType<typeof readAsRun>;

/** So many refusals are told at once; the rest is counted by the rows. */
const refusalsMost = 2000;
const toolColumns = ['serial', 'calibrationDue', 'lastGood', 'foundOut'] as const;
/** What a list of callouts without any column still is. */
const leastColumns = ['id', 'thread', 'torqueMin', 'torqueMax'];

/**
 * What was recorded, read and judged as a whole, for series, order and tools go across its rows; its lines are given piece by piece. A row
 * that cannot be read is passed over and told, and the others are judged without it.
 */
export class JudgedRecords {
  private readonly rows: Row[];
  private readonly columns: string[];
  private readonly read: ReadRecords;
  private readonly result: AsRunResult;
  private readonly judgedBy: Map<number, AsRunRow>;
  private readonly refused: Map<number, Refusal[]>;
  private readonly calloutRefusals: Refusal[];
  private readonly orders: AsRunTableJudged['orders'];
  private readonly calloutCells: Map<string, TypedRow['cells']>;
  private readonly notes: string[];
  private readonly lines: AsRunLine[] = [];
  private readonly byKey: Map<string, Row>;

  /** @throws RefusedError where rows, callouts or tools are no table as a whole */
  constructor(source: TableSource & { beside: AsRunBeside }) {
    const { callouts: listed, tools } = source.beside;
    const columns = listed.columns.length === 0 ? leastColumns : listed.columns;
    const callouts = readCallouts({ content: keptTable(columns, listed.rows).text, file: 'callouts' });
    const kept = 'rows' in source ? keptTable(source.columns, source.rows) : null;
    const given = 'rows' in source ? { content: kept?.text ?? '' } : { content: source.content, file: source.name };
    this.read = readAsRun(given, callouts.callouts);
    this.rows =
      'rows' in source
        ? source.rows.map((typed, at) => ({ typed, place: at + 1, line: kept?.lines[at] ?? 0 }))
        : rowsOfFile(this.read);
    this.columns = 'rows' in source ? [...source.columns] : columnsOfFile(this.read).map(({ name }) => name);
    this.notes = 'rows' in source ? [] : this.read.table.notes;
    this.result = judgedOf(this.read, toolsOf(tools), null);
    this.judgedBy = new Map(this.result.rows.map((row) => [row.row, row]));
    this.refused = grouped(this.read.refusals);
    this.calloutRefusals = callouts.refusals.slice(0, refusalsMost);
    this.orders = callouts.callouts.flatMap((callout) => {
      const positions = sequenceOf(callout);
      const from = sequenceFrom(callout);
      return positions.length === 0 ? [] : [{ callout: callout.id, positions, ...(from === null ? {} : { from }) }];
    });
    this.calloutCells = new Map(listed.rows.map(({ cells }) => [cellNamed(cells, 'id'), cells]));
    this.byKey = new Map(this.rows.map((row) => [row.typed.key, row]));
  }

  get count(): number {
    return this.rows.length;
  }

  /** Lines of the next rows. */
  next(count: number): AsRunLine[] {
    const from = this.lines.length;
    for (const { typed, place, line } of this.rows.slice(from, from + count))
      this.lines.push(recordLine(typed, place, this.judgedBy.get(line) ?? null));
    return this.lines.slice(from);
  }

  /** Which lines are shown, and in which order. */
  order(view: LineView): Uint32Array<ArrayBuffer> {
    return orderOfRecords(this.lines, view);
  }

  /** The typed cells of some rows. */
  cells(from: number, count: number): TypedRow['cells'][] {
    return this.rows.slice(from, from + count).map(({ typed }) => typed.cells);
  }

  /** Some rows with all that is judged of them, for whoever lists or reports them. */
  judgedRows(from: number, count: number): JudgedTyped<AsRunLook>[] {
    return this.rows.slice(from, from + count).map((row) => {
      const { key, cells } = row.typed;
      const judged = this.judgedBy.get(row.line) ?? null;
      return { key, cells, row: judged, refusals: judged === null ? this.refusalsOf(row) : [] };
    });
  }

  look(key: string): AsRunLook | null {
    const row = this.byKey.get(key);
    if (row === undefined) return null;
    const judged = this.judgedBy.get(row.line) ?? null;
    const callout = cellNamed(row.typed.cells, 'callout');
    return {
      key,
      cells: row.typed.cells,
      row: judged,
      refusals: judged === null ? this.refusalsOf(row) : [],
      callout: this.calloutCells.get(callout) ?? {},
      series:
        this.result.series.find(
          (one) => judged !== null && one.callout === judged.callout && one.position === judged.position,
        ) ?? null,
    };
  }

  /** What all of it comes to. */
  judged(): AsRunTableJudged {
    const { columns, notes, calloutRefusals, orders } = this;
    const { series, wearMethod, reopened = [], unknownColumns } = this.result;
    const unread = this.rows.filter(({ line }) => !this.judgedBy.has(line)).slice(0, refusalsMost);
    const refusals = unread.flatMap((row) => this.refusalsOf(row)).slice(0, refusalsMost);
    const keys = new Map(this.rows.map(({ line, typed }) => [this.judgedBy.get(line)?.id, typed.key]));
    return {
      ...tallyOf(this.lines),
      ...{ columns, notes, calloutRefusals, orders, unknownColumns, refusals, series, wearMethod },
      reopened: reopened.map((one) => ({ ...one, rows: one.rows.map((id) => keys.get(id) ?? id) })),
    };
  }

  private refusalsOf({ line, place }: Row): Refusal[] {
    const own = this.refused.get(line) ?? [];
    return own.length === 0 ? [emptyRow(place)] : own.map((refusal) => ({ ...refusal, row: place }));
  }
}

function toolsOf(tools: readonly KnownTool[]): ReturnType<typeof readTools>['tools'] | null {
  if (tools.length === 0) return null;
  const rows = tools.map((tool) => ({
    cells: Object.fromEntries(toolColumns.flatMap((name) => (tool[name] === undefined ? [] : [[name, tool[name]]]))),
  }));
  return readTools({ content: keptTable(toolColumns, rows).text, file: 'tools' }).tools;
}

function columnsOfFile({ table }: ReadRecords): { name: string; at: number; isRead: boolean }[] {
  const known = Array.from(table.columns, ([name, at]) => ({ name, at, isRead: true }));
  const unknown = table.unknownColumns.map(({ name, at }) => ({ name, at, isRead: false }));
  return [...known, ...unknown].toSorted((a, b) => a.at - b.at);
}

function rowsOfFile(read: ReadRecords): Row[] {
  const { table } = read;
  const columns = columnsOfFile(read);
  const rowAt = (line: number, cells: readonly string[]): Row => ({
    typed: {
      key: `line-${line}`,
      cells: Object.fromEntries(
        columns.flatMap(({ name, at, isRead }) => {
          const cell = cells[at] ?? '';
          return cell.trim() === '' ? [] : [[name, typedCell(cell, isRead)]];
        }),
      ),
    },
    place: line,
    line,
  });
  const whole = Array.from(table.records, ({ row, cells }) => rowAt(row, cells));
  const ragged = table.ragged.map(({ row = 0 }) => rowAt(row, []));
  return [...whole, ...ragged].toSorted((a, b) => a.line - b.line);
}
