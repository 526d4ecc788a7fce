import type { OutingEvent } from '../../../shared-types/records/revision.ts';

/**
 * Events of many revisions, those of each by themselves, in one go through them.
 *
 * @param events - in any order
 * @returns events by the key of their revision, in the order given
 */
export function byRevision(events: readonly OutingEvent[]): Map<string, OutingEvent[]> {
  const found = new Map<string, OutingEvent[]>();
  for (const event of events) {
    const own = found.get(event.revision);
    if (own === undefined) found.set(event.revision, [event]);
    else own.push(event);
  }
  return found;
}
