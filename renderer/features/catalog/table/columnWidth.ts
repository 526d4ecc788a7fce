import type { Item } from '../../../../shared-types/records/item.ts';
import type { WantedWidth } from '../../../components/RowGrid/WidthGrip.tsx';
import type { ItemColumn, Shown } from '../columns.ts';
import type { ChosenColumn } from '../view.ts';

/** What a column may be wide [px]. */
export const [narrowestPx, widestPx] = [40, 800];

const within = (px: number): number => Math.round(Math.min(widestPx, Math.max(narrowestPx, px)));

/** The columns as they are shown, one of them so wide. */
export function withWidth(shown: readonly ChosenColumn[], key: string, px: number): ChosenColumn[] {
  return shown.map((column) => (column.key === key ? { key, widthPx: within(px) } : column));
}

/** Of so many texts, by their number of letters, the longest are measured: no shorter one of usual letters is wider. */
const measuredMost = 400;

/** The texts of a column that may be its widest, its heading among them. */
function longestTexts(items: readonly Item[], column: ItemColumn, shown: Shown): string[] {
  const texts = new Set<string>();
  for (const item of items) {
    const text = column.text(item, shown);
    // A retired one says so after its name.
    texts.add(column.key === 'name' && item.retired ? `${text} ${retiredRoom}` : text);
  }
  const longest = [...texts].toSorted((a, b) => b.length - a.length).slice(0, measuredMost);
  return [column.label, ...longest];
}

/** As wide as a mark and its word. */
const retiredRoom = 'WW Retired';

/** Inner edges of a cell, the arrow of a sorted heading, and a little air. */
const roundPx = 10 + 14 + 6;
/** The mark of a state before its word. */
const markPx = 24;

interface Measured {
  items: readonly Item[];
  column: ItemColumn;
  shown: Shown;
  /** Width of a text in the table's face [px]. */
  widthPx: (text: string) => number;
}

/** How wide a column is that shows its widest text whole. */
function fittingPx({ items, column, shown, widthPx }: Measured): number {
  const widest = Math.max(...longestTexts(items, column, shown).map(widthPx));
  return within(Math.ceil(widest) + roundPx + (column.key === 'calibration' ? markPx : 0));
}

/** Texts as a cell of the table sets them; a gloved row has larger letters. */
export function widthIn(cell: Element | null): (text: string) => number {
  const context = document.createElement('canvas').getContext('2d');
  if (context === null) return (text) => text.length * 9;
  const { fontWeight, fontSize, fontFamily } =
    cell === null ? { fontWeight: '600', fontSize: '13px', fontFamily: 'sans-serif' } : getComputedStyle(cell);
  context.font = `${fontWeight} ${fontSize} ${fontFamily}`;
  return (text) => context.measureText(text).width;
}

/** The width that is wanted, in px. */
export function wantedPx(width: WantedWidth, measured: () => Measured): number {
  return width === 'fits' ? fittingPx(measured()) : within(width);
}
