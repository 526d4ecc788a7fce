import { marks } from '../../components/StateMark/marks.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { oneUnit } from '../callouts/torqueWords.ts';
import type { DrawnPosition, PatternSize } from './patternLayout.ts';
import { markRadiusPx, numberText } from './patternNumbers.ts';
import { positionState } from './patternStates.ts';
import { typedTorque } from './recordWords.ts';

export interface PatternPositionProps {
  one: DrawnPosition;
  units: UnitsShown;
  size: PatternSize;
  isSelected: boolean;
  /** The one that Tab stops at. */
  isStop: boolean;
  onSelect: (key: string) => void;
}

const turnsText = (turns: string): string => (turns === '' || /[^\d.,\s]/.test(turns) ? turns : `${turns} turns`);

/** Baselines of torque, turns and order beside a mark. */
const wordsAt = [48, 62, -28];

/** A fastener of the pattern: its state by shape, and by word where there is room; whoever hears it hears all. */
export function PatternPosition(props: PatternPositionProps) {
  const { one, units, size, isSelected, isStop, onSelect } = props;
  const { position, px, py, line, asked, recorded } = one;
  const state = positionState(line);
  const torque = line === null ? '' : typedTorque(line.final, oneUnit(units));
  const turns = turnsText(line?.turns ?? '');
  const isOff = asked !== null && recorded !== null && asked !== recorded;
  const order = asked === null ? '' : `order ${asked}${recorded === null ? '' : isOff ? `, was ${recorded}` : ''}`;
  const said = [`Position ${position}`, state, torque, turns, order].filter((part) => part !== '').join(', ');
  const inner = size === 'marks' ? <SmallMark one={one} /> : <NamedMark one={one} />;
  const words =
    size !== 'words' ? null : (
      <>
        <text className="bw-pattern-state" x={px} y={py + 34} textAnchor="middle">
          {state}
        </text>
        {[torque, turns, order].map((text, at) =>
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
        {words}
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
      <title>{said}</title>
      {inner}
      {words}
    </g>
  );
}

const placeClass = ({ line }: DrawnPosition): string => (line === null ? 'bw-pattern-none' : 'bw-pattern-place');

/** Number and shape in one circle. */
function NamedMark({ one }: { one: DrawnPosition }) {
  const { position, px, py, line } = one;
  const mark = line === null ? null : marks[line.state];
  return (
    <>
      <circle className={placeClass(one)} cx={px} cy={py} r="21" />
      <text className="bw-pattern-name" x={px} y={py - 5} textAnchor="middle">
        {numberText(position)}
      </text>
      {mark === null ? null : (
        <g className="bw-pattern-mark" data-tone={mark.tone} transform={`translate(${px - mark.width / 2} ${py - 2})`}>
          {mark.shape}
        </g>
      )}
    </>
  );
}

/** Shape in a small circle, the number beside it. */
function SmallMark({ one }: { one: DrawnPosition }) {
  const { position, px, py, line, number } = one;
  const mark = line === null ? null : marks[line.state];
  const scale = 0.72;
  return (
    <>
      <circle className={placeClass(one)} cx={px} cy={py} r={markRadiusPx} />
      {mark === null ? null : (
        <g
          className="bw-pattern-mark"
          data-tone={mark.tone}
          transform={`translate(${px - (mark.width * scale) / 2} ${py - 8 * scale}) scale(${scale})`}
        >
          {mark.shape}
        </g>
      )}
      {number === null ? null : (
        <text className="bw-pattern-name" x={number.px} y={number.py + 4} textAnchor="middle">
          {numberText(position)}
        </text>
      )}
    </>
  );
}
