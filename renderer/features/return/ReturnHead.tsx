import { openLines } from '../../engine/return/index.ts';
import type { ReturnState } from '../../engine/return/index.ts';
import { countOf } from '../steps/words.ts';
import { totalsOf, totalsText } from './returnWords.ts';

export interface ReturnHeadProps {
  name: string;
  task: string;
  revision: number;
  state: ReturnState;
  resumed: string | null;
  /** Address of where Leave goes. */
  leave: string;
}

/** What is counted in, how far it is, and the way out. */
export function ReturnHead({ name, task, revision, state, resumed, leave }: ReturnHeadProps) {
  const totals = totalsOf(state.lines);
  const open = openLines(state).length;
  return (
    <header className="bw-return-head">
      <a className="bw-return-leave" href={leave}>
        Leave
      </a>
      <div className="bw-return-title">
        <h1>
          Return of <bdi>{name}</bdi>
        </h1>
        <p>
          <bdi>{task}</bdi> · manifest revision {revision}
          {resumed === null ? '' : ` · ${resumed}`}
        </p>
      </div>
      <div className="bw-return-count" role="status">
        <p>
          <b>{totals.back}</b> of {countOf(totals.out, 'piece')} back
        </p>
        <p>
          {totalsText(totals)}
          {open === 0 ? '' : `, in ${countOf(open, 'line')}`}
        </p>
      </div>
    </header>
  );
}
