import { useId, useMemo } from 'react';
import { useElementSize } from '@mantine/hooks';
import { showNumber } from '../../engine/units/index.ts';
import { countOf } from '../steps/words.ts';
import type { Schedule } from './schedule.ts';
import { axisY, clockText, laneHeightPx, timelineLayout } from './timelineLayout.ts';
import './outings.css';

export interface TimelineProps {
  name: string;
  schedule: Schedule;
  roles: readonly string[];
  minutesMax: number | null;
  numberOf: (id: string) => number;
  nameOf: (id: string) => string;
}

const firstWidthPx = 720;

/** The outing by the clock: each role a lane, each step as long as it takes, to one scale. */
export function Timeline({ name, schedule, roles, minutesMax, numberOf, nameOf }: TimelineProps) {
  const id = useId();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const layout = useMemo(
    () =>
      timelineLayout({
        schedule,
        roles,
        minutesMax,
        numberOf,
        nameOf,
        widthPx: Math.max(320, Math.floor(width || firstWidthPx) - 2),
      }),
    [schedule, roles, minutesMax, numberOf, nameOf, width],
  );
  const { widthPx, heightPx, leftPx, rightPx, lanes, ticks, boxes, limit } = layout;
  const said = lanes.map(
    ({ role, steps, minutes }) => `${role}: ${countOf(steps, 'step')}, ${showNumber(minutes)} min`,
  );
  return (
    <figure className="bw-timeline" aria-label={`Course of ${name}`}>
      <div
        ref={ref}
        className="bw-timeline-frame"
        tabIndex={0}
        role="group"
        aria-label="Drawing, scrolls sideways where narrow"
      >
        <svg
          width={widthPx}
          height={heightPx}
          viewBox={`0 0 ${widthPx} ${heightPx}`}
          role="img"
          aria-labelledby={`${id}-title ${id}-desc`}
        >
          <title id={`${id}-title`}>{`${name} by the clock, to scale: ${showNumber(schedule.endMin)} min out`}</title>
          <desc id={`${id}-desc`}>
            {[...said, ...(minutesMax === null ? [] : [`limit ${showNumber(minutesMax)} min`])].join('; ')}
          </desc>
          <defs>
            <pattern id={`${id}-over`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <rect className="bw-timeline-overground" width="6" height="6" />
              <path className="bw-timeline-overline" d="M0 0V6" />
            </pattern>
          </defs>
          <text className="bw-timeline-axis" x={16} y={axisY - 8}>
            h:min
          </text>
          <path className="bw-timeline-rule" d={`M${leftPx} ${axisY}H${rightPx}`} />
          {ticks.map(({ x, text }) => (
            <g key={text}>
              <path className="bw-timeline-rule" d={`M${x} ${axisY}v-5`} />
              <text className="bw-timeline-axis" x={x} y={axisY - 9} textAnchor="middle">
                {text}
              </text>
            </g>
          ))}
          {lanes.map(({ role, y }) => (
            <g key={role}>
              <rect className="bw-timeline-lane" x={leftPx} y={y} width={rightPx - leftPx} height={laneHeightPx} />
              <foreignObject x={4} y={y} width={leftPx - 12} height={laneHeightPx}>
                <div className="bw-timeline-role" title={role}>
                  {role}
                </div>
              </foreignObject>
            </g>
          ))}
          {limit === null || layout.endX <= limit.x + 0.5 ? null : (
            <rect
              fill={`url(#${id}-over)`}
              x={limit.x}
              y={axisY}
              width={layout.endX - limit.x}
              height={heightPx - axisY - 8}
            />
          )}
          {boxes.map(({ span, x, widthPx: boxPx, lane, text, over }) => {
            const y = lanes[lane]?.y ?? 0;
            const label = `${numberOf(span.step.id)} ${nameOf(span.step.id)}, ${clockText(span.startMin)}–${clockText(span.endMin)}`;
            return (
              <g key={span.step.id} data-step={span.step.code}>
                <title>{label}</title>
                {boxPx < 1 ? (
                  <path className="bw-timeline-moment" d={`M${x} ${y}v${laneHeightPx}`} />
                ) : (
                  <rect
                    className="bw-timeline-box"
                    data-over={over || undefined}
                    x={x}
                    y={y + 1}
                    width={boxPx}
                    height={laneHeightPx - 2}
                  />
                )}
                {text === '' ? null : (
                  <text className="bw-timeline-text" x={x + boxPx / 2} y={y + laneHeightPx / 2 + 4} textAnchor="middle">
                    {text}
                  </text>
                )}
              </g>
            );
          })}
          {limit === null ? null : (
            <g>
              <path className="bw-timeline-limit" d={`M${limit.x} 18V${heightPx - 6}`} />
              <text
                className="bw-timeline-axis bw-timeline-strong"
                x={limit.x + (limit.anchor === 'end' ? -6 : 6)}
                y={16}
                textAnchor={limit.anchor}
              >
                {limit.text}
              </text>
            </g>
          )}
        </svg>
      </div>
      <figcaption className="bw-timeline-caption">
        <b>Course of {name}</b>
        <span>
          to scale · steps one after another, those of a slot at once · what is done only if a step fails has no place
          on the clock
        </span>
      </figcaption>
    </figure>
  );
}
