import type { Deed, DeedOf, FrozenThing, OutingEvent } from '../../../shared-types/records/revision.ts';
import { amountText, isOne, isSome, less, nothing, added } from './amount.ts';
import type { Amount } from './amount.ts';
import { shop } from './returned.ts';
import type { AtPlace, ReturnLine, Sighting } from './returned.ts';

type Counting = DeedOf<'back'> | DeedOf<'left'> | DeedOf<'used'>;

/** What the deeds of a return are about. */
export type ReturnDeed = Counting | DeedOf<'seen'>;

/** Whether a deed says something of a line's return. */
export function isReturnDeed(deed: Deed): deed is ReturnDeed {
  return deed.kind === 'back' || deed.kind === 'left' || deed.kind === 'used' || deed.kind === 'seen';
}

/**
 * Where some of a line may be taken from, in the order in which it is taken. Nothing is counted twice: what comes to the shop
 * is first taken for what was counted in on the way. From the shop nothing goes anywhere, and what lies somewhere on purpose
 * stays there until that is taken back.
 */
function sources(deed: Counting, line: ReturnLine): (AtPlace | 'open')[] {
  const onTheWay = line.at.filter(({ how, place }) => how === 'back' && place !== shop && place !== deed.place);
  const here = (how: AtPlace['how']): AtPlace[] => line.at.filter((at) => at.how === how && at.place === deed.place);
  switch (deed.kind) {
    case 'back':
      return deed.place === shop ? [...onTheWay, 'open'] : ['open', ...onTheWay];
    case 'left':
      return [...(deed.place === shop ? [] : here('back')), 'open', ...onTheWay];
    case 'used':
      return [...(deed.place === undefined ? [] : here('left')), 'open'];
  }
}

/** A line before anything of it has come back. */
export function lineThatWent(x: {
  bag: string;
  thing: FrozenThing;
  out: Amount;
  labels: string[];
  lastSeen: Sighting;
}): ReturnLine {
  const { thing, out } = x;
  return { ...x, item: thing.id, labelsBack: new Map(), at: [], used: nothing, open: out };
}

/**
 * Why a deed cannot be done on a line as it is; null where it can.
 *
 * @param line - as it is
 * @param deed - what is said of it
 */
export function lineFault(line: ReturnLine, deed: ReturnDeed): string | null {
  if (deed.kind === 'seen') return null;
  const { thing } = line;
  if (!isSome(deed)) return 'it counts nothing';
  if (deed.parts > deed.pieces * thing.parts && deed.pieces > 0)
    return `${amountText({ pieces: deed.pieces, parts: deed.pieces * thing.parts }, thing.parts)} of ${thing.id} cannot have ${deed.parts} parts`;
  if (deed.kind === 'used' && thing.consumed !== true)
    return `${thing.id} is nothing that is used up: it comes back, stays somewhere, or is missing`;
  const label = deed.kind === 'back' ? deed.label : undefined;
  if (label !== undefined && line.labelsBack.get(label) === deed.place)
    return `label ${label} is counted in there already`;
  const free = sources(deed, line).reduce((sum, from) => added(sum, from === 'open' ? line.open : from), nothing);
  if (deed.pieces <= free.pieces && deed.parts <= free.parts) return null;
  return `${amountText(deed, thing.parts)} of ${thing.id} ${isOne(deed) ? 'is' : 'are'} more than ${isSome(free) ? `the ${amountText(free, thing.parts)} still to be accounted for` : 'went out: all of it is accounted for'}`;
}

/**
 * The line after a deed that can be done on it.
 *
 * @param line - before; it is not changed
 * @param event - the deed with who and when
 */
export function lineAfter(line: ReturnLine, event: OutingEvent, deed: ReturnDeed): ReturnLine {
  if (deed.kind === 'seen')
    return { ...line, lastSeen: { place: deed.place, at: event.at, by: event.by, event: event.no } };
  let wanted: Amount = { pieces: deed.pieces, parts: deed.parts };
  const taken = new Map<AtPlace | 'open', Amount>();
  for (const from of sources(deed, line)) {
    const held = from === 'open' ? line.open : from;
    const part = { pieces: Math.min(held.pieces, wanted.pieces), parts: Math.min(held.parts, wanted.parts) };
    taken.set(from, part);
    wanted = less(wanted, part);
  }
  const at = line.at.map((one) => ({ ...one, ...less(one, taken.get(one) ?? nothing) })).filter((one) => isSome(one));
  const open = less(line.open, taken.get('open') ?? nothing);
  if (deed.kind === 'used') return { ...line, at, open, used: added(line.used, deed) };
  const labelsBack = new Map(line.labelsBack);
  if (deed.kind === 'back' && deed.label !== undefined) labelsBack.set(deed.label, deed.place);
  return { ...line, at: arrived(at, deed, event.no), open, labelsBack };
}

function arrived(at: AtPlace[], deed: DeedOf<'back'> | DeedOf<'left'>, no: number): AtPlace[] {
  const { kind: how, place, pieces, parts } = deed;
  const there = at.find((one) => one.how === how && one.place === place);
  if (there === undefined) return [...at, { how, place, pieces, parts, events: [no] }];
  return at.map((one) => (one === there ? { ...one, ...added(one, deed), events: [...one.events, no] } : one));
}
