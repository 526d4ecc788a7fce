import type { CalloutRow } from '../../../shared-types/callout.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type {
  CalloutLine,
  CalloutLook,
  JudgedTyped,
  LineView,
  TableJudged,
  TypedRow,
} from '../../../shared-types/inspection.ts';
import { readCallouts, type Callout } from '../callout/index.ts';
import { openCallouts, type OpenCallouts } from '../callout/readCallouts.ts';
import { judgeCallout } from '../callout/judgeCallout.ts';
import { RefusedError } from '../errors.ts';
import { columnNamed } from './cellNamed.ts';
import { typedCell } from './typedCell.ts';
import { keptTable } from './keptTable.ts';
import { lineOf } from './lineOf.ts';
import { lookAt } from './lookAt.ts';
import { orderOf } from './orderOf.ts';
import { tallyOf } from './tally.ts';

/** What is judged: the rows of a kept list, or a file as it is. */
export type TableSource =
  | { columns: readonly string[]; rows: readonly TypedRow[] }
  | { name: string; content: Uint8Array | string };

interface Row {
  typed: TypedRow;
  place: number;
  /** Of the table it is read from. */
  line: number;
  callout: Callout | null;
  judged: CalloutRow | null;
}

/** So many refusals are told at once; the rest is counted by the rows. */
const refusalsMost = 2000;

/** A table of callouts, read and judged piece by piece, so that whoever judges can tell how far it has come, and stop. */
export class JudgedTable {
  readonly columns: string[];
  private readonly unknownColumns: string[];
  private readonly notes: string[];
  private readonly rows: Row[];
  private readonly byKey: Map<string, Row>;
  private readonly lines: CalloutLine[] = [];
  private readonly placeOfId = new Map<string, number>();
  private readonly opened: OpenCallouts;
  private readonly callouts: Generator<Callout>;
  /** Read already, and of a row further on. */
  private ahead: Callout | null = null;
  private refused: Map<number, Refusal[]> | null = null;

  /** @throws RefusedError where it is no table of callouts as a whole */
  constructor(source: TableSource) {
    const { rows, columns, opened } = 'rows' in source ? ofKept(source) : ofFile(source);
    this.rows = rows;
    this.columns = columns;
    this.opened = opened;
    this.callouts = opened.callouts();
    this.unknownColumns = opened.table.unknownColumns.map(({ name }) => name);
    this.notes = 'rows' in source ? [] : opened.table.notes;
    this.byKey = new Map(rows.map((row) => [row.typed.key, row]));
  }

  get count(): number {
    return this.rows.length;
  }

  /** Reads and judges the next rows. */
  next(count: number): CalloutLine[] {
    const from = this.lines.length;
    for (const row of this.rows.slice(from, from + count)) {
      const { typed, place } = row;
      row.callout = this.calloutOn(row.line);
      if (row.callout !== null) row.judged = this.judge(row.callout, place);
      const { callout, judged } = row;
      this.lines.push(lineOf(typed, place, callout === null || judged === null ? null : { callout, row: judged }));
    }
    return this.lines.slice(from);
  }

  /** What is read on a line: nothing where the row was refused. */
  private calloutOn(line: number): Callout | null {
    for (;;) {
      const callout = this.ahead ?? (this.callouts.next().value as Callout | undefined) ?? null;
      if (callout === null || callout.row > line) {
        this.ahead = callout;
        return null;
      }
      this.ahead = null;
      if (callout.row === line) return callout;
    }
  }

  /** Known once all is read. */
  private refusalsOf({ line, place, callout }: Row): Refusal[] {
    this.refused ??= grouped(this.opened.refusals());
    const own = this.refused.get(line) ?? [];
    if (own.length === 0) return callout === null ? [emptyRow(place)] : [];
    return own.map((refusal) => ({ ...refusal, row: place }));
  }

  allLines(): readonly CalloutLine[] {
    return this.lines;
  }

  /** Which lines are shown, and in which order. */
  order(view: LineView): Uint32Array<ArrayBuffer> {
    return orderOf(this.lines, view);
  }

  /** The typed cells of some rows. */
  cells(from: number, count: number): TypedRow['cells'][] {
    return this.rows.slice(from, from + count).map(({ typed }) => typed.cells);
  }

  /** Some rows with all that is judged of them, for whoever lists or reports them. */
  judgedRows(from: number, count: number): JudgedTyped<CalloutLook>[] {
    return this.rows.slice(from, from + count).map((row) => {
      const { key, cells } = row.typed;
      return { key, cells, row: row.judged, refusals: row.judged === null ? this.refusalsOf(row) : [] };
    });
  }

  look(key: string): CalloutLook | null {
    const row = this.byKey.get(key);
    if (row === undefined) return null;
    const { typed, callout, judged } = row;
    const readAgain = (cells: TypedRow['cells']): CalloutRow | null => {
      const [again] = readCallouts({ content: keptTable(withColumns(this.columns, cells), [{ cells }]).text }).callouts;
      return again === undefined ? null : judgeCallout(again);
    };
    return lookAt({ typed, callout, judged, refusals: this.refusalsOf(row), columns: this.columns, readAgain });
  }

  judged(): TableJudged {
    const { columns, unknownColumns, notes } = this;
    const refused = this.rows.filter(({ callout }) => callout === null).slice(0, refusalsMost);
    const refusals = refused.flatMap((row) => this.refusalsOf(row)).slice(0, refusalsMost);
    return { ...tallyOf(this.lines), columns, unknownColumns, notes, refusals };
  }

  /** What was recorded against an id is recorded against one callout: a second of the same id is told. */
  private judge(callout: Callout, place: number): CalloutRow {
    const row = judgeCallout(callout);
    const before = this.placeOfId.get(row.id);
    if (before === undefined) this.placeOfId.set(row.id, place);
    else {
      row.findings.push({
        rule: 'repeated-id',
        severity: 'note',
        message: `Row ${before} has the same id: what is recorded of it cannot be told apart.`,
        source: 'Rule of this program.',
      });
    }
    return row;
  }
}

interface Sorted {
  rows: Row[];
  columns: string[];
  opened: OpenCallouts;
}

const unjudged = { callout: null, judged: null };

function ofKept({ columns, rows: typed }: Extract<TableSource, { rows: unknown }>): Sorted {
  const { text, lines } = keptTable(columns, typed);
  const rows = typed.map((row, index): Row => ({ typed: row, place: index + 1, line: lines[index] ?? 0, ...unjudged }));
  return { rows, columns: [...columns], opened: openCallouts({ content: text }) };
}

/** What is refused of a kept row without a single cell. */
export function emptyRow(row: number): Refusal {
  return { code: 'missing-field', message: 'nothing is typed in this row', row };
}

function ofFile({ name, content }: Extract<TableSource, { content: unknown }>): Sorted {
  const opened = openCallouts({ content, file: name });
  const { table } = opened;
  const known = Array.from(table.columns, ([column, at]) => ({ column, at, isRead: true }));
  const unknown = table.unknownColumns.map((one) => ({ column: one.name, at: one.at, isRead: false }));
  const columns = [...known, ...unknown].toSorted((a, b) => a.at - b.at);
  const cellsOf = (cells: readonly string[]): Record<string, string> => {
    const typed: Record<string, string> = {};
    for (const { column, at, isRead } of columns) {
      const cell = cells[at] ?? '';
      if (cell.trim() !== '') typed[column] = typedCell(cell, isRead);
    }
    return typed;
  };
  const rowAt = (line: number, cells: readonly string[]): Row => ({
    typed: { key: `line-${line}`, cells: cellsOf(cells) },
    place: line,
    line,
    ...unjudged,
  });
  const whole = Array.from(table.records, ({ row, cells }) => rowAt(row, cells));
  const ragged = table.ragged.map(({ row = 0 }) => rowAt(row, []));
  return {
    rows: ragged.length === 0 ? whole : [...whole, ...ragged].toSorted((a, b) => a.line - b.line),
    columns: columns.map(({ column }) => column),
    opened,
  };
}

/** What was refused, by the line it stands on. */
export function grouped(refusals: readonly Refusal[]): Map<number, Refusal[]> {
  const byRow = new Map<number, Refusal[]>();
  for (const refusal of refusals) {
    const row = refusal.row ?? 0;
    byRow.set(row, [...(byRow.get(row) ?? []), refusal]);
  }
  return byRow;
}

/** The columns, and those that the cells name beyond them. */
function withColumns(columns: readonly string[], cells: TypedRow['cells']): string[] {
  return [...columns, ...Object.keys(cells).filter((name) => columnNamed(columns, name) === undefined)];
}

/** Why a table cannot be judged, in the words of a refusal. */
export function tableRefusal(error: unknown): Refusal {
  return error instanceof RefusedError ? error.refusal : { code: 'internal', message: String(error) };
}
