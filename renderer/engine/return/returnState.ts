import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { standingEvents } from '../record/standing.ts';
import { isSome } from './amount.ts';
import { isReturnDeed, lineAfter, lineFault, lineThatWent } from './lineBook.ts';
import type { ReturnLine, ReturnState } from './returned.ts';
import { packedOf } from './wentOut.ts';

/**
 * What has become of everything an outing took along: folded from the events alone, so that the same events give the same
 * state wherever they are read.
 *
 * @param revision - the frozen manifest under which the outing left
 * @param events - of that revision, in any order
 * @param outing - code of the outing
 * @returns one line for each line of the manifest of which something went out, in the manifest's order
 */
export function returnState(
  revision: Pick<Revision, 'content'>,
  events: readonly OutingEvent[],
  outing: string,
): ReturnState {
  const standing = standingEvents(events, outing);
  const issue = standing.find(({ deed }) => deed.kind === 'issued');
  if (issue === undefined) return { issued: null, lines: [], lastLine: null, closed: null, faults: [] };
  const state: ReturnState = {
    issued: { no: issue.no, at: issue.at, by: issue.by },
    lines: linesThatWent(revision, events, issue),
    lastLine: null,
    closed: null,
    faults: [],
  };
  return standing.filter(({ no }) => no > issue.no).reduce(after, state);
}

function linesThatWent(
  { content }: Pick<Revision, 'content'>,
  events: readonly OutingEvent[],
  issue: OutingEvent,
): ReturnLine[] {
  // What was said of the packing after they left changes nothing of what went.
  const before = events.filter(({ no }) => no < issue.no);
  const things = new Map(content.things.map((thing) => [thing.id, thing]));
  return packedOf({ content }, before, issue.outing).flatMap(({ bag, item, lies, labels, pieces, parts }) => {
    const thing = things.get(item);
    if (thing === undefined || !isSome({ pieces, parts })) return [];
    const where = `in ${things.get(bag)?.name ?? bag}, as it left`;
    const lastSeen = { place: where, at: issue.at, by: issue.by, event: issue.no };
    return [{ ...lineThatWent({ bag, thing, out: { pieces, parts }, labels, lastSeen }), ...lies }];
  });
}

/** The state after one more event that holds. */
function after(state: ReturnState, event: OutingEvent): ReturnState {
  const { deed, no, at, by } = event;
  if (deed.kind === 'return-closed')
    return { ...state, closed: { no, at, by, reason: deed.reason ?? null, second: deed.second ?? null } };
  if (deed.kind === 'counted' || deed.kind === 'missing' || deed.kind === 'carried-over')
    return { ...state, faults: [...state.faults, { no, reason: 'the bags had left when it was packed' }] };
  if (!isReturnDeed(deed)) return state;
  const line = state.lines.find((one) => one.bag === deed.bag && one.item === deed.item);
  const reason = line === undefined ? `nothing of ${deed.item} went out in ${deed.bag}` : lineFault(line, deed);
  if (line === undefined || reason !== null)
    return { ...state, faults: [...state.faults, { no, reason: reason ?? '' }] };
  return {
    ...state,
    lines: state.lines.map((one) => (one === line ? lineAfter(line, event, deed) : one)),
    lastLine: { bag: deed.bag, item: deed.item },
  };
}

/**
 * Why a deed cannot be done as a return stands; null where it can. Asked before an event is made of it.
 *
 * @param state - as it is now
 * @param deed - what somebody is about to say
 */
export function returnFault(state: ReturnState, deed: OutingEvent['deed']): string | null {
  if (state.issued === null) return 'nothing has gone out yet';
  if (!isReturnDeed(deed)) return null;
  const line = state.lines.find((one) => one.bag === deed.bag && one.item === deed.item);
  return line === undefined ? `nothing of ${deed.item} went out in ${deed.bag}` : lineFault(line, deed);
}

/** Lines of which something is neither back nor left nor used. */
export function openLines(state: ReturnState): ReturnLine[] {
  return state.lines.filter(({ open }) => isSome(open));
}
