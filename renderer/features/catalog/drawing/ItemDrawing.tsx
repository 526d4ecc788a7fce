import { useElementSize } from '@mantine/hooks';
import { useId, useMemo } from 'react';
import type { CSSProperties } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import { DrawnDimension, DrawnOutline, DrawnText, Hatchings } from '../../../components/StackDrawing/Drawn.tsx';
import classes from '../../../components/StackDrawing/StackDrawing.module.css';
import { ThirdAngle } from '../../../components/StackDrawing/ThirdAngle.tsx';
import type { UnitsShown } from '../../../engine/units/index.ts';
import { itemName } from '../words.ts';
import { itemLayout } from './itemLayout.ts';
import { itemShape, whyNotDrawn } from './itemShape.ts';
import type { ItemShape, PackShape } from './itemShape.ts';
import { itemTexts } from './itemTexts.ts';
import { pocketsMost } from './packLayout.ts';

const leastWidthPx = 460;

/** What of it is to scale, and what is not. */
function captionOf(shape: ItemShape, broken: boolean): string {
  switch (shape.kind) {
    case 'fastener':
      return `to scale: width across flats or lobes, thread’s diameter${broken ? '' : ' and length'}; the height of the head, and a round head’s width, are schematic${broken ? '; the length is not given' : ''}`;
    case 'tool':
      return `to scale: square${broken ? '' : ' and lever'}; head and hand are schematic${broken ? '; the length of the lever is not given' : ''}`;
    case 'offset-head':
      return `to scale: length, outside diameter, squares${broken ? '' : ' and offset'}; what joins the ends is schematic${broken ? '; the offset is not given' : ''}`;
    case 'gear':
      return `to scale: its greatest extent; ${acrossOf(shape, 'its volume')}; its outline is schematic`;
    case 'bag':
      return `to scale: the longest piece it takes; ${acrossOf(shape, 'the volume it takes')}; outline and strap${shape.pockets > 1 ? ' and where its pockets lie' : ''} are schematic${shape.pockets > pocketsMost ? '; too many pockets to be drawn' : ''}`;
    default:
      return 'to scale: length, outside diameter, squares, opening and inner depth; shoulders and walls are schematic';
  }
}

const acrossOf = ({ byVolume }: PackShape, volume: string): string =>
  byVolume
    ? `as thick as a block of ${volume} with a square end`
    : 'its other side is not given, and assumed 0.55 of that (common practice, no source)';

/** A piece by itself, to scale. What lacks the figures says so in words. */
export function ItemDrawing({ item, units }: { item: Item; units: UnitsShown }) {
  const id = useId();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const shape = useMemo(() => itemShape(item), [item]);
  const layout = useMemo(
    () =>
      shape === null
        ? null
        : itemLayout(shape, itemTexts(item, units), Math.max(leastWidthPx, Math.floor(width || 560))),
    [shape, item, units, width],
  );
  if (shape === null || layout === null) return <p className="bw-second">Not drawn: {whyNotDrawn(item)}.</p>;
  const { scale } = layout;
  const half = scale.lengthPx / 2;
  return (
    <figure className={classes['figure']} aria-label={`Drawing of ${item.code}`}>
      <div
        className={classes['frame']}
        ref={ref}
        tabIndex={0}
        role="group"
        aria-label="Drawing, scrolls sideways where narrow"
      >
        <svg
          className={classes['drawing']}
          width={layout.widthPx}
          height={layout.heightPx}
          viewBox={`0 0 ${layout.widthPx} ${layout.heightPx}`}
          role="img"
          aria-labelledby={`${id}-title`}
          style={{ '--wide': '2px' } as CSSProperties}
        >
          <title id={`${id}-title`}>{`${item.code}, to scale: ${itemName(item)}`}</title>
          <Hatchings prefix={id} />
          {layout.outlines.map((outline, index) => (
            <DrawnOutline key={index} outline={outline} prefix={id} />
          ))}
          {layout.witness.map((d, index) => (
            <path key={index} className={classes['thin']} d={d} />
          ))}
          {layout.dimensions.map((one, index) => (
            <DrawnDimension key={index} dimension={one} />
          ))}
          {layout.notes.map((note, index) => (
            <DrawnText key={index} text={note} />
          ))}
          <rect className={classes['scaleDark']} x={scale.x} y={scale.y - 5} width={half} height={5} />
          <rect className={classes['scaleLight']} x={scale.x + half} y={scale.y - 5} width={half} height={5} />
          <text className={classes['label']} x={scale.x + scale.lengthPx + 8} y={scale.y}>
            0 to {scale.text}
          </text>
        </svg>
      </div>
      <figcaption className={classes['caption']}>
        <b>{item.code}</b>
        <span>{captionOf(shape, layout.broken)}</span>
        {shape.kind === 'gear' || shape.kind === 'bag' ? null : <ThirdAngle />}
      </figcaption>
    </figure>
  );
}
