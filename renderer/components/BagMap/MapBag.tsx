import type { PointerEvent } from 'react';
import { blockExtent, withPieces } from '../../engine/bagMap/mapBlocks.ts';
import type { LabelRoom } from '../../engine/bagMap/mapBlocks.ts';
import type { LaidBlock, MapBag as Bag } from '../../engine/bagMap/mapLayout.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { MapBlock } from './MapBlock.tsx';
import type { BlockHands, PackingOf } from './MapBlock.tsx';
import classes from './BagMap.module.css';

/** A block under the hand: where it would lie. */
export interface CarriedBlock {
  key: string;
  bag: string;
  xMm: number;
  yMm: number;
  turned: boolean;
  /** How many of its pieces are in the hand. */
  pieces: number;
  /** The pocket it was sent to by name; else that in which its middle is. */
  pocket?: string;
}

export interface MapBagProps {
  plan: ResolvedPlan;
  bag: Bag;
  room: LabelRoom;
  pxPerMm: number;
  /** Key of the block in hand. */
  selected: string | null;
  /** Key of the block that Tab comes to. */
  tabStop: string | null;
  carried: CarriedBlock | null;
  /** The block under the hand, wherever it lay. */
  carriedBlock: LaidBlock | null;
  hands: BlockHands | undefined;
  onPlace: ((bag: string, event: PointerEvent<SVGSVGElement>) => void) | undefined;
  /** How far each line is packed, by its item; absent where nothing is being packed. */
  packing?: ReadonlyMap<string, PackingOf>;
}

const strapPx = 16;

/** One bag laid open, to scale, with what lies in it. */
export function MapBag(props: MapBagProps) {
  const { plan, bag, room, pxPerMm, selected, tabStop, carried, carriedBlock, hands, onPlace, packing } = props;
  const [widthPx, heightPx] = [bag.lengthMm * pxPerMm, bag.depthMm * pxPerMm];
  const rest = carriedBlock === null || carried === null ? 0 : carriedBlock.block.quantity - carried.pieces;
  const lying = bag.blocks.flatMap((laid): LaidBlock[] => {
    if (laid.block.key !== carried?.key) return [laid];
    const block = withPieces(laid.block, rest);
    return rest > 0 ? [{ ...laid, block, ...blockExtent(block, laid.turned, room) }] : [];
  });
  const left = rest > 0 ? undefined : bag.blocks.find(({ block }) => block.key === carried?.key);
  const here = carried !== null && carriedBlock !== null && carried.bag === bag.bag.id;
  const strap = Math.min(90, widthPx * 0.3);
  return (
    <svg
      className={classes['field']}
      width={widthPx + 4}
      height={heightPx + strapPx + 4}
      viewBox={`-2 ${-strapPx - 2} ${widthPx + 4} ${heightPx + strapPx + 4}`}
      role="group"
      aria-label={`What lies in ${bag.bag.name}`}
      data-bag={bag.bag.id}
      data-hand={here || undefined}
      onPointerDown={onPlace === undefined ? undefined : (event) => onPlace(bag.bag.id, event)}
    >
      <path className={classes['strap']} d={`M${(widthPx - strap) / 2} 0v-6q0-8 8-8h${strap - 16}q8 0 8 8v6`} />
      <rect className={classes['bag']} data-field width={widthPx} height={heightPx} rx={6} />
      {bag.pockets.map(({ name, yMm }) => (
        <g key={name}>
          {yMm === 0 ? null : (
            <line className={classes['pocket']} x1={0} x2={widthPx} y1={yMm * pxPerMm} y2={yMm * pxPerMm} />
          )}
          <text className={classes['pocketName']} x={6} y={yMm * pxPerMm + 13}>
            {name}
          </text>
        </g>
      ))}
      {left === undefined ? null : (
        <rect
          className={classes['former']}
          x={left.xMm * pxPerMm}
          y={left.yMm * pxPerMm}
          width={left.widthMm * pxPerMm}
          height={left.heightMm * pxPerMm}
        />
      )}
      {lying.length === 0 && !here ? (
        <text className={classes['label']} x={widthPx / 2} y={heightPx / 2} textAnchor="middle">
          Nothing lies in it.
        </text>
      ) : null}
      {lying.map((laid) => (
        <MapBlock
          key={laid.block.key}
          plan={plan}
          block={laid.block}
          spot={laid}
          pxPerMm={pxPerMm}
          selected={laid.block.key === selected}
          carried={false}
          tabStop={laid.block.key === tabStop && laid.block.key !== carried?.key}
          hands={hands}
          packing={packing?.get(laid.block.item)}
        />
      ))}
      {here ? (
        <MapBlock
          key={carried.key}
          plan={plan}
          block={withPieces(carriedBlock.block, carried.pieces)}
          spot={{ ...carried, ...blockExtent(withPieces(carriedBlock.block, carried.pieces), carried.turned, room) }}
          pxPerMm={pxPerMm}
          selected
          carried
          tabStop
          hands={hands}
        />
      ) : null}
    </svg>
  );
}
