import type { Deed } from '../../../shared-types/records/revision.ts';
import { standingEvents } from '../../engine/record/standing.ts';
import type { OutingThatLeft, ReturnLine } from '../../engine/return/index.ts';

const ofReturn: ReadonlySet<Deed['kind']> = new Set(['back', 'left', 'used', 'seen']);

/** The last thing that was said of a line's return and still holds; null where nothing was. */
export function lastOf(
  { events, outing }: Pick<OutingThatLeft, 'events' | 'outing'>,
  line: Pick<ReturnLine, 'bag' | 'item'>,
  wordsOf: (deed: Deed) => string,
): { no: number; words: string } | null {
  const last = standingEvents(events, outing).findLast(
    ({ deed }) =>
      ofReturn.has(deed.kind) && 'item' in deed && 'bag' in deed && deed.bag === line.bag && deed.item === line.item,
  );
  return last === undefined ? null : { no: last.no, words: `event ${last.no}, ${lowered(wordsOf(last.deed))}` };
}

function lowered(words: string): string {
  return words.replace(/^./, (letter) => letter.toLowerCase());
}
