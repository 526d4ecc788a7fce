import type { Discrepancy } from '../../../shared-types/records/revision.ts';
import { isSome, less, nothing, added } from './amount.ts';
import { openLines } from './returnState.ts';
import { lineKey } from './returned.ts';
import type { ReturnLine, ReturnState, Sighting } from './returned.ts';

/** A discrepancy as it would be opened. */
export interface DiscrepancyDraft {
  bag: string;
  item: string;
  name: string;
  pieces: number;
  parts: number;
  lastSeen: Discrepancy['lastSeen'];
  /** Who said so. */
  seenBy: Sighting['by'];
}

/**
 * What has to have a discrepancy when a return is closed: whatever is open and has none yet. One that was closed as found,
 * spent or left there has its event, which lessens what is open; any other still stands for its pieces.
 *
 * @param state - the return as it stands
 * @param existing - discrepancies of the same revision and outing, open and closed
 * @returns one for each line, in the manifest's order
 */
export function discrepanciesOf(
  state: ReturnState,
  existing: readonly Pick<Discrepancy, 'bag' | 'item' | 'pieces' | 'parts' | 'closed'>[],
): DiscrepancyDraft[] {
  const named = new Map<string, { pieces: number; parts: number }>();
  for (const one of existing.filter(standsForPieces)) {
    const key = lineKey(one);
    named.set(key, added(named.get(key) ?? nothing, one));
  }
  return openLines(state).flatMap((line) => {
    const left = less(line.open, named.get(lineKey(line)) ?? nothing);
    return isSome(left) ? [draftOf(line, left)] : [];
  });
}

/** Whether the pieces it names are still among what is open. */
function standsForPieces({ closed }: Pick<Discrepancy, 'closed'>): boolean {
  return closed === undefined || closed.how === 'lost' || closed.how === 'miscounted';
}

function draftOf(line: ReturnLine, { pieces, parts }: { pieces: number; parts: number }): DiscrepancyDraft {
  const { place, at, by, event } = line.lastSeen;
  return {
    ...{ bag: line.bag, item: line.item, name: line.thing.name, pieces, parts },
    lastSeen: { place, at, event },
    seenBy: by,
  };
}
