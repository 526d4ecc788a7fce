/** What a printed list holds, found by its words and where they stand. */
import { expect } from 'vitest';
import type { PrintedPage } from './printedPdf.ts';

export const codes = /\b(?:G-\d{4}|TT-2|S-18D)\b/;
export const listHeader = 'Item What Packed when Needed at step Pieces kg Out Back';
export const stepHeader = 'No Step, by whom Stack, tool to head Set the tool to Torque and its source';

/** What each page holds of the list, which ends with its count. */
export function listParts(pages: readonly PrintedPage[]): string[] {
  let over = false;
  return pages.map(({ text }) => {
    if (over) return '';
    const end = text.indexOf('End of list, ');
    over = end >= 0;
    return over ? text.slice(0, end) : text;
  });
}

/** Rows of the list on a page, by the words that stand on one base line from the left edge on. */
export function listRows(page: PrintedPage): { code: string; pieces: number }[] {
  const end = page.texts.find(({ text }) => text === 'Steps and settings')?.yMm ?? Infinity;
  const piecesX = page.texts.find(({ text }) => text === 'Pieces');
  if (piecesX === undefined) return [];
  const right = piecesX.xMm + piecesX.widthMm;
  return page.texts
    .filter(({ text, xMm, yMm }) => codes.test(text) && xMm < 30 && yMm < end)
    .map(({ text, yMm }) => {
      // Cells are centred on the row: the figure nearest in height, in its column, is the row's.
      const figure = page.texts
        .filter((t) => /^\d+$/.test(t.text) && Math.abs(t.xMm + t.widthMm - right) < 1 && Math.abs(t.yMm - yMm) < 3)
        .toSorted((a, b) => Math.abs(a.yMm - yMm) - Math.abs(b.yMm - yMm))[0];
      return { code: text, pieces: Number(figure?.text) };
    });
}

/** Rows of the list as the document has them before it is printed. */
export function documentRows(html: string): string[] {
  return [...html.matchAll(/<tr class="line">(.*?)<\/tr>/gs)].map(([, row = '']) => {
    const code = /<th[^>]*class="code"[^>]*><bdi>([^<]*)<\/bdi>/.exec(row)?.[1];
    const pieces = /<td class="num">(\d+)<\/td>/.exec(row)?.[1];
    return `${code} ${pieces}`;
  });
}

export function expectMargins(pages: readonly PrintedPage[], paper: 'A4' | 'Letter'): void {
  const [widthMm, heightMm] = paper === 'A4' ? [210, 297] : [215.9, 279.4];
  for (const page of pages) {
    expect(page.widthMm).toBeCloseTo(widthMm, 0);
    expect(page.heightMm).toBeCloseTo(heightMm, 0);
  }
  const outside = pages.flatMap((page) =>
    page.texts.filter(
      ({ xMm, yMm, widthMm: long, sizePt }) =>
        xMm < 10 || xMm + long > page.widthMm - 10 || yMm - sizePt * 0.3 < 10 || yMm > page.heightMm - 10,
    ),
  );
  expect(outside).toEqual([]);
}

/** A portable grey map as pdftoppm writes it, first page only. */
export function greyMap(picture: Buffer): { width: number; height: number; grey: Buffer } {
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(picture.subarray(0, 40).toString('latin1'));
  if (head === null) throw new Error('pdftoppm wrote no grey map');
  const [whole, width, height] = head;
  return { width: Number(width), height: Number(height), grey: picture.subarray(whole.length) };
}

export function colourMap(picture: Buffer): { samples: Buffer } {
  const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(picture.subarray(0, 40).toString('latin1'));
  if (head === null) throw new Error('pdftoppm wrote no colour map');
  const [whole, width, height] = head;
  return { samples: picture.subarray(whole.length, whole.length + Number(width) * Number(height) * 3) };
}
