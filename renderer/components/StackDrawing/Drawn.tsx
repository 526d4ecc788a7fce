import type { Dimension, PlacedText } from './labels.ts';
import { extentOf, lineHeightPx } from './labels.ts';
import type { Outline } from './outline.ts';
import classes from './StackDrawing.module.css';

const patterned = new Set<Outline['fill']>(['cutHost', 'cutPlate', 'cutSocket', 'short', 'jam']);

/** Hatchings, one set for each drawing: two neighbouring parts are hatched opposite ways. */
export function Hatchings({ prefix }: { prefix: string }) {
  const sets = [
    { name: 'cutHost', turn: 45, gap: 9 },
    { name: 'cutPlate', turn: -45, gap: 9 },
    { name: 'cutSocket', turn: -45, gap: 4.5 },
    { name: 'short', turn: 45, gap: 5 },
    { name: 'jam', turn: -45, gap: 4 },
  ] as const;
  return (
    <defs>
      {sets.map(({ name, turn, gap }) => (
        <pattern
          key={name}
          id={`${prefix}-${name}`}
          width={gap}
          height={gap}
          patternUnits="userSpaceOnUse"
          patternTransform={`rotate(${turn})`}
        >
          <rect className={classes[`${name}Ground`]} width={gap} height={gap} />
          <path className={classes[`${name}Line`]} d={`M0 0V${gap}`} />
        </pattern>
      ))}
    </defs>
  );
}

export function DrawnOutline({ outline, prefix }: { outline: Outline; prefix: string }) {
  const { d, ink, fill } = outline;
  const style = patterned.has(fill) ? { fill: `url(#${prefix}-${fill})` } : undefined;
  return (
    <path d={d} className={`${classes[ink]} ${classes[`fill-${fill}`] ?? ''}`} style={style} data-of={outline.of} />
  );
}

export function DrawnText({ text, bold = false }: { text: PlacedText; bold?: boolean }) {
  return (
    <text
      className={`${classes['label']} ${bold ? classes['strong'] : ''}`}
      x={text.x}
      y={text.y}
      textAnchor={text.anchor}
    >
      {text.lines.map((line, index) => (
        <tspan key={index} x={text.x} dy={index === 0 ? 0 : lineHeightPx}>
          {line}
        </tspan>
      ))}
    </text>
  );
}

/** Filled arrows 9 × 3 where the text stands between them; dots where the span is too short for arrows. */
export function DrawnDimension({ dimension }: { dimension: Dimension }) {
  const { fromPx, toPx, y, text, inside, filled } = dimension;
  const reach = text.anchor === 'end' ? fromPx - 14 : toPx + 14;
  return (
    <g data-dimension={text.lines[0]}>
      {filled &&
        bars(dimension).map(([from, to]) => (
          <rect key={from} className={classes['shortBar']} x={from} y={y - 3} width={to - from} height={6} />
        ))}
      <path
        className={classes['thin']}
        d={inside ? `M${fromPx} ${y}H${toPx}` : `M${Math.min(fromPx, reach)} ${y}H${Math.max(toPx, reach)}`}
      />
      {inside ? (
        <>
          <path className={classes['arrow']} d={`M${fromPx} ${y}l9 -1.5v3z`} />
          <path className={classes['arrow']} d={`M${toPx} ${y}l-9 -1.5v3z`} />
        </>
      ) : (
        <>
          <circle className={classes['arrow']} cx={fromPx} cy={y} r={2.2} />
          <circle className={classes['arrow']} cx={toPx} cy={y} r={2.2} />
        </>
      )}
      <DrawnText text={text} bold={filled} />
    </g>
  );
}

/** The filled bar leaves the text free. */
function bars({ fromPx, toPx, text, inside }: Dimension): [from: number, to: number][] {
  if (!inside) return [[fromPx, toPx]];
  const { left, right } = extentOf(text);
  return [
    [fromPx, left],
    [right, toPx],
  ];
}
