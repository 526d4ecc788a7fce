import { useId } from 'react';
import { useElementSize } from '@mantine/hooks';
import { pointsSeen } from '../../engine/pattern/index.ts';
import type { Pattern, PatternPoint, Turn } from '../../engine/pattern/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { DrawnDimension, DrawnText } from '../StackDrawing/Drawn.tsx';
import { dimension } from '../StackDrawing/labels.ts';
import { scaleBar } from '../StackDrawing/scaleBar.ts';
import { shownLengths } from '../StackDrawing/shownLength.ts';
import drawing from '../StackDrawing/StackDrawing.module.css';
import { PlanMarks } from './PlanMarks.tsx';
import type { PlaceDeeds } from './PlanMarks.tsx';
import { patternPlanLayout } from './patternPlanLayout.ts';
import type { PlanLayout, PlanSpot } from './patternPlanLayout.ts';
import { patternWords, writtenIn } from './patternWords.ts';
import classes from './PatternPlan.module.css';

export interface PatternPlanProps {
  /** "interface B" */
  name: string;
  pattern: Pattern;
  /** Seen from the side of the heads. */
  points: readonly PatternPoint[];
  /** Positions in the order they are tightened in; empty where none is said. */
  order: readonly string[];
  /** The worker sees it from behind: so it is drawn. */
  mirrored: boolean;
  /** Which way its fasteners tighten as the worker sees them; null where nothing is tightened. */
  turn: Turn | null;
  units: UnitsShown;
  /** Places can be moved, added and taken out. */
  deeds?: PlaceDeeds;
}

const [leastWidthPx, firstWidthPx] = [320, 520];

/** A pattern in plan, to scale: positions numbered, the order of tightening in boxes, how the worker sees it turn. */
export function PatternPlan(props: PatternPlanProps) {
  const { name, pattern, points, order, mirrored, turn, units, deeds } = props;
  const id = useId();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const widthPx = Math.max(leastWidthPx, Math.floor(width || firstWidthPx));
  const seen = pointsSeen(points, { mirrored });
  const layout = patternPlanLayout(seen, order, { widthPx, ...(deeds === undefined ? {} : { leastMm: 100 }) });
  const lengths = shownLengths(writtenIn(pattern), units);
  const words = patternWords(pattern, lengths.typed);
  const turns = new Map(order.map((position, at) => [position, at + 1]));
  const view = mirrored ? 'as the worker sees it, from behind' : 'seen from the side of the heads';
  return (
    <figure className={drawing['figure']} aria-label={`Pattern of ${name}`}>
      <div
        className={drawing['frame']}
        ref={ref}
        tabIndex={0}
        role="group"
        aria-label="Drawing, scrolls sideways where narrow"
      >
        <svg
          className={drawing['drawing']}
          width={layout.widthPx}
          height={layout.heightPx}
          viewBox={`0 0 ${layout.widthPx} ${layout.heightPx}`}
          role="group"
          aria-labelledby={`${id}-title`}
        >
          <title id={`${id}-title`}>{`Pattern of ${name}, ${points.length} positions, ${view}`}</title>
          <Middle layout={layout} />
          {pattern.kind !== 'circle' || points.length === 0 ? null : <BoltCircle layout={layout} />}
          <Dimensions layout={layout} pattern={pattern} typed={lengths.typed} />
          <PlanMarks layout={layout} order={order} mirrored={mirrored} deeds={deeds ?? null} />
          {turn === null ? null : <TurnArrow turn={turn} />}
          <ScaleBarOf layout={layout} unit={lengths.unit} />
        </svg>
      </div>
      {deeds === undefined ? null : (
        <p className={`bw-second bw-small ${classes['keys']}`}>
          A click on the field adds a place; a place is drawn to where it belongs. By keys: <kbd>←</kbd> <kbd>→</kbd> to
          the next, <kbd>Alt</kbd> with arrows moves it by 1 mm, with <kbd>Shift</kbd> by 10 mm, <kbd>Delete</kbd> takes
          it out, <kbd>+</kbd> adds one.
        </p>
      )}
      <figcaption className={`${drawing['caption']} ${classes['caption']}`}>
        <b>Pattern of {name}</b>
        <span>
          {words}, to scale, {view}; the fasteners themselves are marks.
          {order.length === 0 ? ' No order of tightening is said.' : ' In the boxes: the order of tightening.'}
        </span>
      </figcaption>
      <details className={drawing['details']}>
        <summary>As table</summary>
        <table className={drawing['table']}>
          <thead>
            <tr>
              <th scope="col">Position</th>
              <th scope="col">To the right</th>
              <th scope="col">Up</th>
              <th scope="col">Order</th>
            </tr>
          </thead>
          <tbody>
            {seen.map(({ position, xMm, yMm }) => (
              <tr key={position}>
                <th scope="row">{position}</th>
                <td>{lengths.computed(xMm)}</td>
                <td>{lengths.computed(yMm)}</td>
                <td>{turns.get(position) ?? '–'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </figure>
  );
}

function Middle({ layout: { middlePx } }: { layout: PlanLayout }) {
  const { x, y } = middlePx;
  return <path className={drawing['centre']} d={`M${x - 18} ${y}H${x + 18}M${x} ${y - 18}V${y + 18}`} aria-hidden />;
}

function BoltCircle({ layout: { spots, originPx } }: { layout: PlanLayout }) {
  const [first] = spots;
  if (first === undefined) return null;
  const radius = Math.hypot(first.px - originPx.x, first.py - originPx.y);
  return (
    <circle className={`${drawing['centre']} ${drawing['fill-none']}`} cx={originPx.x} cy={originPx.y} r={radius} />
  );
}

/** The figures that the pattern is typed with, at what they measure. */
function Dimensions(props: { layout: PlanLayout; pattern: Pattern; typed: (text: string) => string }) {
  const { layout, pattern, typed } = props;
  const { spots, originPx, markPx, heightPx } = layout;
  const [first] = spots;
  if (first === undefined || pattern.kind === 'points') return null;
  const y = heightPx - 52;
  if (pattern.kind === 'circle') {
    const radius = Math.hypot(first.px - originPx.x, first.py - originPx.y);
    const [fromPx, toPx] = [originPx.x - radius, originPx.x + radius];
    return (
      <g>
        <path className={drawing['thin']} d={`M${fromPx} ${originPx.y}V${y + 5}M${toPx} ${originPx.y}V${y + 5}`} />
        <DrawnDimension
          dimension={dimension({ fromPx, toPx, y, text: `⌀ ${typed(pattern.diameter)}`, beside: 'right' })}
        />
      </g>
    );
  }
  const next = nearestOf(spots, ({ px, py }) => (py === first.py ? Math.abs(px - first.px) : 0));
  const [left, right] = [first.px, next?.px ?? first.px].toSorted((one, other) => one - other);
  const beside = first.px > layout.middlePx.x ? 'left' : 'right';
  const x = first.px - markPx - 14;
  const below = nearestOf(spots, ({ px, py }) => (px === first.px ? py - first.py : 0));
  return (
    <g>
      {next === undefined ? null : (
        <DrawnDimension
          dimension={dimension({
            fromPx: left ?? 0,
            toPx: right ?? 0,
            y,
            text: typed(pattern.across),
            beside,
          })}
        />
      )}
      {below === undefined ? null : (
        <g data-dimension={typed(pattern.up)}>
          <path
            className={drawing['thin']}
            d={`M${x} ${first.py}V${below.py}M${x - 4} ${first.py}H${x + 4}M${x - 4} ${below.py}H${x + 4}`}
          />
          <DrawnText text={{ x: x - 6, y: (first.py + below.py) / 2 + 4, anchor: 'end', lines: [typed(pattern.up)] }} />
        </g>
      )}
    </g>
  );
}

/** The spot least far away of those that are away at all. */
function nearestOf(spots: readonly PlanSpot[], away: (spot: PlanSpot) => number): PlanSpot | undefined {
  return spots.filter((spot) => away(spot) > 0.5).toSorted((a, b) => away(a) - away(b))[0];
}

function TurnArrow({ turn }: { turn: Turn }) {
  const flip = turn === 'clockwise' ? '' : 'translate(60 0) scale(-1 1)';
  return (
    <g>
      <g transform={flip} aria-hidden="true">
        <path className={classes['arrow']} d="M18 34A13 13 0 1 1 41 36" />
        <path className={classes['head']} d="M36 34l10 1-6 8z" />
      </g>
      <DrawnText text={{ x: 62, y: 32, anchor: 'start', lines: [`tightens ${turn}`] }} />
    </g>
  );
}

function ScaleBarOf({ layout, unit }: { layout: PlanLayout; unit: 'mm' | 'in' }) {
  const bar = scaleBar({ pxPerMm: layout.pxPerMm, unit, x: 14, y: layout.heightPx - 12 });
  const half = bar.lengthPx / 2;
  return (
    <g data-scale={bar.text}>
      <rect className={drawing['scaleDark']} x={bar.x} y={bar.y - 5} width={half} height={5} />
      <rect className={drawing['scaleLight']} x={bar.x + half} y={bar.y - 5} width={half} height={5} />
      <text className={drawing['label']} x={bar.x + bar.lengthPx + 8} y={bar.y}>
        0 to {bar.text}
      </text>
    </g>
  );
}
