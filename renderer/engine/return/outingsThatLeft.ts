import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { standingEvents } from '../record/standing.ts';
import { returnState } from './returnState.ts';
import type { ReturnState } from './returned.ts';

/** An outing that left, under the revision that it was packed by, with what has come back of it. */
export interface OutingThatLeft {
  revision: Revision;
  outing: string;
  events: OutingEvent[];
  state: ReturnState;
}

/**
 * Every outing of a task that left, by revision and in the order in which its events name them. One that left under two
 * revisions is there twice.
 *
 * @param x - revisions of the task, and events of theirs
 * @returns with the state folded from the events
 */
export function outingsThatLeft(x: {
  revisions: readonly Revision[];
  events: readonly OutingEvent[];
}): OutingThatLeft[] {
  return x.revisions
    .toSorted((one, other) => one.number - other.number)
    .flatMap((revision) => {
      const events = x.events.filter((event) => event.revision === revision.id);
      const outings = [...new Set(events.map((event) => event.outing))];
      return outings
        .filter((outing) => standingEvents(events, outing).some(({ deed }) => deed.kind === 'issued'))
        .map((outing) => ({ revision, outing, events, state: returnState(revision, events, outing) }));
    });
}
