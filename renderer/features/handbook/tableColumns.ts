import type { AnyTable } from '../../engine/handbook/tables.ts';
import { convertValue, limitIn, showNumber } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';

/** A row as the file has it: whatever its table prints. */
export type PrintedRow = Readonly<Record<string, unknown>>;

export interface TableColumn {
  key: string;
  /** The printed heading as far as the key says it: "max locking torque". */
  label: string;
  /** Of every number in it; null where it has none, or the row says its own. */
  unit: Unit | null;
  /** Other units that no conversion is shown for: "%". */
  sign: string | null;
  isNumber: boolean;
  end: 'minimum' | 'maximum' | null;
}

/** Units as the keys of the files write them, the longer before the shorter that end alike. */
const unitSuffixes: readonly (readonly [string, Unit])[] = [
  ['_lbf_in', 'lbf·in'],
  ['_lbf_ft', 'lbf·ft'],
  ['_ozf_in', 'ozf·in'],
  ['_N_m', 'N·m'],
  ['_MPa', 'MPa'],
  ['_ksi', 'ksi'],
  ['_kN', 'kN'],
  ['_lbf', 'lbf'],
  ['_mm', 'mm'],
  ['_in', 'in'],
  ['_N', 'N'],
];

const signSuffixes: readonly (readonly [string, string])[] = [
  ['_percent', '%'],
  ['_percent_list', '%'],
  ['_degC_min', '°C'],
  ['_degC_max', '°C'],
  ['_s_min', 's'],
  ['_s_max', 's'],
];

export function rowsOf(table: AnyTable): readonly PrintedRow[] {
  return table.rows;
}

/** Every column that any row has, in the order in which they first stand. */
export function columnsOf(table: AnyTable): TableColumn[] {
  const rows = rowsOf(table);
  const keys = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  return keys
    .filter((key) => rows.some((row) => row[key] !== '' && row[key] !== undefined))
    .map((key) => {
      const isNumber = rows.some((row) => typeof row[key] === 'number' || Array.isArray(row[key]));
      const [suffix, unit] = unitSuffixes.find(([ending]) => key.endsWith(ending)) ?? ['', null];
      const [signEnding, sign] = signSuffixes.find(([ending]) => key.endsWith(ending)) ?? ['', null];
      const stem = signEnding !== '' ? key.replace(signEnding, signEnding.replace(/_(percent|degC|s)/, '')) : key;
      return {
        key,
        label: key === 'obtained_row' ? 'obtained' : stem.slice(0, stem.length - suffix.length).replaceAll('_', ' '),
        unit: isNumber ? unit : null,
        sign: sign ?? (isNumber || unit === null ? null : unit),
        isNumber,
        end: endOf(key),
      };
    });
}

function endOf(key: string): TableColumn['end'] {
  const words = key.split('_');
  if (words.includes('min')) return 'minimum';
  return words.includes('max') ? 'maximum' : null;
}

const others: Partial<Record<Unit, Unit>> = {
  lbf·in: 'N·m',
  lbf·ft: 'N·m',
  ozf·in: 'N·m',
  N·m: 'lbf·in',
  MPa: 'ksi',
  ksi: 'MPa',
  kN: 'lbf',
  N: 'lbf',
  lbf: 'N',
  mm: 'in',
  in: 'mm',
};

const metric: ReadonlySet<Unit> = new Set(['N·m', 'MPa', 'kN', 'N', 'mm']);

/** The unit a column is shown in beside its own, or in its place; null where its own is what is wanted. */
function otherUnitOf(unit: Unit | null, units: UnitsShown): { unit: Unit; alone: boolean } | null {
  const other = unit === null ? undefined : others[unit];
  if (unit === null || other === undefined || units === 'as-written') return null;
  if (units === 'both') return { unit: other, alone: false };
  return (units === 'si') === metric.has(unit) ? null : { unit: other, alone: true };
}

/** "max locking torque / lbf·in (N·m)": the unit stands in the heading, as every number of the column has it. */
export function headingOf({ label, unit, sign }: TableColumn, units: UnitsShown): string {
  if (unit === null) return sign === null ? label : `${label} / ${sign}`;
  const other = otherUnitOf(unit, units);
  return other === null ? `${label} / ${unit}` : `${label} / ${other.alone ? other.unit : `${unit} (${other.unit})`}`;
}

/** A cell as printed, and, where it is wanted, the same in the other unit: a limit rounded to its safe side. */
export function cellText(column: TableColumn, value: unknown, units: UnitsShown): string {
  if (value === null || value === undefined || value === '') return value === null ? 'none printed' : '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return value.map(String).join(', ');
  if (typeof value !== 'number') return String(value);
  const other = otherUnitOf(column.unit, units);
  if (other === null || column.unit === null) return String(value);
  const converted = convertedText(value, column.unit, other.unit, column.end);
  return other.alone ? converted : `${value} (${converted})`;
}

const figures = 4;

function convertedText(value: number, from: Unit, to: Unit, end: TableColumn['end']): string {
  const exact = convertValue(value, from, to);
  if (end === null || exact === 0) return showNumber(exact, figures);
  const decimals = Math.max(0, figures - 1 - Math.floor(Math.log10(Math.abs(exact))));
  return limitIn(`${value} ${from}`, end, { unit: to, decimals })
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '');
}

/** What a row is called in an address: its first cell, numbered where several rows begin alike. */
export function rowName(table: AnyTable, index: number): string {
  const rows = rowsOf(table);
  const nameAt = (at: number): string => String(Object.values(rows[at] ?? {})[0] ?? '');
  const name = nameAt(index);
  const before = rows.slice(0, index).filter((_, at) => nameAt(at) === name).length;
  return before === 0 ? name : `${name}~${before + 1}`;
}

/** The row an address names; −1 where it has none such. */
export function rowIndex(table: AnyTable, name: string | undefined): number {
  return name === undefined ? -1 : rowsOf(table).findIndex((_, index) => rowName(table, index) === name);
}
