import type { ReactNode } from 'react';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { PackedLine } from '../../engine/packing/index.ts';
import { countWords, lineMark, noteWords } from './packWords.ts';

export interface LineRowProps {
  line: PackedLine;
  isNext: boolean;
  gloved: boolean;
  /** More words about it, as what is known of earlier outings. */
  words: readonly string[];
  /** One piece more. */
  onPress: () => void;
  /** All that are open; absent where that is one press too. */
  onAll: (() => void) | undefined;
  /** What can be done about it beside counting. */
  children?: ReactNode;
}

/** A line of the bag: the whole row counts one piece, and the gap beneath says what is known of it. */
export function LineRow({ line, isNext, gloved, words, onPress, onAll, children }: LineRowProps) {
  const { mark, word } = lineMark(line, isNext);
  const { id, name } = line.thing;
  return (
    <li className="bw-pack-line" data-line={`${line.line.bag} ${id}`}>
      <div className="bw-pack-rows">
        <button
          type="button"
          className="bw-pack-row"
          data-state={mark}
          aria-current={isNext ? 'step' : undefined}
          onClick={onPress}
        >
          <span className="bw-pack-thing">
            <b>
              <bdi>{name}</bdi>
            </b>
            {name === id ? null : <span className="bw-code">{id}</span>}
          </span>
          <span className="bw-pack-count">{countWords(line)}</span>
          <span className="bw-pack-word">
            <StateMark state={mark} text={word} size={gloved ? 32 : 20} />
          </span>
        </button>
        {onAll === undefined ? null : (
          <button type="button" className="bw-pack-all" onClick={onAll}>
            All {line.open.pieces}
            <span className="bw-hidden"> of {name}</span>
          </button>
        )}
      </div>
      <div className="bw-pack-note">
        <p>
          {[...words, ...noteWords(line)].map((said) => (
            <span key={said}>
              <bdi>{said}</bdi>.{' '}
            </span>
          ))}
        </p>
        {children}
      </div>
    </li>
  );
}
