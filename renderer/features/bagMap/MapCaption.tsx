import classes from '../../components/BagMap/BagMap.module.css';
import type { ScaleBar } from '../../components/StackDrawing/scaleBar.ts';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';
import { assumedText } from '../../engine/bagMap/pieceSize.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText, once } from '../bag/amounts.ts';

export interface MapCaptionProps {
  layout: MapLayout;
  units: UnitsShown;
  scale: ScaleBar;
}

/** What of the drawing is to scale, and what is assumed. */
export function MapCaption({ layout, units, scale }: MapCaptionProps) {
  const blocks = layout.bags.flatMap((bag) => bag.blocks.map(({ block }) => block));
  const sizeless = blocks.filter(({ piece }) => piece.known === 'none').map(({ item }) => item);
  const lengthOnly = blocks.some(({ piece }) => piece.known === 'length');
  const many = blocks.filter(({ drawn, quantity }) => drawn < quantity);
  const given = layout.bags.filter(({ length }) => length === 'given');
  const assumed = layout.bags.filter(({ length }) => length === 'assumed');
  const bagText = (bags: MapLayout['bags']): string =>
    bags.map(({ bag, lengthMm }) => `${bag.name} ${amountText(lengthMm, 'mm', once(units))}`).join(', ');
  return (
    <figcaption className={classes['caption']}>
      <b>Bag map</b>
      <svg width={scale.lengthPx + 70} height="14" aria-label={`Scale: bar of ${scale.text}`} role="img">
        <rect className={classes['barFull']} x={1} y={5} width={scale.lengthPx} height={4} />
        <text className={classes['label']} x={scale.lengthPx + 8} y={11}>
          {scale.text}
        </text>
      </svg>
      <span>
        To scale, laid open in one layer; for finding things, not a proof that they lie so in the bag.
        {given.length === 0 ? '' : ` As long as the longest piece the bag takes: ${bagText(given)}.`}
      </span>
      <span>
        <b>Assumed:</b>{' '}
        {assumed.length === 0 ? '' : `the length, where the bag gives none that fits: ${bagText(assumed)}; `}
        depths of the bags and outlines of the pieces. {lengthOnly ? assumedText : ''}
        {sizeless.length === 0 ? '' : ` Size not given, drawn at a guess: ${sizeless.join(', ')}.`}
        {many.length === 0
          ? ''
          : ` Drawn 12 of: ${many.map(({ item, quantity }) => `${quantity} × ${item}`).join(', ')}.`}
      </span>
    </figcaption>
  );
}
