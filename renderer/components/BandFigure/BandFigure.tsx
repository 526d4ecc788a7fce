import { useElementSize } from '@mantine/hooks';
import { useId } from 'react';
import type { BandNm } from '../../engine/plan/resolved.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { bandLayout, type BandRow } from './bandLayout.ts';
import classes from './BandFigure.module.css';

export interface BandFigureProps {
  callout: BandNm;
  /** What the setting applies, ends in N·m; null while nothing is set. */
  applied: BandNm | null;
  setting: { value: number; unit: string } | null;
  running: BandNm | null;
  /** Whether the callout's band is on the wrench, running torque in it. */
  runningIncluded: boolean;
  /** The callout's unit as written. */
  unit: Unit;
  units: UnitsShown;
}

const firstWidthPx = 420;

/** Callout as a box, applied band as a bar with its setting, running torque as its own part, on one axis. */
export function BandFigure(props: BandFigureProps) {
  const id = useId();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const layout = bandLayout(props, Math.floor(width || firstWidthPx));
  const said = layout.rows.map(({ name, lines }) => `${name} ${lines.join(' ')}`).join('; ');
  const [calloutRow] = layout.rows;
  return (
    <div
      className={classes['frame']}
      ref={ref}
      tabIndex={0}
      role="group"
      aria-label="Bands, scrolls sideways where narrow"
    >
      <svg
        className={classes['figure']}
        width={layout.widthPx}
        height={layout.heightPx}
        viewBox={`0 0 ${layout.widthPx} ${layout.heightPx}`}
        role="img"
        aria-labelledby={`${id}-title`}
      >
        <title id={`${id}-title`}>{`Bands of torque: ${said}`}</title>
        <defs>
          <pattern id={`${id}-part`} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <rect className={classes['partGround']} width="5" height="5" />
            <path className={classes['partLine']} d="M0 0V5" />
          </pattern>
        </defs>
        {calloutRow === undefined
          ? null
          : [calloutRow.fromPx, calloutRow.toPx].map((x) => (
              <path key={x} className={classes['limit']} d={`M${x} ${calloutRow.y - 14}V${layout.axisY}`} />
            ))}
        {layout.rows.map((row) => (
          <g key={row.name}>
            <text className={classes['name']} x={0} y={row.y + 4.5}>
              {row.name}
            </text>
            <Band row={row} part={`${id}-part`} />
            <text
              className={classes['text']}
              x={layout.rightPx + 12}
              y={row.lines.length > 1 ? row.y - 2 : row.y + 4.5}
            >
              {row.lines.map((line, index) => (
                <tspan key={line} x={layout.rightPx + 12} dy={index * 14}>
                  {line}
                </tspan>
              ))}
            </text>
          </g>
        ))}
        <path className={classes['axis']} d={`M${layout.leftPx} ${layout.axisY}H${layout.rightPx}`} />
        {layout.ticks.map(({ px, text }) => (
          <g key={text}>
            <path className={classes['axis']} d={`M${px} ${layout.axisY}v5`} />
            <text className={classes['tick']} x={px} y={layout.axisY + 18} textAnchor="middle">
              {text}
            </text>
          </g>
        ))}
        <text className={classes['tick']} x={layout.rightPx} y={layout.axisY + 34} textAnchor="end">
          {layout.axis}
        </text>
      </svg>
    </div>
  );
}

function Band({ row, part }: { row: BandRow; part: string }) {
  const { kind, fromPx, toPx, markPx, y } = row;
  const width = toPx - fromPx;
  if (kind === 'callout' || kind === 'wrench') {
    return (
      <rect
        className={kind === 'callout' ? classes['callout'] : classes['wrench']}
        x={fromPx}
        y={y - 11}
        width={width}
        height={22}
        data-band={kind}
      />
    );
  }
  if (kind === 'applied') {
    return (
      <g>
        <rect className={classes['applied']} x={fromPx} y={y - 6} width={width} height={12} data-band={kind} />
        {markPx === null ? null : <path className={classes['mark']} d={`M${markPx} ${y - 12}V${y + 12}`} />}
      </g>
    );
  }
  return (
    <g>
      <rect
        className={classes['part']}
        x={fromPx}
        y={y - 6}
        width={width}
        height={12}
        style={{ fill: `url(#${part})` }}
        data-band={kind}
      />
      {markPx === null ? null : (
        <rect className={classes['sure']} x={fromPx} y={y - 6} width={Math.max(0, markPx - fromPx)} height={12} />
      )}
    </g>
  );
}
