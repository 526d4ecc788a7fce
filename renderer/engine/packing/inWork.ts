import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { byRevision } from '../record/byRevision.ts';
import { standingEvents } from '../record/standing.ts';
import { packState } from './packState.ts';
import type { PackState } from './packState.ts';
import { packersOf } from './standsOf.ts';

/**
 * The revision by which an outing is packed: the one that it is out with, as long as it is, else the newest that has it.
 *
 * @param revisions - of one task, in any order
 * @param events - of all of them
 * @param outing - code of the outing
 * @param fold - gives the state of an outing under a revision: `packState`, or one that keeps what it gave before
 * @returns null where no revision has the outing
 */
export function revisionInWork<R extends Pick<Revision, 'id' | 'number' | 'content'>>(
  revisions: readonly R[],
  events: readonly OutingEvent[],
  outing: string,
  fold: (revision: R, events: readonly OutingEvent[], outing: string) => Pick<PackState, 'issued'> = packState,
): R | null {
  const eventsOfEach = byRevision(events);
  const newestFirst = revisions
    .filter(({ content }) => content.result.outings.some(({ id }) => id === outing))
    .toSorted((a, b) => b.number - a.number);
  const out = newestFirst.find((revision) => {
    const own = (eventsOfEach.get(revision.id) ?? []).toSorted((a, b) => a.no - b.no);
    const isBack = standingEvents(own, outing).some(({ deed }) => deed.kind === 'return-closed');
    return !isBack && own.length > 0 && fold(revision, own, outing).issued !== null;
  });
  return out ?? newestFirst[0] ?? null;
}

/**
 * What was counted for an outing under an earlier revision and does not lie in this one yet.
 *
 * @param revisions - of one task
 * @param events - of all of them
 * @param at - the revision that is packed, and the outing
 * @returns the newest earlier revision with something counted in, if this one has nothing; else null
 */
export function countedBefore<R extends Pick<Revision, 'id' | 'number' | 'content'>>(
  revisions: readonly R[],
  events: readonly OutingEvent[],
  at: { revision: R; outing: string },
): { revision: R; state: PackState } | null {
  const { revision, outing } = at;
  if (packState(revision, eventsOf(events, revision.id), outing).totals.packed > 0) return null;
  const earlier = revisions.filter(({ number }) => number < revision.number).toSorted((a, b) => b.number - a.number);
  for (const one of earlier) {
    const own = eventsOf(events, one.id);
    if (!own.some((event) => event.outing === outing)) continue;
    const state = packState(one, own, outing);
    // What has left under it has been somewhere since.
    return state.issued === null && state.totals.packed > 0 ? { revision: one, state } : null;
  }
  return null;
}

/**
 * Names of all who counted under earlier revisions what was carried over into this one.
 *
 * @param revisions - of one task
 * @param events - of all of them
 * @param at - the revision that is packed, and the outing
 * @returns each name once
 */
export function packersBefore(
  revisions: readonly Pick<Revision, 'id' | 'content'>[],
  events: readonly OutingEvent[],
  at: { revision: string; outing: string },
): string[] {
  const names = new Set<string>();
  const seen = new Set<string>([at.revision]);
  const ask = (of: string): void => {
    for (const { deed } of standingEvents(eventsOf(events, of), at.outing)) {
      const from = deed.kind === 'carried-over' ? revisions.find(({ id }) => id === deed.from) : undefined;
      if (from === undefined || seen.has(from.id)) continue;
      seen.add(from.id);
      const { fold, bags } = packState(from, eventsOf(events, from.id), at.outing);
      for (const { id } of bags) for (const name of packersOf(fold, id)) names.add(name);
      ask(from.id);
    }
  };
  ask(at.revision);
  return [...names];
}

function eventsOf(events: readonly OutingEvent[], revision: string): OutingEvent[] {
  return events.filter((event) => event.revision === revision).toSorted((a, b) => a.no - b.no);
}
