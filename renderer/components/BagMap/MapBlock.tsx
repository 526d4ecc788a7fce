import { useMemo } from 'react';
import type { KeyboardEvent, PointerEvent } from 'react';
import { piecesExtent } from '../../engine/bagMap/mapBlocks.ts';
import type { MapBlock as Block } from '../../engine/bagMap/mapBlocks.ts';
import type { OwnSpot } from '../../engine/bagMap/spots.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { silhouetteOf } from './silhouette.ts';
import classes from './BagMap.module.css';

/** What can be done with a block; absent on paper. */
export interface BlockHands {
  onPointerDown: (block: Block, event: PointerEvent<SVGGElement>) => void;
  onKeyDown: (block: Block, event: KeyboardEvent<SVGGElement>) => void;
  /** Id of the words that say how it is moved. */
  describedBy: string;
}

/** How far a line is packed: there, to be put there next, or still to come. */
export type PackingOf = 'packed' | 'next' | 'to-pack';

export interface MapBlockProps {
  plan: ResolvedPlan;
  block: Block;
  spot: OwnSpot;
  pxPerMm: number;
  selected: boolean;
  /** Up from its place, under the hand. */
  carried: boolean;
  tabStop: boolean;
  hands: BlockHands | undefined;
  packing?: PackingOf | undefined;
}

const packingWords: Record<PackingOf, string> = {
  packed: ', packed',
  next: ', next to pack',
  'to-pack': ', still to pack',
};

const targetLeastPx = 24;

/** The pieces of one line as they lie, with their code beneath. */
export function MapBlock({ plan, block, spot, pxPerMm, selected, carried, tabStop, hands, packing }: MapBlockProps) {
  const { xMm, yMm, turned } = spot;
  const drawing = useMemo(() => silhouetteOf(plan, block.item, block.piece, pxPerMm), [plan, block, pxPerMm]);
  const { stepXMm, stepYMm, heightMm } = piecesExtent(block, turned);
  const across = turned ? Math.ceil(block.drawn / block.columns) : block.columns;
  const [wide, high] = [spot.widthMm * pxPerMm, spot.heightMm * pxPerMm];
  const [left, top] = [Math.min(0, wide - targetLeastPx) / 2, Math.min(0, high - targetLeastPx) / 2];
  const name = plan.carried.get(block.item)?.name ?? block.item;
  const apart = block.part === null ? '' : ', apart';
  const said = `${block.item}, ${name}, ${block.quantity === 1 ? '1 piece' : `${block.quantity} pieces`}${apart}${packing === undefined ? '' : packingWords[packing]}`;
  const role =
    hands === undefined
      ? ({ role: 'img' } as const)
      : ({
          role: 'button',
          tabIndex: tabStop ? 0 : -1,
          'aria-pressed': selected,
          'aria-describedby': hands.describedBy,
          onPointerDown: (event: PointerEvent<SVGGElement>) => hands.onPointerDown(block, event),
          onKeyDown: (event: KeyboardEvent<SVGGElement>) => hands.onKeyDown(block, event),
        } as const);
  return (
    <g
      {...role}
      aria-label={carried ? `${said}, picked up` : said}
      className={classes['piece']}
      data-selected={selected || undefined}
      data-carried={carried || undefined}
      data-packing={packing}
      data-block={block.key}
      data-item={block.item}
      transform={`translate(${xMm * pxPerMm} ${yMm * pxPerMm})`}
    >
      <rect
        className={classes['target']}
        x={left - 2}
        y={top - 2}
        width={Math.max(wide, targetLeastPx) + 4}
        height={Math.max(high, targetLeastPx) + 4}
      />
      {Array.from({ length: block.drawn }, (_, index) => {
        const x = (index % across) * stepXMm * pxPerMm;
        const y = Math.floor(index / across) * stepYMm * pxPerMm;
        return (
          <g
            key={index}
            transform={
              turned ? `translate(${x + block.piece.acrossMm * pxPerMm} ${y}) rotate(90)` : `translate(${x} ${y})`
            }
          >
            {drawing.outer.map((d) => (
              <path key={d} className={classes['outline']} d={d} />
            ))}
            {drawing.inner.map((d) => (
              <path key={d} className={classes['inner']} d={d} />
            ))}
          </g>
        );
      })}
      <text className={classes['label']} x={0} y={heightMm * pxPerMm + 12}>
        {shortened(block, wide)}
      </text>
    </g>
  );
}

const letterPx = 7.6;

/** As much of a code as its room takes, and how many whatever it takes; the whole of it is said and stands in the list. */
function shortened({ item, label }: Block, roomPx: number): string {
  const letters = Math.floor((roomPx + 0.5) / letterPx);
  if (label.length <= letters) return label;
  const count = label.slice(item.length);
  return `${item.slice(0, Math.max(1, letters - 1 - count.length))}…${count}`;
}
