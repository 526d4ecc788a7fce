import { calloutColumns, type CalloutColumn } from '../../../shared-types/callout.ts';
import type { AnyTable } from '../../engine/handbook/tables.ts';
import { threadTables } from '../../engine/handbook/index.ts';
import { csvText } from '../../engine/sheet/index.ts';
import { lockingLimitsOf } from '../../engine/locking/index.ts';
import { torqueBands } from '../../engine/torqueTable/index.ts';
import type { TorqueBand } from '../../engine/torqueTable/index.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { Typed } from '../bench/benchSheet.ts';
import { rowThread } from './rowThread.ts';
import type { PrintedRow } from './tableColumns.ts';

/** A row as a callout: what stands in which column. */
export interface RowCallout {
  /** What tells it from the row's other bands. */
  condition: string;
  cells: Partial<Record<CalloutColumn, string>>;
  /** Least and greatest torque, where it gives both: a printed value with the tolerance that its document states has ends too. */
  ends: { min: string; max: string } | null;
}

/** Where on the bench a row's values can be put in. */
export interface BenchUse {
  sheet: string;
  words: string;
  typed: Typed;
}

/** Every callout that a row gives: a band for each of its conditions, or the limits of a locking feature. */
export function calloutsOf(table: AnyTable, row: PrintedRow): RowCallout[] {
  const thread = rowThread(table, row);
  if (thread === null) return [];
  const { designation } = thread;
  if (table.topic === 'torque tables')
    return torqueBands({ thread }).flatMap(({ source, condition, printed, minNm, maxNm, tolerance }) =>
      source.key !== table.key || minNm === null || maxNm === null
        ? []
        : [
            {
              condition,
              cells: {
                id: '1',
                thread: designation,
                ...(tolerance === undefined
                  ? { torqueMin: `${printed.min} ${printed.unit}`, torqueMax: `${printed.max} ${printed.unit}` }
                  : { torque: `${printed.min} ${printed.unit}`, tolerance: `${tolerance.percent} %` }),
                lubrication: condition,
              },
              ends: endsOf(printed, tolerance?.percent ?? 0),
            },
          ],
    );
  return lockingLimitsOf(thread).flatMap(({ source, printed, condition }) => {
    if (source.key !== table.key) return [];
    const limit = (name: string): string | undefined => {
      const found = printed.find((one) => one.limit === name);
      return found === undefined ? undefined : `${found.value} ${found.unit}`;
    };
    const [running, breakaway] = [limit('runningMax'), limit('breakawayMin')];
    if (running === undefined && breakaway === undefined) return [];
    return [
      {
        condition: condition ?? 'limits of a locking feature; the torque band is to be added',
        cells: {
          id: '1',
          thread: designation,
          locking: source.number,
          ...(running === undefined ? {} : { runningMax: running }),
          ...(breakaway === undefined ? {} : { breakawayMin: breakaway }),
        },
        ends: null,
      },
    ];
  });
}

function endsOf({ min, max, unit }: TorqueBand['printed'], percent: number): RowCallout['ends'] {
  const share = percent / 100;
  const end = (value: number | null, by: number): string => `${showNumber((value ?? 0) * (1 + by), 12)} ${unit}`;
  return { min: end(min, -share), max: end(max, share) };
}

/** The line with its headings, as `callouts` reads it. */
export function calloutCsv({ cells }: RowCallout): string {
  const columns = calloutColumns.filter((column) => cells[column] !== undefined);
  return csvText(columns, [columns.map((column) => cells[column] ?? null)]);
}

/** The cells of a callout by which it is kept in a list. */
export function cellsOf({ cells }: RowCallout, id: string): Record<string, string> {
  return { ...cells, id };
}

/** The torque of a callout, or the limits it gives, in words. */
export function bandOfCallout({ cells }: RowCallout): string {
  const { torque, tolerance, torqueMin, torqueMax, runningMax, breakawayMin } = cells;
  if (torque !== undefined && tolerance !== undefined) return `${torque} ± ${tolerance}`;
  if (torqueMin !== undefined && torqueMax !== undefined)
    return torqueMin === torqueMax ? torqueMin : `${torqueMin} to ${torqueMax}`;
  return [
    ...(runningMax === undefined ? [] : [`running at most ${runningMax}`]),
    ...(breakawayMin === undefined ? [] : [`breakaway at least ${breakawayMin}`]),
  ].join(', ');
}

/** Computations that take values of the row. */
export function benchUsesOf(table: AnyTable, row: PrintedRow): BenchUse[] {
  const thread = rowThread(table, row);
  const uses: BenchUse[] = [];
  if (thread !== null) {
    const { designation } = thread;
    for (const { condition, cells, ends } of calloutsOf(table, row)) {
      const { locking } = cells;
      if (ends !== null) {
        uses.push({
          sheet: 'preload',
          words: `Torque and preload: ${condition}`,
          typed: {
            ...{ by: 'nutFactor', form: 'screw', target: 'torque', torqueIs: 'seating' },
            ...{ thread: designation, torqueMin: ends.min, torqueMax: ends.max },
          },
        });
      }
      if (locking !== undefined)
        uses.push({
          sheet: 'limits',
          words: 'Running and breakaway limits of this document',
          typed: { thread: designation, document: locking },
        });
    }
    uses.push({ sheet: 'thread', words: 'Read this thread', typed: { thread: designation } });
  }
  const factor = nutFactorOf(table, row);
  if (factor !== null) uses.push({ sheet: 'preload', words: 'Torque and preload with this nut factor', typed: factor });
  const head = headOf(table);
  const size = row['thread'] ?? row['size'];
  const named = typeof size === 'string' ? socketThread(size, row) : null;
  if (head !== null && named !== null)
    uses.push({ sheet: 'socket', words: 'Find its socket', typed: { head, thread: named } });
  return uses;
}

function nutFactorOf(table: AnyTable, row: PrintedRow): Typed | null {
  if (table.key === 'preload-uncertainty')
    return { by: 'nutFactor', form: 'screw', target: 'torque', scatter: String(row['uncertainty_percent']) };
  if (table.key !== 'nut-factors') return null;
  const { K, K_min: least, K_max: greatest } = row;
  const common = { by: 'nutFactor', form: 'screw', target: 'torque' };
  if (typeof K === 'number') return { ...common, k: String(K) };
  const middle = (Number(least) + Number(greatest)) / 2;
  return { ...common, k: String(Number(middle.toPrecision(6))), kMin: String(least), kMax: String(greatest) };
}

function headOf({ key }: AnyTable): string | null {
  if (key === 'hex-head-iso-4014' || key === 'hex-cap-screw-asme-b18.2.1') return 'hex';
  if (key === 'hex-nut-iso-4032') return 'nut';
  if (key === 'heavy-hex-asme') return 'heavy-hex';
  return key.startsWith('socket-head-') ? 'hex-socket' : null;
}

/** An inch size names no thread: any pitch of its diameter has the same head, and its coarse one is held; null where none is. */
function socketThread(size: string, row: PrintedRow): string | null {
  if (size.startsWith('M') || typeof row['thread'] === 'string') return size;
  const bare = size.replace('#', '');
  const coarse = threadTables['unified-series-asme-b1.1'].rows.find(
    (one) => one.size === bare && size.startsWith('#') === one.major_diameter_in < 0.25,
  );
  return coarse === undefined ? null : `${size}-${coarse.threads_per_inch}`;
}
