import { axisY, clockText, laneHeightPx } from './timelineLayout.ts';
import type { TimelineLayout } from './timelineLayout.ts';

export interface StepLanesProps {
  layout: TimelineLayout;
  numberOf: (id: string) => number;
  nameOf: (id: string) => string;
  hatchId: string;
  /** Where the lanes end. */
  bottomPx: number;
}

/** A line of the clock says its own time: nearer to it no tick is written. */
const tickClearPx = 18;

/** The axis of time, the lanes of the roles, the steps in them, and what the clock allows. */
export function StepLanes({ layout, numberOf, nameOf, hatchId, bottomPx }: StepLanesProps) {
  const { leftPx, rightPx, ticks, lanes, limit, turn, endX, boxes } = layout;
  return (
    <>
      <defs>
        <pattern id={hatchId} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect className="bw-timeline-overground" width="6" height="6" />
          <path className="bw-timeline-overline" d="M0 0V6" />
        </pattern>
      </defs>
      <path className="bw-timeline-rule" d={`M${leftPx} ${axisY}H${rightPx}`} />
      {ticks.map(({ x, text }) => (
        <g key={text}>
          <path className="bw-timeline-rule" d={`M${x} ${axisY}v-5`} />
          {[limit, turn].some((line) => line !== null && Math.abs(line.x - x) < tickClearPx) ? null : (
            <text className="bw-timeline-axis" x={x} y={axisY - 9} textAnchor={x - leftPx < 1 ? 'start' : 'middle'}>
              {text}
            </text>
          )}
        </g>
      ))}
      {lanes.map(({ role, y }) => (
        <g key={role}>
          <rect className="bw-timeline-lane" x={leftPx} y={y} width={rightPx - leftPx} height={laneHeightPx} />
        </g>
      ))}
      {limit === null || endX <= limit.x + 0.5 ? null : (
        <rect fill={`url(#${hatchId})`} x={limit.x} y={axisY} width={endX - limit.x} height={bottomPx - axisY} />
      )}
      {boxes.map(({ span, x, widthPx, lane, text, over, safe }) => {
        const y = lanes[lane]?.y ?? 0;
        const label = `${numberOf(span.step.id)} ${nameOf(span.step.id)}, ${clockText(span.startMin)}–${clockText(span.endMin)}`;
        return (
          <g key={span.step.id} data-step={span.step.code}>
            <title>{safe ? `${label}; the work may be left after it` : label}</title>
            {widthPx < 1 ? (
              <path className="bw-timeline-moment" d={`M${x} ${y}v${laneHeightPx}`} />
            ) : (
              <rect
                className="bw-timeline-box"
                data-over={over || undefined}
                x={x}
                y={y + 1}
                width={widthPx}
                height={laneHeightPx - 2}
              />
            )}
            {safe ? <path className="bw-timeline-safe" d={`M${x + widthPx - 4} ${y + 1}v${laneHeightPx - 2}`} /> : null}
            {text === '' ? null : (
              <text className="bw-timeline-text" x={x + widthPx / 2} y={y + laneHeightPx / 2 + 4} textAnchor="middle">
                {text}
              </text>
            )}
          </g>
        );
      })}
      {[...(limit === null ? [] : [{ ...limit, y: 16 }]), ...(turn === null ? [] : [{ ...turn, y: 32 }])].map(
        ({ x, y, text, anchor }) => (
          <text
            key={text}
            className="bw-timeline-axis bw-timeline-strong"
            x={x + (anchor === 'end' ? -6 : 6)}
            y={y}
            textAnchor={anchor}
          >
            {text}
          </text>
        ),
      )}
    </>
  );
}
