import { useElementSize } from '@mantine/hooks';
import type { Unit } from '../../engine/units/index.ts';
import { bandsLayout, type BandBar } from './bandsLayout.ts';

export interface BandsDrawingProps {
  bars: readonly BandBar[];
  unit: Unit;
  thread: string;
}

const leastWidthPx = 340;

/** Published bands of one thread on one torque axis. A band that is printed with one end alone stays open at the other. */
export function BandsDrawing({ bars, unit, thread }: BandsDrawingProps) {
  const { ref, width } = useElementSize<HTMLDivElement>();
  const layout = bandsLayout(bars, unit, Math.max(leastWidthPx, Math.floor(width || 640)));
  const { axisY, leftPx, rightPx } = layout;
  return (
    <figure className="bw-bands" aria-label={`Torque bands for ${thread}`}>
      <div
        ref={ref}
        className="bw-bands-frame"
        tabIndex={0}
        role="group"
        aria-label="Bands, scroll sideways where narrow"
      >
        <svg
          width={layout.widthPx}
          height={layout.heightPx}
          viewBox={`0 0 ${layout.widthPx} ${layout.heightPx}`}
          role="img"
          aria-label={`Torque bands for ${thread}: ${bars.map(({ name, text }) => `${name}, ${text}`).join('; ')}`}
        >
          {layout.ticks.map(({ px, text }) => (
            <g key={text}>
              <path className="bw-bands-grid" d={`M${px} 0V${axisY}`} />
              <path className="bw-bands-axis" d={`M${px} ${axisY}v5`} />
              <text x={px} y={axisY + 18} textAnchor="middle">
                {text}
              </text>
            </g>
          ))}
          {layout.rows.map(({ y, fromPx, toPx, isOpen, name, text }) => (
            <g key={`${name} ${y}`}>
              <rect
                className={isOpen ? 'bw-bands-open' : 'bw-bands-bar'}
                x={fromPx}
                y={y - 8}
                width={toPx - fromPx}
                height={11}
              />
              <path className="bw-bands-end" d={`M${toPx} ${y - 12}v19${isOpen ? '' : `M${fromPx} ${y - 12}v19`}`} />
              <text className="bw-bands-name" x={leftPx} y={y - 15}>
                {text} · {name}
              </text>
            </g>
          ))}
          <path className="bw-bands-axis" d={`M${leftPx} ${axisY}H${rightPx}`} />
          <text x={rightPx} y={axisY + 34} textAnchor="end">
            torque / {unit}
          </text>
        </svg>
      </div>
    </figure>
  );
}
