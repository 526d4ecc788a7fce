import { RefusedError } from '../errors.ts';
import type { CellQuantity, RowReading } from '../sheet/index.ts';
import { atMost } from '../tolerance.ts';
import { showNumber, type Kind, type Unit } from '../units/index.ts';

/** One end of a band as it stands in a cell. */
export interface BandEnd extends CellQuantity {
  /** One unit of the last digit printed: 1 of "62", 0.1 of "62.5". */
  lastDigit: number;
  /** The number as printed, or as it follows from a middle and what it is kept within. */
  digits: string;
}

/** As most are written. */
const plainly = /^(\d{1,15}(?:\.\d{1,15})?)[-–](\d{1,15}(?:\.\d{1,15})?) (\S+)$/;
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
export function bandOf(row: RowReading, text: string, asked: Asked): Band {
  const [, least, greatest, unit] = plainly.exec(text) ?? [];
  if (least !== undefined && greatest !== undefined && unit !== undefined)
    return inOrder(text, { min: endOf(row, least, unit, asked), max: endOf(row, greatest, unit, asked) });
  const end: EndOf = (digits, unitText) => endOf(row, digits, unitText, asked);
  const band = around(aroundMiddle.exec(text)?.groups, end) ?? between(betweenEnds.exec(text)?.groups, end);
  const value = single.exec(text)?.groups;
  const found = band ?? (value === undefined ? null : alike(end(value['value'] ?? '', value['unit'] ?? '')));
  if (found !== null) return inOrder(text, found);
  throw new RefusedError({
    code: 'unreadable-quantity',
    message: `"${text}" is no band: write it as "62-67 N·m" or "65 ± 2 N·m"`,
  });
}

function inOrder(text: string, band: Band): Band {
  if (atMost(band.min.value, band.max.value)) return band;
  throw new RefusedError({ code: 'contradiction', message: `"${text}" has its least above its greatest` });
}

function endOf(row: RowReading, digits: string, unit: string, asked: Asked): BandEnd {
  const { value, unit: read, number: typed, text } = row.readQuantity(`${digits} ${unit}`, asked);
  return { value, unit: read, number: typed, text, lastDigit: lastDigitOf(digits), digits };
}

interface Asked {
  kind: Kind;
  unit: Unit;
}

interface Band {
  min: BandEnd;
  max: BandEnd;
}

type Groups = Record<string, string | undefined> | undefined;
type EndOf = (digits: string, unit: string) => BandEnd;

function between(groups: Groups, end: EndOf): Band | null {
  if (groups === undefined) return null;
  const { min = '', minUnit = '', max = '', maxUnit = '' } = groups;
  return { min: end(min, minUnit === '' ? maxUnit : minUnit), max: end(max, maxUnit) };
}

function around(groups: Groups, end: EndOf): Band | null {
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
    digits: showNumber(centre.number + sign * half.number, 12),
  });
  return { min: at(-1), max: at(1) };
}

function alike(end: BandEnd): Band {
  return { min: end, max: end };
}

function lastDigitOf(digits: string): number {
  const point = Math.max(digits.lastIndexOf('.'), digits.lastIndexOf(','));
  return point === -1 ? 1 : Number(`1e-${digits.length - 1 - point}`);
}
