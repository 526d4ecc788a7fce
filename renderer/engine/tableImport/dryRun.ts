import type { Refusal } from '../../../shared-types/errors.ts';
import type { Grid, GridRecord } from '../sheet/grid.ts';
import { TableReading } from '../sheet/index.ts';
import type { Mapping } from './guessMapping.ts';
import type { ImportTarget, RowReader, TargetContext } from './importTarget.ts';
import { mappedTable, type MappedTable } from './mappedTable.ts';

/** What a row of a file would be. */
export type Outcome = 'add' | 'change' | 'same';

/** A row that can be read, as it would be kept. */
export interface ReadyRow {
  /** The file's line. */
  row: number;
  /** What tells it from every other, in one text. */
  key: string;
  outcome: Outcome;
  cells: Record<string, string>;
}

export interface RunCounts {
  rows: number;
  add: number;
  change: number;
  /** Kept already, and the same. */
  same: number;
  /** Rows with a cell that cannot be read. */
  bad: number;
  /** All such cells; of a file with a great many only the first are told one by one. */
  badCells: number;
}

/** So many refused cells are told; who has more has another file in hand. */
const toldMost = 100_000;

/** A kept row, to be held against the file's. */
export interface KeptRow {
  cells: Readonly<Record<string, string>>;
}

/** Goes through all rows of a file as if they were brought in, piece by piece; nothing is written. */
export class DryRun {
  readonly count: number;
  readonly columns: string[];
  private readonly mapped: MappedTable;
  private readonly target: ImportTarget;
  private readonly reading: TableReading;
  private readonly read: RowReader;
  private readonly context: TargetContext;
  private readonly fed: string[];
  private readonly kept: Map<string, KeptRow['cells']>;
  private readonly lineOfKey = new Map<string, number>();
  private readonly counts: RunCounts;
  private done = 0;

  constructor(x: {
    grid: Grid;
    mapping: Mapping;
    target: ImportTarget;
    context: TargetContext;
    kept: readonly KeptRow[];
  }) {
    this.target = x.target;
    this.mapped = mappedTable(x.grid, x.mapping, x.target);
    this.columns = this.mapped.keptColumns;
    const numbers = x.target.columns.filter(({ kind }) => kind === 'quantity' || kind === 'number');
    this.reading = new TableReading(
      this.mapped.table,
      numbers.map(({ name }) => name),
    );
    this.reading.refusals.push(...x.grid.ragged);
    this.context = x.context;
    this.fed = [...this.mapped.table.columns.keys()];
    this.read = x.target.begin(x.context);
    this.kept = new Map(x.kept.map(({ cells }) => [this.keyOf(cells), cells]));
    this.count = x.grid.records.length;
    const bad = x.grid.ragged.length;
    this.counts = { rows: this.count + bad, add: 0, change: 0, same: 0, bad, badCells: 0 };
  }

  /**
   * The next rows.
   *
   * @param most - how many of them
   * @returns those that can be read, and every cell of the others that cannot; nothing once all were gone through
   */
  next(most: number): { ready: ReadyRow[]; refusals: Refusal[] } {
    const ready: ReadyRow[] = [];
    for (const record of this.mapped.records.slice(this.done, this.done + most)) {
      const row = this.readyRow(record);
      if (row === null) this.counts.bad += 1;
      else {
        this.counts[row.outcome] += 1;
        ready.push(row);
      }
    }
    this.done = Math.min(this.count, this.done + most);
    const found = this.reading.refusals.splice(0);
    const refusals = found.slice(0, Math.max(0, toldMost - this.counts.badCells));
    this.counts.badCells += found.length;
    return { ready, refusals };
  }

  get progress(): { done: number; counts: RunCounts } {
    return { done: this.done, counts: { ...this.counts } };
  }

  private readyRow(record: GridRecord): ReadyRow | null {
    const row = this.reading.row({ row: record.row, cells: this.mapped.cellsOf(record) });
    this.mapped.refuseOdd(record, row);
    const own = this.mapped.keptCells(record);
    const key = this.keyOf(own);
    const kept = this.kept.get(key);
    const cells = this.read(row, { kept, fed: this.fed }) ?? own;
    const before = this.lineOfKey.get(key);
    const [first = ''] = this.target.key;
    if (before !== undefined)
      row.refuse(
        first,
        'duplicate-id',
        `stands in line ${before} already: one ${this.target.words.one} is kept for each`,
        cells[first],
      );
    else this.lineOfKey.set(key, record.row);
    if (row.isBad) return null;
    const outcome = kept === undefined ? 'add' : saysTheSame(kept, cells) ? 'same' : 'change';
    return { row: record.row, key, outcome, cells };
  }

  private keyOf(cells: Readonly<Record<string, string>>): string {
    return keyOfRow(this.target, cells, this.context);
  }
}

/**
 * What tells a row from every other, in one text.
 *
 * @param cells - of a kept row or of a file's
 */
export function keyOfRow(target: ImportTarget, cells: KeptRow['cells'], context: TargetContext): string {
  if (target.keyOf !== undefined) return target.keyOf(cells, context);
  return target.key.map((name) => (cells[name] ?? '').trim()).join(' / ');
}

/** Whether two rows say the same: columns in no order, empty cells nowhere. */
function saysTheSame(one: KeptRow['cells'], other: KeptRow['cells']): boolean {
  return holdsAll(one, other) && holdsAll(other, one);
}

function holdsAll(one: KeptRow['cells'], other: KeptRow['cells']): boolean {
  for (const name in other) if ((other[name] ?? '').trim() !== (one[name] ?? '').trim()) return false;
  return true;
}
