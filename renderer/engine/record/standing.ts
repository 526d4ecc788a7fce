import type { OutingEvent } from '../../../shared-types/records/revision.ts';

/**
 * The events of one outing that hold, in their order: those that no later one takes back. A taking back is never taken back
 * itself: what was counted once and taken back is counted again by an event of its own.
 *
 * @param events - of one revision, in any order; events of other outings are passed over
 * @param outing - code of the outing
 * @returns those that hold, by number; takings back are not among them
 */
export function standingEvents(events: readonly OutingEvent[], outing: string): OutingEvent[] {
  const own = events.filter((event) => event.outing === outing).toSorted((one, other) => one.no - other.no);
  const takenBack = new Set(
    own.flatMap(({ no, deed }) => (deed.kind === 'taken-back' && deed.of < no ? [deed.of] : [])),
  );
  return own.filter(({ no, deed }) => deed.kind !== 'taken-back' && !takenBack.has(no));
}
