import { RefusedError } from '../errors.ts';
import type { CellQuantity, RowReading } from '../sheet/index.ts';
import { atMost } from '../tolerance.ts';
import type { Kind, Unit } from '../units/index.ts';

/** One end of a band as it stands in a cell. */
export interface BandEnd extends CellQuantity {
  /** One unit of the last digit printed: 1 of "62", 0.1 of "62.5". */
  lastDigit: number;
}

const number = String.raw`[+-]?(?:\d[\d.,]*|[.,]\d+)`;
const betweenEnds = new RegExp(
  String.raw`^(?<min>${number})\s*(?<minUnit>.*?)\s*(?:[-‐‑–—−…]|\.{2,3}|\bto\b)\s*(?<max>${number})\s*(?<maxUnit>\D.*)$`,
);
const aroundMiddle = new RegExp(
  String.raw`^(?<middle>${number})\s*(?<middleUnit>.*?)\s*(?:±|\+\/-)\s*(?<by>${number})\s*(?<byUnit>\D.*)$`,
);
const single = new RegExp(String.raw`^(?<value>${number})\s*(?<unit>\D.*)$`);

/**
 * A band in one cell: "62-67 N·m", "62 N·m to 67 N·m", "60 ± 5 deg", or one value, which is both ends.
 *
 * @throws RefusedError as readQuantity does; unreadable-quantity where it is no band, contradiction where the least is above the greatest
 */
export function bandOf(
  row: RowReading,
  text: string,
  asked: { kind: Kind; unit: Unit },
): { min: BandEnd; max: BandEnd } {
  const end = (digits: string, unit: string): BandEnd => ({
    ...row.readQuantity(`${digits} ${unit}`, asked),
    lastDigit: lastDigitOf(digits),
  });
  const band = around(aroundMiddle.exec(text)?.groups, end) ?? between(betweenEnds.exec(text)?.groups, end);
  const value = single.exec(text)?.groups;
  const found = band ?? (value === undefined ? null : alike(end(value['value'] ?? '', value['unit'] ?? '')));
  if (found === null) {
    throw new RefusedError({
      code: 'unreadable-quantity',
      message: `"${text}" is no band: write it as "62-67 N·m" or "65 ± 2 N·m"`,
    });
  }
  if (!atMost(found.min.value, found.max.value))
    throw new RefusedError({ code: 'contradiction', message: `"${text}" has its least above its greatest` });
  return found;
}

type Groups = Record<string, string | undefined> | undefined;
type EndOf = (digits: string, unit: string) => BandEnd;

function between(groups: Groups, end: EndOf): { min: BandEnd; max: BandEnd } | null {
  if (groups === undefined) return null;
  const { min = '', minUnit = '', max = '', maxUnit = '' } = groups;
  return { min: end(min, minUnit === '' ? maxUnit : minUnit), max: end(max, maxUnit) };
}

function around(groups: Groups, end: EndOf): { min: BandEnd; max: BandEnd } | null {
  if (groups === undefined) return null;
  const { middle = '', middleUnit = '', by = '', byUnit = '' } = groups;
  const [centre, half] = [end(middle, middleUnit === '' ? byUnit : middleUnit), end(by, byUnit)];
  if (centre.unit !== half.unit)
    throw new RefusedError({
      code: 'unreadable-quantity',
      message: 'a value and what it is kept within have one unit',
    });
  const lastDigit = Math.min(centre.lastDigit, half.lastDigit);
  const at = (sign: number): BandEnd => ({
    ...centre,
    value: centre.value + sign * half.value,
    number: centre.number + sign * half.number,
    lastDigit,
  });
  return { min: at(-1), max: at(1) };
}

function alike(end: BandEnd): { min: BandEnd; max: BandEnd } {
  return { min: end, max: end };
}

function lastDigitOf(digits: string): number {
  const decimals = /[.,](\d*)$/.exec(digits)?.[1]?.length ?? 0;
  return Number(`1e-${decimals}`);
}
