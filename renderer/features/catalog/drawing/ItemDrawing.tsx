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
import { itemShape } from './itemShape.ts';
import type { ItemShape } from './itemShape.ts';
import { itemTexts } from './itemTexts.ts';

const leastWidthPx = 460;

/** What of it is to scale, and what is not. */
function captionOf({ kind }: ItemShape, broken: boolean): string {
  if (kind === 'fastener')
    return `to scale: width across flats or lobes, thread’s diameter${broken ? '' : ' and length'}; the height of the head, and a round head’s width, are schematic${broken ? '; the length is not given' : ''}`;
  if (kind === 'tool')
    return `to scale: square${broken ? '' : ' and lever'}; head and hand are schematic${broken ? '; the length of the lever is not given' : ''}`;
  return 'to scale: length, outside diameter, squares, opening and inner depth; shoulders and walls are schematic';
}

/** A piece by itself, to scale. What has no outline of its own has no drawing. */
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
  if (shape === null || layout === null) return null;
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
        <ThirdAngle />
      </figcaption>
    </figure>
  );
}
