/** Where everything on a label lies, in a printer's dots and in mm. */
import { symbolDots } from '../../engine/tag/index.ts';
import type { PrinterDpi, SymbolDots } from '../../engine/tag/index.ts';

export type LabelSymbols = 'both' | 'bars' | 'square';

export interface LabelForm {
  symbols: LabelSymbols;
  dpi: PrinterDpi;
  widthMm: number;
  heightMm: number;
  /** On sheets to be cut, or on a roll with one label after another. */
  on: 'sheet' | 'single';
}

/** Of a label's usual size; as small as its symbols and four lines of 8 pt allow, and some room. */
export const usualSizes: Record<LabelSymbols, { widthMm: number; heightMm: number }> = {
  both: { widthMm: 61, heightMm: 34 },
  bars: { widthMm: 52, heightMm: 25 },
  square: { widthMm: 52, heightMm: 19 },
};

/** The bars of 12 digits in set C: start, six pairs, check, stop. */
const barsModules = 8 * 11 + 13;
/** The smallest square: 21 modules. */
const squareModules = 21;

const padMm = 1.5;
/** Above the words beside a square, whose white is as wide. */
const topPadMm = 0.8;
/** Lines of 9 pt and of 8 pt with their leading. */
const codeLineMm = 3.8;
const lineMm = 3.3;
const barsLeastMm = 8;
const textLeastMm = 25;
const labelMostMm = 180;

/** A place on a label, from its upper left corner [mm]. */
export interface Box {
  leftMm: number;
  topMm: number;
  widthMm: number;
  heightMm: number;
}

/** A label of a form, laid out. */
export interface LabelPlaces {
  dots: SymbolDots;
  /** Of the whole label, in dots. */
  width: number;
  height: number;
  /** Upper left corner of the square without its white, in dots. */
  square: { x: number; y: number } | null;
  /** Upper left corner of the first bar, and how high it is, in dots. */
  bars: { x: number; y: number; height: number } | null;
  /** Code, name and which piece. */
  words: Box;
  nameLines: number;
  /** The digits below the bars; null where they are the last line of the words. */
  digits: Box | null;
}

/** Beyond the white around a symbol, so that a label's edge where it is cut is no part of it, in dots. */
const edge = 3;

const squareSize = ({ module, moduleQuiet }: SymbolDots): number => squareModules * module + 2 * (moduleQuiet + edge);
const barsSize = ({ bar, barQuiet }: SymbolDots): number => barsModules * bar + 2 * (barQuiet + edge);

/** Smaller than this the symbols, their white or their words have no room [mm]. */
export function leastSize({ symbols, dpi }: Pick<LabelForm, 'symbols' | 'dpi'>): { widthMm: number; heightMm: number } {
  const dots = symbolDots(dpi);
  const [square, bars] = [squareSize(dots) * dots.dotMm, barsSize(dots) * dots.dotMm];
  const below = barsLeastMm + lineMm + padMm;
  if (symbols === 'square')
    return { widthMm: square + textLeastMm, heightMm: Math.max(square, wordsMm(1, true) + 2 * topPadMm) };
  if (symbols === 'bars') return { widthMm: bars, heightMm: padMm + codeLineMm + lineMm + below };
  return { widthMm: Math.max(bars, square + textLeastMm), heightMm: square + below };
}

const wordsMm = (nameLines: number, withDigits: boolean): number =>
  codeLineMm + lineMm * (nameLines + 1 + (withDigits ? 1 : 0));

/** A size in words, rounded up, so that what it says is enough. */
const atLeast = (mm: number): string => String(Math.ceil(mm * 10) / 10);

/** Why nothing can be printed in this form; null where it can. */
export function formFault(form: LabelForm): string | null {
  const least = leastSize(form);
  for (const [name, mm, leastMm] of [
    ['wide', form.widthMm, least.widthMm],
    ['high', form.heightMm, least.heightMm],
  ] as const) {
    if (!Number.isFinite(mm)) return `how ${name} a label is, is a number of mm`;
    if (mm < leastMm)
      return `the label is ${mm} mm ${name}: its symbols, their white and its words need ${atLeast(leastMm)} mm`;
    if (mm > labelMostMm) return `the label is ${mm} mm ${name}: at most ${labelMostMm} mm`;
  }
  return null;
}

/** Lays a label out; the form has no fault. */
export function labelPlaces({ symbols, dpi, widthMm, heightMm }: LabelForm): LabelPlaces {
  const dots = symbolDots(dpi);
  const { dotMm, moduleQuiet, barQuiet } = dots;
  const [width, height] = [Math.floor(widthMm / dotMm), Math.floor(heightMm / dotMm)];
  const squareMm = squareSize(dots) * dotMm;
  const hasSquare = symbols !== 'bars';
  const topDots = symbols === 'square' ? Math.floor((heightMm - squareMm) / 2 / dotMm) : 0;
  const leftMm = hasSquare ? squareMm : padMm;
  const barsTopMm = hasSquare ? squareMm : padMm + codeLineMm + lineMm + padMm / 2;
  const digitsTopMm = heightMm - padMm / 2 - lineMm;
  const wordsTopMm = hasSquare ? topPadMm : padMm;
  const words: Box = {
    leftMm,
    topMm: wordsTopMm,
    widthMm: widthMm - leftMm - padMm,
    heightMm: (symbols === 'square' ? heightMm - topPadMm : barsTopMm) - wordsTopMm,
  };
  const spare = words.heightMm - wordsMm(0, symbols === 'square');
  return {
    ...{ dots, width, height, words },
    square: hasSquare ? { x: moduleQuiet + edge, y: topDots + moduleQuiet + edge } : null,
    bars:
      symbols === 'square'
        ? null
        : {
            x: Math.floor((width - barsSize(dots)) / 2) + barQuiet + edge,
            y: Math.ceil(barsTopMm / dotMm),
            height: Math.floor(digitsTopMm / dotMm) - Math.ceil(barsTopMm / dotMm),
          },
    // Beside the bars the piece stands in the line of the code.
    nameLines: symbols === 'bars' ? 1 : Math.max(1, Math.floor(spare / lineMm + 1e-9)),
    digits: symbols === 'square' ? null : { leftMm: 0, topMm: digitsTopMm, widthMm, heightMm: lineMm },
  };
}

/** Between the margins of a page: those of every printed document. The first page has a heading above. */
const sheets = {
  A4: { widthMm: 184, firstMm: 297 - 12 - 40, otherMm: 297 - 29 - 40 },
  Letter: { widthMm: 215.9 - 26, firstMm: 279.4 - 12 - 40, otherMm: 279.4 - 29 - 40 },
} as const;

export const headingMm = 38;

/** How many labels stand on a page. */
export interface SheetRoom {
  columns: number;
  firstRows: number;
  otherRows: number;
}

/** Room on sheets of a paper; or why a label has none. */
export function sheetRoom(places: LabelPlaces, paper: 'A4' | 'Letter'): SheetRoom | { fault: string } {
  const { widthMm, firstMm, otherMm } = sheets[paper];
  const [width, height] = [places.width * places.dots.dotMm, places.height * places.dots.dotMm];
  const room = {
    columns: Math.floor(widthMm / width),
    firstRows: Math.floor((firstMm - headingMm) / height),
    otherRows: Math.floor(otherMm / height),
  };
  if (room.columns > 0 && room.firstRows > 0) return room;
  return { fault: `a label of this size does not fit on ${paper} between its margins: print single labels` };
}

/** Labels page by page. */
export function onPages<T>(labels: readonly T[], { columns, firstRows, otherRows }: SheetRoom): T[][] {
  const pages: T[][] = [];
  for (let from = 0; from < labels.length;) {
    const most = columns * (pages.length === 0 ? firstRows : otherRows);
    pages.push(labels.slice(from, from + most));
    from += most;
  }
  return pages;
}
