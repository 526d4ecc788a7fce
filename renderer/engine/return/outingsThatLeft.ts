import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { byRevision } from '../record/byRevision.ts';
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
 * @param fold - gives the state of an outing under a revision: `returnState`, or one that keeps what it gave before
 * @returns with the state folded from the events
 */
export function outingsThatLeft(
  x: { revisions: readonly Revision[]; events: readonly OutingEvent[] },
  fold: typeof returnState = returnState,
): OutingThatLeft[] {
  const eventsOf = byRevision(x.events);
  return x.revisions
    .toSorted((one, other) => one.number - other.number)
    .flatMap((revision) => {
      const events = eventsOf.get(revision.id) ?? [];
      const outings = [...new Set(events.map((event) => event.outing))];
      return outings
        .filter((outing) => standingEvents(events, outing).some(({ deed }) => deed.kind === 'issued'))
        .map((outing) => ({ revision, outing, events, state: fold(revision, events, outing) }));
    });
}
