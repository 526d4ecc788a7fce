import type { FrozenThing } from '../../../shared-types/records/revision.ts';
import { openLines } from '../../engine/return/index.ts';
import type { ReturnState } from '../../engine/return/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';

export interface ReturnBagsProps {
  /** Codes, in the manifest's order. */
  bags: readonly string[];
  state: ReturnState;
  things: readonly FrozenThing[];
  inHand: string | null;
  onBag: (bag: string) => void;
}

/** The bags as they left, each with how many of its lines are open. */
export function ReturnBags({ bags, state, things, inHand, onBag }: ReturnBagsProps) {
  const open = openLines(state);
  return (
    <ul className="bw-return-bags" aria-label="Bags">
      {bags.map((bag) => {
        const lines = state.lines.filter((line) => line.bag === bag).length;
        const left = open.filter((line) => line.bag === bag).length;
        return (
          <li key={bag}>
            <button type="button" aria-pressed={bag === inHand} onClick={() => onBag(bag)}>
              <bdi>{things.find(({ id }) => id === bag)?.name ?? bag}</bdi>
              <span className="bw-code">{bag}</span>
              <StateMark
                state={left === 0 ? 'back' : state.closed === null ? 'out' : 'missing'}
                text={left === 0 ? 'None open' : `${left} of ${lines} open`}
              />
            </button>
          </li>
        );
      })}
    </ul>
  );
}
