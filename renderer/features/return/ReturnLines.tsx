import { useEffect, useRef } from 'react';
import type { Discrepancy } from '../../../shared-types/records/revision.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { isSome, lineKey } from '../../engine/return/index.ts';
import type { PlannedThere, ReturnLine, ReturnState } from '../../engine/return/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { countOf } from '../steps/words.ts';
import { chunksOf, lineMark, lineNote } from './returnWords.ts';

export interface ReturnLinesProps {
  /** Of one bag. */
  lines: readonly ReturnLine[];
  state: ReturnState;
  bagName: string;
  plan: ResolvedPlan;
  stays: readonly PlannedThere[];
  stepNumber: (code: string) => string;
  /** Of this outing. */
  discrepancies: readonly Discrepancy[];
  onCount: (line: ReturnLine) => void;
  onOther: (line: ReturnLine) => void;
}

/** The lines of a bag: the whole row counts one piece in; what else became of it is asked beside. */
export function ReturnLines(props: ReturnLinesProps) {
  const { lines, state, bagName, plan, stays, stepNumber, discrepancies, onCount, onOther } = props;
  const next = state.closed === null ? lines.find((line) => isSome(line.open)) : undefined;
  const last = state.lastLine === null ? null : lineKey(state.lastLine);
  const shown = useRef<HTMLLIElement>(null);
  // Coming back shows the line at which it stopped.
  useEffect(() => {
    shown.current?.scrollIntoView({ block: 'nearest' });
  }, [bagName]);
  return chunksOf(lines).map(({ pocket, from, of, lines: chunk }) => (
    <section
      key={`${pocket} ${from}`}
      className="bw-return-chunk"
      aria-label={`${bagName}${pocket === null ? '' : `, pocket ${pocket}`}, lines from ${from}`}
    >
      <h2>
        <bdi>{bagName}</bdi>
        {pocket === null ? null : (
          <>
            , pocket <bdi>{pocket}</bdi>
          </>
        )}
        <span className="bw-second">
          {of > chunk.length ? `lines ${from} to ${from + chunk.length - 1} of ${of}` : countOf(of, 'line')} · scan, or
          press the line
        </span>
      </h2>
      <ul>
        {chunk.map((line) => {
          const { state: mark, text } = lineMark(line, state);
          const backPieces = line.at.filter(({ how }) => how === 'back').reduce((sum, { pieces }) => sum + pieces, 0);
          const own = discrepancies.filter((one) => one.bag === line.bag && one.item === line.item);
          const note = lineNote(line, { plan, stays, stepNumber });
          return (
            <li
              key={lineKey(line)}
              ref={lineKey(line) === last ? shown : undefined}
              className="bw-return-line"
              data-next={line === next || undefined}
              data-done={!isSome(line.open) || undefined}
            >
              <button type="button" className="bw-return-row" onClick={() => onCount(line)}>
                <StateMark state={mark} text="" size={28} />
                <span className="bw-return-what">
                  <bdi>{line.thing.name}</bdi> <span className="bw-code">{line.item}</span>
                </span>
                <span className="bw-return-pieces">
                  {backPieces} of {line.out.pieces} back
                </span>
                <span className="bw-return-word" data-state={mark}>
                  {text}
                </span>
              </button>
              <button type="button" className="bw-return-other" onClick={() => onOther(line)}>
                <span className="bw-hidden">{line.item}: </span>Otherwise…
              </button>
              <p className="bw-return-note">
                {note}
                {own.map(({ id, number, closed }) => (
                  <b key={id}>
                    {' '}
                    D-{number} {closed === undefined ? 'is open' : 'is closed'}.
                  </b>
                ))}
              </p>
            </li>
          );
        })}
      </ul>
    </section>
  ));
}
