import { RefusedError } from '../../engine/errors.ts';
import { parsePattern, patternText, placesIn, positionsOf, readPattern } from '../../engine/pattern/index.ts';
import type { Pattern, PatternPoint, Turn } from '../../engine/pattern/index.ts';
import { convertValue, quantityIn, readQuantity, roundNominal } from '../../engine/units/index.ts';

/** What a form has of a pattern: fields as typed, read or not. `words` holds what is no pattern yet. */
export interface PatternDraft {
  kind: 'none' | 'words' | Pattern['kind'];
  words: string;
  diameter: string;
  from: string;
  turn: Turn;
  rows: string;
  columns: string;
  across: string;
  up: string;
  points: readonly TypedPlace[];
}

export interface TypedPlace {
  position: string;
  x: string;
  y: string;
}

const blank: PatternDraft = {
  ...{ kind: 'none', words: '', diameter: '', from: '', turn: 'clockwise' },
  ...{ rows: '', columns: '', across: '', up: '', points: [] },
};

/** The fields of a pattern as it is written. */
export function draftOf(text: string): PatternDraft {
  if (text.trim() === '') return blank;
  const pattern = orNull(() => parsePattern(text));
  if (pattern === null) return { ...blank, kind: 'words', words: text };
  if (pattern.kind === 'points') return { ...blank, kind: 'points', points: pattern.points };
  if (pattern.kind === 'circle') return { ...blank, ...pattern, from: pattern.from ?? '' };
  return { ...blank, ...pattern, rows: String(pattern.rows), columns: String(pattern.columns) };
}

/** A pattern's fields written as its text; what is not typed yet leaves a gap that its reading names. */
export function textOf(draft: PatternDraft): string {
  const { kind, words, diameter, from, turn, rows, columns, across, up, points } = draft;
  const typed = (text: string): string => text.trim();
  if (kind === 'none') return '';
  if (kind === 'words') return words;
  if (kind === 'points')
    return patternText({
      kind,
      points: points.map(({ position, x, y }) => ({ position: typed(position), x: typed(x), y: typed(y) })),
    });
  if (kind === 'circle')
    return patternText({ kind, diameter: typed(diameter), from: typed(from) === '' ? null : typed(from), turn });
  const turned = kind === 'frame' && turn === 'counterclockwise' ? ' counterclockwise' : '';
  return `${kind} ${typed(rows)} by ${typed(columns)}, ${typed(across)} by ${typed(up)}${turned}`;
}

export interface KnownPlan {
  pattern: Pattern;
  points: PatternPoint[];
}

/** What can be drawn of a pattern; null as long as it cannot be read. */
export function planOf(text: string, count: number): KnownPlan | null {
  return orNull(() => {
    const pattern = parsePattern(text);
    return { pattern, points: readPattern(text, positionsOf({ pattern: text, count: Math.min(count, drawnMost) })) };
  });
}

/** More positions are no drawing any more. */
const drawnMost = 200;

/** Names of the positions; null as long as the pattern cannot be read. */
export function positionsIn(text: string, count: number): string[] | null {
  return orNull(() => positionsOf({ pattern: text, count: Math.min(count, 1000) }));
}

/** How many places a pattern has by itself; null where that is for the count to say, or it cannot be read. */
export function countIn(text: string): number | null {
  return text.trim() === '' ? null : orNull(() => placesIn(parsePattern(text)));
}

/** A length in the unit of another as typed: whole mm, or thousandths of an inch. */
export function placeText(mm: number, like: string): string {
  const unit = orNull(() => readQuantity(like, 'length').unit);
  const isInch = unit === 'in' || unit === 'ft';
  const value = isInch ? convertValue(mm, 'mm', 'in') : mm;
  return `${Number(roundNominal(value, 3))} ${isInch ? 'in' : 'mm'}`;
}

/** A typed coordinate moved by so much; from 0 where it cannot be read. */
export function shifted(text: string, byMm: number): string {
  return placeText((orNull(() => quantityIn(text, 'length', 'mm')) ?? 0) + byMm, text);
}

/** The lowest number that no place has. */
export function nextPosition(points: readonly Pick<TypedPlace, 'position'>[]): string {
  const taken = new Set(points.map(({ position }) => position.trim()));
  let number = 1;
  while (taken.has(String(number))) number += 1;
  return String(number);
}

function orNull<T>(read: () => T): T | null {
  try {
    return read();
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}
