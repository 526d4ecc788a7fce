import type { KeyboardEvent } from 'react';
import type { BagField as Field, PlacedItem } from './bagLayout.ts';
import classes from './BagDrawing.module.css';

export interface BagFieldProps {
  field: Field;
  widthPx: number;
  pxPerMm: number;
  selected: string | null;
  onSelect: ((id: string, bag: string) => void) | undefined;
}

/** One bag's outline with what lies in it. */
export function BagField({ field, widthPx, pxPerMm, selected, onSelect }: BagFieldProps) {
  const { bag, items, heightPx } = field;
  return (
    <svg
      className={classes['field']}
      width={widthPx}
      height={heightPx + 14}
      viewBox={`0 -14 ${widthPx} ${heightPx + 14}`}
      role="group"
      aria-label={`What lies in ${bag.name}`}
    >
      <path className={classes['strap']} d={`M${widthPx * 0.4} 0v-6q0-6 6-6h${widthPx * 0.2 - 12}q6 0 6 6v6`} />
      <rect className={classes['bag']} x={1} y={1} width={widthPx - 2} height={heightPx - 2} rx={8} />
      {items.map((item) => (
        <Piece
          key={item.id}
          item={item}
          pxPerMm={pxPerMm}
          selected={item.id === selected}
          onSelect={onSelect && (() => onSelect(item.id, bag.id))}
        />
      ))}
    </svg>
  );
}

function Piece({
  item,
  pxPerMm,
  selected,
  onSelect,
}: {
  item: PlacedItem;
  pxPerMm: number;
  selected: boolean;
  onSelect: (() => void) | undefined;
}) {
  const { outer, inner } = item.silhouette.draw(pxPerMm);
  const step = item.silhouette.heightMm * pxPerMm + 3;
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    onSelect?.();
  };
  const said = `${item.id}, ${item.name}, ${item.quantity === 1 ? '1 piece' : `${item.quantity} pieces`}`;
  const asButton =
    onSelect === undefined
      ? ({ role: 'img' } as const)
      : ({ role: 'button', tabIndex: 0, 'aria-pressed': selected, onClick: onSelect, onKeyDown: press } as const);
  return (
    <g
      {...asButton}
      aria-label={said}
      className={`${classes['piece']} ${selected ? classes['selected'] : ''}`}
      transform={`translate(${item.x} ${item.y})`}
      data-item={item.id}
    >
      <rect className={classes['target']} x={-3} y={-3} width={item.widthPx + 6} height={item.heightPx + 6} />
      {Array.from({ length: item.drawn }, (_, index) => (
        <g key={index} transform={`translate(0 ${index * step})`}>
          {outer.map((d) => (
            <path key={d} className={classes['outline']} d={d} />
          ))}
          {inner.map((d) => (
            <path key={d} className={classes['inner']} d={d} />
          ))}
        </g>
      ))}
      <text className={classes['label']} x={0} y={item.heightPx - 3}>
        {item.label}
      </text>
    </g>
  );
}
