import { dimension } from '../../../components/StackDrawing/labels.ts';
import type { PlacedText } from '../../../components/StackDrawing/labels.ts';
import { arc, box, line } from '../../../components/StackDrawing/outline.ts';
import type { Outline } from '../../../components/StackDrawing/outline.ts';
import { scaleBar } from '../../../components/StackDrawing/scaleBar.ts';
import type { PackShape } from './itemShape.ts';
import type { ItemTexts } from './itemTexts.ts';
import type { ItemLayout } from './laidItem.ts';

const edgePx = 24;
const topPx = 34;
const highMostPx = 150;
const pxPerMmMax = 9;
/** More pockets than these would be lines without room between them. */
export const pocketsMost = 40;

/** Gear by its longest size, a bag by the longest piece it takes, each as a block; a bag's pockets as its compartments. */
export function packLayout(shape: PackShape, texts: ItemTexts, widthPx: number): ItemLayout {
  const { longMm, acrossMm, pockets } = shape;
  const pxPerMm = Math.min((widthPx - 2 * edgePx - 60) / longMm, highMostPx / acrossMm, pxPerMmMax);
  const [long, high] = [longMm * pxPerMm, acrossMm * pxPerMm];
  const leftPx = (widthPx - long) / 2;
  const strapPx = shape.kind === 'bag' ? Math.min(16, high) : 0;
  const y = topPx + strapPx;
  const bottom = y + high;
  const outlines: Outline[] =
    shape.kind === 'bag'
      ? [
          { d: strap(leftPx + long / 2, y, Math.min(45, long * 0.15)), ink: 'narrow', fill: 'none', of: 'strap' },
          { d: box(leftPx, y, leftPx + long, bottom), ink: 'visible', fill: 'field', of: 'bag' },
          ...pocketLines({ leftPx, long, y, bottom }, pockets),
        ]
      : [{ d: box(leftPx, y, leftPx + long, bottom), ink: 'visible', fill: 'steel', of: 'gear' }];
  const rowY = bottom + 30;
  const dimensions = [
    dimension({ fromPx: leftPx, toPx: leftPx + long, y: rowY, text: texts.length ?? '', beside: 'right' }),
  ];
  const witness = [leftPx, leftPx + long].map((at) => line([at, bottom + 3], [at, rowY + 5]));
  const said = texts.also.length === 0 ? [] : [texts.also.join(' · ')];
  // In the row of the scale bar nothing else stands.
  const notes: PlacedText[] = said.map((text) => ({
    ...{ x: widthPx - edgePx, y: rowY + 32, anchor: 'end', lines: [text] },
  }));
  return {
    widthPx,
    heightPx: rowY + 44,
    outlines,
    dimensions,
    witness,
    notes,
    scale: scaleBar({ pxPerMm, unit: texts.unit, x: edgePx, y: rowY + 32 }),
    broken: false,
  };
}

const strap = (x: number, y: number, half: number): string => arc([x, y], half, -90, 90);

interface BagFrame {
  leftPx: number;
  long: number;
  y: number;
  bottom: number;
}

/** Pockets beside each other, all as wide: which lies where is not known of a bag. */
function pocketLines({ leftPx, long, y, bottom }: BagFrame, pockets: number): Outline[] {
  if (pockets < 2 || pockets > pocketsMost) return [];
  return Array.from({ length: pockets - 1 }, (_, index): Outline => {
    const x = leftPx + (long * (index + 1)) / pockets;
    return { d: line([x, y], [x, bottom]), ink: 'hidden', fill: 'none', of: 'pocket' };
  });
}
