import type { PlotFrameLayout } from './axis.ts';
import { spreadApart } from './ticks.ts';
import classes from './Plot.module.css';

/** A limit along the plot: how it is drawn tells it apart before its colour could. */
export interface PlotLimit {
  value: number;
  /** "proof load 33.6 kN (ISO 898-1)" */
  text: string;
  line: 'limit' | 'proof' | 'yield';
}

const linePx = 15;

/** Limits as labelled lines across the field; labels keep clear of each other and stay within it. */
export function LimitLines({ limits, layout }: { limits: readonly PlotLimit[]; layout: PlotFrameLayout }) {
  const { leftPx, rightPx, topPx, bottomPx } = layout;
  const wanted = limits.map(({ value }) => layout.y(value) - 5);
  const at = spreadApart(wanted, linePx, { from: topPx + 12, to: bottomPx - 4 });
  return limits.map(({ value, text, line }, index) => (
    <g key={text} data-plot="limit">
      <path className={classes[line]} d={`M${leftPx} ${layout.y(value)}H${rightPx}`} />
      <text className={classes['label']} x={leftPx + 8} y={at[index]}>
        {text}
      </text>
    </g>
  ));
}
