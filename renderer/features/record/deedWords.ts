import type { Deed, OutingEvent, RevisionContent } from '../../../shared-types/records/revision.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { amountText, placeName } from '../../engine/return/index.ts';

/** What things, bags, places and outings are called where an event is said in words. */
export interface Called {
  content: RevisionContent;
  plan: ResolvedPlan | null;
}

/** "T-07 Tool tether"; a thing that is called by its code is said once. */
export function thingText({ content }: Called, code: string): string {
  const name = content.things.find(({ id }) => id === code)?.name ?? code;
  return name === code || name === '' ? code : `${code} ${name}`;
}

export function outingText({ plan }: Called, code: string): string {
  return plan?.outings.find(({ id }) => id === code)?.name ?? code;
}

function amountOf({ content }: Called, deed: { item: string; pieces: number; parts: number }): string {
  return amountText(deed, content.things.find(({ id }) => id === deed.item)?.parts ?? 1);
}

/** An event's deed as a sentence without its end: what was counted, where, and why. */
export function deedText(deed: Deed, called: Called): string {
  const thing = (code: string): string => thingText(called, code);
  const where = (place: string): string => placeName(place, called.plan);
  switch (deed.kind) {
    case 'counted':
      return `Packed ${amountOf(called, deed)} of ${thing(deed.item)} into ${thing(deed.bag)}${deed.label === undefined ? '' : `, by label ${deed.label}`}`;
    case 'missing':
      return `${amountOf(called, deed)} of ${thing(deed.item)} missing for ${thing(deed.bag)}: ${deed.reason}`;
    case 'taken-back':
      return `Took back event ${deed.of}${deed.reason === undefined ? '' : `: ${deed.reason}`}`;
    case 'bag-closed':
      return `Closed ${thing(deed.bag)}${reasonText(deed)}`;
    case 'bag-opened':
      return `Opened ${thing(deed.bag)} again: ${deed.reason}`;
    case 'second-count':
      return `Counted ${thing(deed.bag)} a second time, ${deed.way === 'blind' ? 'without its numbers' : 'in another order'}: ${deed.counts.map((one) => `${one.item} ${amountOf(called, one)}`).join('; ')}`;
    case 'issued':
      return `The bags left${deed.words === undefined ? '' : `: ${deed.words}`}`;
    case 'carried-over':
      return `Carried over what was packed under an earlier revision: ${deed.counts.map((one) => `${one.item} ${amountOf(called, one)} in ${one.bag}`).join('; ')}`;
    case 'back':
      return `Counted in ${amountOf(called, deed)} of ${thing(deed.item)} at ${where(deed.place)}${deed.label === undefined ? '' : `, by label ${deed.label}`}`;
    case 'left':
      return `Left ${amountOf(called, deed)} of ${thing(deed.item)} at ${where(deed.place)} on purpose`;
    case 'used':
      return `Used ${amountOf(called, deed)} of ${thing(deed.item)}${deed.place === undefined ? '' : ` at ${where(deed.place)}`}`;
    case 'seen':
      return `Saw ${thing(deed.item)}, ${where(deed.place)}${deed.words === undefined ? '' : `: ${deed.words}`}`;
    case 'return-closed':
      return `Closed the return${reasonText(deed)}`;
    case 'remark':
      return `Remark${deed.item === undefined ? '' : ` on ${thing(deed.item)}`}: ${deed.words}`;
  }
}

function reasonText({
  reason,
  second,
}: {
  reason?: string | undefined;
  second?: { name: string; role: string } | undefined;
}): string {
  const by = second === undefined ? '' : `, with ${second.name}, ${second.role}`;
  return `${reason === undefined ? '' : `: ${reason}`}${by}`;
}

/** Numbers of events whose clock stood earlier than that of the event before: said, and never mended. */
export function clockWentBack(events: readonly Pick<OutingEvent, 'no' | 'at'>[]): Set<number> {
  const back = new Set<number>();
  for (const [at, event] of events.entries()) {
    const before = events[at - 1];
    if (before !== undefined && Date.parse(event.at) < Date.parse(before.at)) back.add(event.no);
  }
  return back;
}
