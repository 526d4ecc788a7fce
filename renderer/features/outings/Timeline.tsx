import { useId, useMemo } from 'react';
import { useElementSize } from '@mantine/hooks';
import type { CourseProblem } from '../../../shared-types/outing.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { textWidthPx } from '../../components/StackDrawing/labels.ts';
import { countOf } from '../steps/words.ts';
import { problemMarks, rowText } from './courseWords.ts';
import type { FollowedLine } from './followedLines.ts';
import { PlaceLines } from './PlaceLines.tsx';
import { placeLayout } from './placeLayout.ts';
import { markText, problemMarksLayout } from './problemMarksLayout.ts';
import type { Schedule } from './schedule.ts';
import { StepLanes } from './StepLanes.tsx';
import { axisY, timelineLayout } from './timelineLayout.ts';
import { TimelineNames } from './TimelineNames.tsx';
import './outings.css';

export interface TimelineProps {
  name: string;
  schedule: Schedule;
  roles: readonly string[];
  minutesMax: number | null;
  /** The latest minute at which the way home still fits. */
  turnMin: number | null;
  /** At the scale of others beside it: so many minutes have room on the axis. Null where it has a scale of its own. */
  sharedMin: number | null;
  plan: ResolvedPlan;
  /** Pieces whose way is drawn. */
  lines: readonly FollowedLine[];
  labelOf: (line: FollowedLine) => string;
  problems: readonly CourseProblem[];
  /** Key of the list of problems, where each is said. */
  problemsId: string;
  numberOf: (id: string) => number;
  nameOf: (id: string) => string;
  stepCalled: (code: string) => string;
}

const firstWidthPx = 720;
const marksPx = 40;
const headPx = 28;
const rowNameMostPx = 170;

/** The outing by the clock: above, each role a lane and each step as long as it takes; below, where things lie. */
export function Timeline(props: TimelineProps) {
  const { name, schedule, roles, minutesMax, turnMin, sharedMin, plan } = props;
  const { lines, labelOf, problems, problemsId } = props;
  const { numberOf, nameOf, stepCalled } = props;
  const id = useId();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const drawing = useMemo(() => {
    const rowNames = lines.flatMap(({ stays }) => stays.map(({ where }) => rowText(plan, where)));
    const clock = timelineLayout({
      ...{ schedule, roles, minutesMax, turnMin, minutesLeast: sharedMin ?? 0, numberOf, nameOf },
      // As wide as names may be, so that the axes of all begin beneath each other.
      leftLeastPx:
        sharedMin === null
          ? Math.max(72, ...rowNames.map((text) => Math.min(rowNameMostPx, textWidthPx(text, 13) + 12)))
          : Infinity,
      widthPx: Math.max(320, Math.floor(width || firstWidthPx) - 2),
    });
    const { leftPx, rightPx, at } = clock;
    const marksY = clock.heightPx - 6;
    const marks = problemMarksLayout(problems, schedule, { at, leftPx });
    const topPx = marksY + (marks.length > 0 ? marksPx : 0) + headPx;
    const places = placeLayout({ lines, topPx, leftPx, rightPx, at, labelOf });
    const heightPx =
      lines.length === 0 ? (marks.length > 0 ? marksY + marksPx : clock.heightPx) : topPx + places.heightPx + 12;
    const widthPx = Math.max(clock.widthPx, ...marks.map((mark) => mark.markX + 40 + textWidthPx(markText(mark), 12)));
    return { clock, marks, marksY, topPx, places, heightPx, widthPx };
  }, [schedule, roles, minutesMax, turnMin, sharedMin, numberOf, nameOf, width, lines, labelOf, plan, problems]);
  const { clock, marks, marksY, topPx, places, heightPx, widthPx } = drawing;
  const { leftPx, rightPx } = clock;
  const said = clock.lanes.map(
    ({ role, steps, minutes }) => `${role}: ${countOf(steps, 'step')}, ${showNumber(minutes)} min`,
  );
  const ways = places.drawn.map(
    ({ line }) => `${labelOf(line)}: ${line.stays.map(({ where }) => rowText(plan, where)).join(', then ')}`,
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
        <div className="bw-timeline-field" style={{ width: widthPx, height: heightPx }}>
          <TimelineNames
            plan={plan}
            clock={clock}
            places={lines.length === 0 ? null : places}
            topPx={topPx}
            heightPx={heightPx}
          />
          <svg
            width={widthPx}
            height={heightPx}
            viewBox={`0 0 ${widthPx} ${heightPx}`}
            role="img"
            aria-labelledby={`${id}-title ${id}-desc`}
          >
            <title id={`${id}-title`}>{`${name} by the clock, to scale: ${showNumber(schedule.endMin)} min out`}</title>
            <desc id={`${id}-desc`}>
              {[
                ...said,
                ...(minutesMax === null ? [] : [`limit ${showNumber(minutesMax)} min`]),
                ...(clock.turn === null ? [] : [clock.turn.text]),
                ...ways,
              ].join('; ')}
            </desc>
            {marks.map(({ step, x, band }) =>
              band === null ? null : (
                <rect
                  key={step ?? ''}
                  className="bw-timeline-clash"
                  x={x}
                  y={axisY}
                  width={band.widthPx}
                  height={heightPx - axisY - 8}
                />
              ),
            )}
            {marks.map(({ step, x, markX }) => (
              <path
                key={step ?? ''}
                className="bw-timeline-arises"
                d={`M${x} ${axisY + 18}V${marksY + 6}L${markX} ${marksY + 10}`}
              />
            ))}
            <StepLanes layout={clock} numberOf={numberOf} nameOf={nameOf} hatchId={`${id}-over`} bottomPx={marksY} />
            {lines.length === 0 ? null : (
              <PlaceLines
                layout={places}
                topPx={topPx}
                leftPx={leftPx}
                rightPx={rightPx}
                marked={marks.map(({ x }) => x)}
              />
            )}
            {clock.limit === null ? null : (
              <path className="bw-timeline-limit" d={`M${clock.limit.x} 18V${heightPx - 6}`} />
            )}
            {clock.turn === null ? null : (
              <path className="bw-timeline-turn" d={`M${clock.turn.x} 34V${heightPx - 6}`} />
            )}
          </svg>
          {marks.map(({ step, markX, problems: own }) => {
            const [first] = own;
            if (first === undefined) return null;
            const words = markText({ problems: own });
            const where = step === null ? 'the outing as a whole' : stepCalled(step).replace(/,$/, '');
            return (
              <a
                key={step ?? ''}
                className="bw-timeline-mark"
                href={`#${problemsId}-${first.number}`}
                style={{ left: markX - 2, top: marksY + 6, scrollMarginLeft: leftPx + 8 }}
                aria-label={`${countOf(own.length, 'problem')} at ${where}: number ${words}`}
                onClick={(event) => {
                  // The window's own address says which sheet is shown: the mark moves the focus, not the address.
                  event.preventDefault();
                  document.getElementById(`${problemsId}-${first.number}`)?.focus();
                }}
              >
                <StateMark state={problemMarks[first.problem.rule]} text={words} size={14} />
              </a>
            );
          })}
        </div>
      </div>
      <figcaption className="bw-timeline-caption">
        <b>Course of {name}</b>
        <span>
          to scale · steps one after another, those of a slot at once · what is done only if a step fails has no place
          on the clock
          {clock.boxes.some(({ safe }) => safe) ? ' · double edge: may be left after this step' : ''}
          {lines.length === 0 ? '' : ' · below, a line is what lies together: its row says where'}
        </span>
      </figcaption>
    </figure>
  );
}
