import { useRef } from 'react';
import type { KeyboardEvent } from 'react';
import type { FileToSave } from '../../../shared-types/host.ts';
import { PlotFigure } from '../../components/plot/PlotFigure.tsx';
import { convertValue, showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { patternLayout, patternWidthPx, positionsOf } from './patternLayout.ts';
import type { PatternData, PatternLayout } from './patternLayout.ts';
import { PatternPosition } from './PatternPosition.tsx';
import { PatternStates } from './PatternStates.tsx';
import { patternStates, positionState, statesText } from './patternStates.ts';
import { typedTorque } from './recordWords.ts';
import './pattern.css';

export interface PatternChartProps extends PatternData {
  /** "b3-flange, cycle 1" */
  title: string;
  units: UnitsShown;
  /** Who asks for the order; null where it is the callout’s own column. */
  orderFrom?: string | null;
  selected: string | null;
  onSelect: (key: string) => void;
  onSave: (file: FileToSave) => Promise<unknown>;
  onRefused: (error: unknown) => void;
}

/** More are told as a list alone. */
const drawnMost = 96;
const usualWidthPx = 420;

/** A fastener pattern with what was recorded of each position, how it was judged, and the order they were tightened in. */
export function PatternChart(props: PatternChartProps) {
  const { lines, order, orderFrom = null, pattern, title, units, selected, onSelect, onSave, onRefused } = props;
  const data = { lines, order, pattern };
  const count = positionsOf(data).length;
  const leastWidthPx = count > drawnMost ? null : patternWidthPx(data, usualWidthPx);
  const known = patternLayout(data, Math.max(640, leastWidthPx ?? 0));
  const states = patternStates(known.positions);
  if (leastWidthPx === null)
    return (
      <section className="bw-pattern-listed" aria-label={`Pattern of ${title}`}>
        <p>
          {count > drawnMost
            ? `The ${count} positions of ${title} are more than the ${drawnMost} that a chart shows side by side: they are listed.`
            : `The positions of ${title} lie too near each other to be drawn side by side: they are listed.`}
        </p>
        <PatternStates states={states} />
      </section>
    );
  const hasOrder = order.length > 0;
  return (
    <PlotFigure
      title={`Pattern of ${title}`}
      source={`${
        known.why === null
          ? `To scale by ${pattern?.from}, seen from the side of the heads; the fasteners themselves are marks.`
          : `Not to scale: a ring of the positions, for ${known.why}.`
      } ${hasOrder ? `Order asked for: ${order.join(', ')} (${orderFrom ?? 'the callout’s column “sequence”'}).` : 'The callout asks for no order.'}`}
      assumed={[]}
      onSave={onSave}
      onRefused={onRefused}
      table={{
        heads: ['Position', 'State', 'Final torque', 'Turns', 'Order asked for', 'Order recorded', 'Findings'],
        rows: known.positions.map(({ position, line, asked, recorded }) => [
          position,
          positionState(line),
          line === null ? '' : typedTorque(line.final, units),
          line?.turns ?? '',
          asked === null ? '' : String(asked),
          recorded === null ? '' : String(recorded),
          (line?.findings ?? []).map(({ rule }) => rule).join(', '),
        ]),
      }}
      leastWidthPx={leastWidthPx}
      legend={statesText(states)}
    >
      {(widthPx) => {
        const layout = patternLayout(data, widthPx);
        return (
          <>
            <Drawing
              layout={layout}
              widthPx={widthPx}
              title={title}
              units={units}
              selected={selected}
              onSelect={onSelect}
            />
            {layout.size === 'words' ? null : <PatternStates states={states} />}
          </>
        );
      }}
    </PlotFigure>
  );
}

interface DrawingProps extends Pick<PatternChartProps, 'title' | 'units' | 'selected' | 'onSelect'> {
  layout: PatternLayout;
  widthPx: number;
}

function Drawing({ layout, widthPx, title, units, selected, onSelect }: DrawingProps) {
  const { positions, scale, heightPx } = layout;
  const root = useRef<SVGSVGElement>(null);
  const drawable = positions.filter(({ line }) => line !== null);
  const stop = drawable.find(({ line }) => line?.key === selected) ?? drawable[0];
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    const marked = [...(root.current?.querySelectorAll<SVGGElement>('[role=button]') ?? [])];
    const at = marked.findIndex((one) => one === document.activeElement);
    if (at >= 0 && (event.key === 'Enter' || event.key === ' ')) {
      event.preventDefault();
      const key = marked[at]?.dataset['key'];
      if (key !== undefined) onSelect(key);
    } else if (at >= 0 && by !== undefined) {
      event.preventDefault();
      marked[(at + by + marked.length) % marked.length]?.focus();
    }
  };
  const ordered = positions.filter(({ asked }) => asked !== null).toSorted((a, b) => (a.asked ?? 0) - (b.asked ?? 0));
  const path = ordered.map(({ px, py }, at) => `${at === 0 ? 'M' : 'L'}${Math.round(px)} ${Math.round(py)}`).join('');
  return (
    <svg
      ref={root}
      className="bw-pattern"
      width={widthPx}
      height={heightPx}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      role="group"
      aria-label={`Pattern of ${title}, ${positions.length} positions`}
      onKeyDown={onKeyDown}
    >
      {path === '' ? null : <path className="bw-pattern-order" d={path} />}
      {positions.map((one) => (
        <PatternPosition
          key={one.position}
          one={one}
          units={units}
          size={layout.size}
          isSelected={one.line !== null && one.line.key === selected}
          isStop={one === stop}
          onSelect={onSelect}
        />
      ))}
      {scale === null ? (
        <text className="bw-pattern-small" x="12" y={heightPx - 8}>
          not to scale
        </text>
      ) : (
        <ScaleBar scale={scale} y={heightPx - 12} units={units} />
      )}
    </svg>
  );
}

/** A round length of about 80 px. */
function ScaleBar({ scale, y, units }: { scale: number; y: number; units: UnitsShown }) {
  const target = 80 / scale;
  const size = 10 ** Math.floor(Math.log10(target));
  const mm = ([5, 2, 1].find((step) => step * size <= target) ?? 1) * size;
  const inches = units === 'both' ? `, ${showNumber(convertValue(mm, 'mm', 'in'), 3)} in` : '';
  return (
    <g aria-hidden="true">
      <path
        className="bw-pattern-scale"
        d={`M12 ${y - 4}V${y + 4}M12 ${y}H${12 + mm * scale}M${12 + mm * scale} ${y - 4}V${y + 4}`}
      />
      <text className="bw-pattern-small" x={20 + mm * scale} y={y + 4}>
        {mm} mm{inches}
      </text>
    </g>
  );
}
