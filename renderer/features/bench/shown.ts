import { RefusedError } from '../../engine/errors.ts';
import { tableByKey } from '../../engine/handbook/index.ts';
import { convertValue, limitIn, readQuantity, showNumber, showQuantity } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import type { Thread } from '../../engine/thread/index.ts';
import { rowNameOfThread } from '../handbook/rowThread.ts';
import type { Citation } from '../../../shared-types/handbook.ts';
import type { BenchSource, Typed } from './benchSheet.ts';

/** A computed value in the unit that was written, then as the person wants it shown. */
export function shownIn(value: number, from: Unit, to: Unit, units: UnitsShown, digits = 4): string {
  return squared(showQuantity(`${showNumber(convertValue(value, from, to), digits)} ${to}`, units));
}

/** Areas as a page prints them. */
function squared(text: string): string {
  return text.replaceAll(/\b(mm|cm|in)2\b/g, '$1²');
}

const inchTorques: ReadonlySet<Unit> = new Set(['lbf·ft', 'lbf·in', 'ozf·in']);

/** The unit a torque was written in; N·m where nothing readable is. */
export function torqueUnitOf(text: string | undefined): Unit {
  try {
    return readQuantity(text ?? '', 'torque').unit;
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return 'N·m';
  }
}

/** The unit of the other system, of comparable size. */
export function otherTorqueUnit(unit: Unit, nm: number): Unit {
  if (inchTorques.has(unit)) return 'N·m';
  return Math.abs(nm) < 20 ? 'lbf·in' : 'lbf·ft';
}

/** The unit of the other system for a length, an area or a force. */
const others: Partial<Record<Unit, Unit>> = {
  mm: 'in',
  in: 'mm',
  mm2: 'in2',
  in2: 'mm2',
  N: 'lbf',
  kN: 'lbf',
  lbf: 'N',
};

function otherUnit(unit: Unit, base: number): Unit | undefined {
  return unit.includes('·') ? otherTorqueUnit(unit, base) : others[unit];
}

function inUnits(written: Unit, base: number, units: UnitsShown, text: (unit: Unit) => string): string {
  const other = otherUnit(written, base);
  const [first, second] = other === undefined ? [written] : unitsShown(written, other, units);
  return second === undefined ? text(first) : `${text(first)} (${text(second)})`;
}

/** Two computed ends of a span, no limits: each to four figures. */
export function spanIn(
  span: { min: number; max: number },
  from: Unit,
  to: Unit,
  units: UnitsShown,
  digits = 4,
): string {
  const number = (value: number, unit: Unit): string => showNumber(convertValue(value, from, unit), digits);
  return inUnits(to, span.max, units, (unit) => {
    const [min, max] = [number(span.min, unit), number(span.max, unit)];
    return `${min === max ? min : `${min}–${max}`} ${unit}`;
  });
}

/** A computed limit to four figures, rounded to its safe side in every unit. */
export function limitShown(value: number, end: 'minimum' | 'maximum', from: Unit, to: Unit, units: UnitsShown): string {
  return inUnits(to, value, units, (unit) => {
    const size = Math.abs(convertValue(value, from, unit));
    const decimals = size === 0 ? 0 : Math.max(0, 3 - Math.floor(Math.log10(size)));
    return `${limitIn(`${value} ${from}`, end, { unit, decimals })} ${unit}`;
  });
}

/** Force beside a torque of one system, at a size that reads well. */
export function forceUnitsFor(torque: Unit, newtons: number): [Unit, Unit] {
  const newton: Unit = Math.abs(newtons) >= 1000 ? 'kN' : 'N';
  return inchTorques.has(torque) ? ['lbf', newton] : [newton, 'lbf'];
}

/** Which of the units a person wants to see, the written one first. */
export function unitsShown(written: Unit, other: Unit, units: UnitsShown): [Unit, ...Unit[]] {
  if (units === 'both') return [written, other];
  if (units === 'as-written') return [written];
  const isInch = inchTorques.has(written) || written === 'lbf' || written === 'in';
  return (units === 'inch-pound') === isInch ? [written] : [other];
}

/** A number that was typed; undefined where nothing was. Its field's label says what it is a number of. */
export function numberIn(typed: Typed, key: string): number | undefined {
  const text = (typed[key] ?? '').trim();
  if (text === '') return undefined;
  const plain = text.replace(/\s*%$/, '').replace('−', '-');
  if (/^[-+]?(?:\d+\.?\d*|\.\d+)$/.test(plain)) return Number(plain);
  throw new RefusedError({
    code: 'unreadable-quantity',
    message: `"${text}" is not a plain number: write it as "4" or "2.5".`,
    field: key,
    value: text,
  });
}

/** The same as a share: "4" and "4 %" are 0.04. */
export function shareIn(typed: Typed, key: string): number | undefined {
  const percent = numberIn(typed, key);
  return percent === undefined ? undefined : Number((percent / 100).toPrecision(12));
}

/** A text that was typed, without the blanks around it. */
export function textIn(typed: Typed, key: string): string | undefined {
  const text = (typed[key] ?? '').trim();
  return text === '' ? undefined : text;
}

/** An object of what is there alone: the engine takes an absent field for what nobody said. */
export function given(fields: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
}

function citationText({ number, table, edition, obtained }: Omit<Citation, 'key' | 'title' | 'publisher'>): string {
  return number === 'no source' ? 'Common practice, no source' : `${number}, ${table} (${edition}), ${obtained}`;
}

/** A citation as a source that leads to its table. */
export function sourceOf(citation: Citation, row?: string): BenchSource {
  return { text: citationText(citation), table: citation.key, ...(row === undefined ? {} : { row }) };
}

/** A citation as a source that leads to the row of a thread in its table. */
export function sourceAt(citation: Citation, thread: Thread): BenchSource {
  return sourceOf(citation, rowNameOfThread(tableByKey(citation.key), thread));
}

/** A table of the handbook as a source. */
export function tableSource(key: Parameters<typeof tableByKey>[0], thread?: Thread): BenchSource {
  const table = tableByKey(key);
  const citation = { key: table.key, ...table.source, obtained: table.obtained };
  return thread === undefined ? sourceOf(citation) : sourceAt(citation, thread);
}

export const halfToEven = 'Computed values: half to even, four figures.';
export const inwardRounding = 'Limits: inward, so that keeping to what is shown keeps to what is meant.';
