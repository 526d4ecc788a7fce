import type { ItemColumn } from '../columns.ts';

/** So much a column of a share of the room has at least. */
const leastNamePx = 120;
const besidePx = 24;

/** How wide the table is at least [px]: from there on it scrolls sideways instead of squeezing its columns away. */
export function leastWidthPx(columns: readonly ItemColumn[]): number {
  return columns.reduce((sum, { width }) => {
    const px = /^(\d+)px$/.exec(width)?.[1];
    const least = /^minmax\((\d+)px/.exec(width)?.[1];
    return sum + Number(px ?? (width.includes('1fr') ? leastNamePx : (least ?? 48)));
  }, besidePx);
}
