import type { Revision } from '../../../shared-types/records/revision.ts';
import type { Place } from '../../store/place.ts';
import { spoken } from '../manifest/pageFurniture.ts';

/** The task as it stands, where the number of a revision would be. */
export const openNumber = 'open';

/** Day, clock and offset from UTC, as the clock claimed. */
export const whenText = spoken;

/** "Revision 2"; what is not frozen is the task as it stands. */
export function calledText(one: Pick<Revision, 'number'> | null): string {
  return one === null ? 'The task as it stands' : `Revision ${one.number}`;
}

/**
 * What the one in hand is held against where nobody says: the one before it, of the first the task as it stands, of that the newest.
 *
 * @param asked - number as the address has it
 * @returns a revision, or null for the task as it stands
 */
export function heldAgainst(
  revisions: readonly Revision[],
  inHand: Revision | null,
  asked: string | undefined,
): Revision | null {
  const named = revisions.find(({ number }) => String(number) === asked);
  if (named !== undefined && named !== inHand) return named;
  if (asked === openNumber && inHand !== null) return null;
  if (inHand === null) return revisions.at(-1) ?? null;
  return revisions.findLast(({ number }) => number < inHand.number) ?? null;
}

/** SHA-256 in eight groups, to be read out. */
export function groupedHash(hash: string): string {
  return hash.replaceAll(/(.{8})(?=.)/g, '$1 ');
}

/** As the foot of the window names it: the one that is shown, else the newest. */
export function revisionText(revisions: readonly Pick<Revision, 'number'>[], place: Place): string {
  if (
    (place.at === 'frozen' || place.at === 'revisions') &&
    revisions.some(({ number }) => String(number) === place.number)
  )
    return String(place.number);
  const newest = revisions.at(-1);
  return newest === undefined ? 'not frozen' : `newest ${newest.number}`;
}
