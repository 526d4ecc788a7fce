import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { positionsText } from './patternStates.ts';
import type { PatternState } from './patternStates.ts';

/** The states of a pattern by word and shape, each with its positions, where they do not stand beside the marks themselves. */
export function PatternStates({ states }: { states: readonly PatternState[] }) {
  return (
    <ul className="bw-pattern-states">
      {states.map(({ state, words, positions }) => (
        <li key={words}>
          {state === null ? (
            <span className="bw-pattern-empty">{words}</span>
          ) : (
            <StateMark state={state} text={words} />
          )}{' '}
          <span className="bw-second">
            {positions.length}: {positionsText(positions)}
          </span>
        </li>
      ))}
    </ul>
  );
}
