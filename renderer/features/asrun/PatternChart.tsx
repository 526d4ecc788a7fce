import { useRef } from 'react';
import type { KeyboardEvent } from 'react';
import type { FileToSave } from '../../../shared-types/host.ts';
import type { AsRunLine } from '../../../shared-types/inspection.ts';
import { PlotFigure } from '../../components/plot/PlotFigure.tsx';
import { marks } from '../../components/StateMark/marks.tsx';
import { convertValue, showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { patternLayout } from './patternLayout.ts';
import type { DrawnPosition, PatternData, PatternLayout } from './patternLayout.ts';
import { recordStateWords } from './RecordMark.tsx';
import { typedTorque } from './recordWords.ts';
import { oneUnit } from '../callouts/torqueWords.ts';
import './pattern.css';

export interface PatternChartProps extends PatternData {
  /** "b3-flange, cycle 1" */
  title: string;
  units: UnitsShown;
  selected: string | null;
  onSelect: (key: string) => void;
  onSave: (file: FileToSave) => Promise<unknown>;
  onRefused: (error: unknown) => void;
}

const stateOf = (line: AsRunLine | null): string => (line === null ? 'No record' : recordStateWords(line));

const turnsText = (turns: string): string => (turns === '' || /[^\d.,\s]/.test(turns) ? turns : `${turns} turns`);

/** More stand over each other. */
const drawnMost = 24;

/** A fastener pattern with what was recorded of each position, how it was judged, and the order they were tightened in. */
export function PatternChart(props: PatternChartProps) {
  const { lines, order, pattern, title, units, selected, onSelect, onSave, onRefused } = props;
  const count = new Set([...order, ...lines.map(({ position }) => position)]).size;
  if (count > drawnMost)
    return (
      <p className="bw-second">
        The {count} positions of {title} are more than a chart can show side by side; the table has them all.
      </p>
    );
  const known = patternLayout({ lines, order, pattern }, 640);
  const hasOrder = order.length > 0;
  return (
    <PlotFigure
      title={`Pattern of ${title}`}
      source={`${
        known.why === null
          ? 'To scale, seen from the side of the heads; the fasteners themselves are marks.'
          : `Not to scale: a ring of the positions, for ${known.why}.`
      } ${hasOrder ? `Order asked for: ${order.join(', ')} (the callout’s column “sequence”).` : 'The callout asks for no order.'}`}
      assumed={[]}
      onSave={onSave}
      onRefused={onRefused}
      table={{
        heads: ['Position', 'State', 'Final torque', 'Turns', 'Order asked for', 'Order recorded', 'Findings'],
        rows: known.positions.map(({ position, line, asked, recorded }) => [
          position,
          stateOf(line),
          line === null ? '' : typedTorque(line.final, units),
          line?.turns ?? '',
          asked === null ? '' : String(asked),
          recorded === null ? '' : String(recorded),
          (line?.findings ?? []).map(({ rule }) => rule).join(', '),
        ]),
      }}
      leastWidthPx={420}
    >
      {(widthPx) => (
        <Drawing
          layout={patternLayout({ lines, order, pattern }, widthPx)}
          widthPx={widthPx}
          title={title}
          units={units}
          selected={selected}
          onSelect={onSelect}
        />
      )}
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
        <Position
          key={one.position}
          one={one}
          units={units}
          isDense={layout.isDense}
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

function Position(props: {
  one: DrawnPosition;
  units: UnitsShown;
  isDense: boolean;
  isSelected: boolean;
  isStop: boolean;
  onSelect: (key: string) => void;
}) {
  const { one, units, isDense, isSelected, isStop, onSelect } = props;
  const { position, px, py, line, asked, recorded } = one;
  const state = stateOf(line);
  const torque = line === null ? '' : typedTorque(line.final, oneUnit(units));
  const turns = turnsText(line?.turns ?? '');
  const isOff = asked !== null && recorded !== null && asked !== recorded;
  const order = asked === null ? '' : `order ${asked}${recorded === null ? '' : isOff ? `, was ${recorded}` : ''}`;
  const said = [`Position ${position}`, state, torque, turns, order].filter((part) => part !== '').join(', ');
  const mark = line === null ? null : marks[line.state];
  const words = isDense ? [] : [torque, turns, order];
  const wordsAt = [48, 62, -28];
  const inner = (
    <>
      <circle className={line === null ? 'bw-pattern-none' : 'bw-pattern-place'} cx={px} cy={py} r="21" />
      <text className="bw-pattern-name" x={px} y={py - 5} textAnchor="middle">
        {position.length > 6 ? `${position.slice(0, 5)}…` : position}
      </text>
      {mark === null ? null : (
        <g className="bw-pattern-mark" data-tone={mark.tone} transform={`translate(${px - mark.width / 2} ${py - 2})`}>
          {mark.shape}
        </g>
      )}
      <text className="bw-pattern-state" x={px} y={py + 34} textAnchor="middle">
        {isDense && line?.state === 'conforming' && !line.reopened ? '' : stateOf(line)}
      </text>
      {words.map((text, at) =>
        text === '' ? null : (
          <text key={at} className="bw-pattern-small" x={px} y={py + (wordsAt[at] ?? 0)} textAnchor="middle">
            {text}
          </text>
        ),
      )}
    </>
  );
  if (line === null)
    return (
      <g role="img" aria-label={said}>
        {inner}
      </g>
    );
  return (
    <g
      role="button"
      className="bw-pattern-button"
      tabIndex={isStop ? 0 : -1}
      aria-label={said}
      aria-pressed={isSelected}
      data-key={line.key}
      onClick={() => onSelect(line.key)}
    >
      {inner}
    </g>
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
