import type { CSSProperties } from 'react';
import { DrawnDimension, DrawnOutline, DrawnText, Hatchings } from './Drawn.tsx';
import type { StackLayout } from './stackLayout.ts';
import classes from './StackDrawing.module.css';

export interface StackSceneProps {
  layout: StackLayout;
  /** Unique on the page. */
  id: string;
  title: string;
  description: string;
}

/** The layout as SVG, and nothing decided here. */
export function StackScene({ layout, id, title, description }: StackSceneProps) {
  const { widthPx, heightPx, acrossHole: across, scale } = layout;
  const half = scale.lengthPx / 2;
  return (
    <svg
      className={classes['drawing']}
      width={widthPx}
      height={heightPx}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
      style={{ '--wide': `${layout.widePx}px` } as CSSProperties}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{description}</desc>
      <Hatchings prefix={id} />
      {layout.outlines.map((outline, index) => (
        <DrawnOutline key={index} outline={outline} prefix={id} />
      ))}
      {layout.witness.map((d, index) => (
        <path key={index} className={classes['thin']} d={d} />
      ))}
      {across !== null && (
        <g>
          <path className={classes['thin']} d={`M${across.x} ${across.top}V${across.bottom}`} />
          <path className={classes['arrow']} d={`M${across.x} ${across.top}l-1.5 9h3z`} />
          <path className={classes['arrow']} d={`M${across.x} ${across.bottom}l-1.5 -9h3z`} />
        </g>
      )}
      {layout.dimensions.map((dimension, index) => (
        <DrawnDimension key={index} dimension={dimension} />
      ))}
      {layout.notes.map((note, index) => (
        <DrawnText key={index} text={note} />
      ))}
      {layout.balloons.map((balloon) => (
        <g key={balloon.number}>
          <path
            className={classes['thin']}
            d={`M${balloon.x} ${balloon.y + 11}V${balloon.elbowY}L${balloon.toX} ${balloon.toY}`}
          />
          <circle className={classes['arrow']} cx={balloon.toX} cy={balloon.toY} r={2.5} />
          <circle className={classes['balloon']} cx={balloon.x} cy={balloon.y} r={11} />
          <text
            className={`${classes['label']} ${classes['strong']}`}
            x={balloon.x}
            y={balloon.y + 4.5}
            textAnchor="middle"
          >
            {balloon.number}
          </text>
          <DrawnText text={balloon.text} />
        </g>
      ))}
      <g>
        <rect className={classes['scaleDark']} x={scale.x} y={scale.y - 5} width={half} height={5} />
        <rect className={classes['scaleLight']} x={scale.x + half} y={scale.y - 5} width={half} height={5} />
        <text className={classes['label']} x={scale.x + scale.lengthPx + 8} y={scale.y}>
          0 to {scale.text}
        </text>
      </g>
    </svg>
  );
}
