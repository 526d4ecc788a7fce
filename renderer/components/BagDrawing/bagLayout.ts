import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedBag, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { textWidthPx } from '../StackDrawing/labels.ts';
import { silhouetteOf, type Silhouette } from './silhouette.ts';

export interface PlacedItem {
  id: string;
  quantity: number;
  name: string;
  x: number;
  y: number;
  /** The cell: silhouettes one under another, and the code beneath. */
  widthPx: number;
  heightPx: number;
  silhouette: Silhouette;
  /** How many are drawn; more are said by number. */
  drawn: number;
  label: string;
}

export interface BagField {
  bag: ResolvedBag;
  items: PlacedItem[];
  heightPx: number;
}

export interface BagLayout {
  pxPerMm: number;
  /** Inner width of each bag as drawn. */
  widthPx: number;
  bags: BagField[];
}

const paddingPx = 12;
const gapPx = 14;
const labelPx = 17;
const drawnMost = 4;
const stackGapPx = 3;
const pxPerMmMax = 1.6;
const cellLeastPx = 26;

/** Rows of pieces, longest first, in a field as wide as the bag is drawn; one scale for all the bags. */
export function bagLayout(plan: ResolvedPlan, outing: BagOuting, widthPx: number): BagLayout {
  const bags = [...plan.bags.values()].filter(({ id }) => outing.items.some((item) => item.bag === id));
  const silhouettes = new Map(
    outing.items.flatMap(({ id }): [string, Silhouette][] => {
      const item = plan.carried.get(id);
      return item === undefined ? [] : [[id, silhouetteOf(plan, item)]];
    }),
  );
  const longestMm = Math.max(1, ...[...silhouettes.values()].map((s) => s.widthMm));
  const pxPerMm = Math.min((widthPx - 2 * paddingPx) / longestMm, pxPerMmMax);
  return { pxPerMm, widthPx, bags: bags.map((bag) => field(plan, outing, bag, { silhouettes, pxPerMm, widthPx })) };
}

function field(
  plan: ResolvedPlan,
  outing: BagOuting,
  bag: ResolvedBag,
  frame: { silhouettes: Map<string, Silhouette>; pxPerMm: number; widthPx: number },
): BagField {
  const { silhouettes, pxPerMm, widthPx } = frame;
  const cells = outing.items.flatMap((item) => {
    const silhouette = silhouettes.get(item.id);
    if (item.bag !== bag.id || silhouette === undefined) return [];
    const drawn = Math.min(item.quantity, drawnMost);
    const label = item.quantity > 1 ? `${item.id} × ${item.quantity}` : item.id;
    const pictureHeight = drawn * (silhouette.heightMm * pxPerMm + stackGapPx) - stackGapPx;
    return [
      {
        id: item.id,
        quantity: item.quantity,
        name: plan.carried.get(item.id)?.name ?? item.id,
        silhouette,
        drawn,
        label,
        widthPx: Math.min(
          Math.max(silhouette.widthMm * pxPerMm, textWidthPx(label, 12), cellLeastPx),
          widthPx - 2 * paddingPx,
        ),
        heightPx: Math.max(pictureHeight + labelPx, cellLeastPx),
      },
    ];
  });
  // Longest first packs rows tightest; the order of the list is kept among equals.
  const ordered = cells.toSorted((a, b) => b.widthPx - a.widthPx);
  const items: PlacedItem[] = [];
  let [x, y, rowHeight] = [paddingPx, paddingPx, 0];
  for (const cell of ordered) {
    if (x > paddingPx && x + cell.widthPx > widthPx - paddingPx) {
      [x, y, rowHeight] = [paddingPx, y + rowHeight + gapPx, 0];
    }
    items.push({ ...cell, x, y });
    x += cell.widthPx + gapPx;
    rowHeight = Math.max(rowHeight, cell.heightPx);
  }
  return { bag, items, heightPx: y + rowHeight + paddingPx };
}
