/** How a revision and what was done with it are chained, so that one changed byte is found with its number. */
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { OutingEvent, Revision, RevisionContent } from '../../../shared-types/records/revision.ts';

/** SHA-256 of a text's UTF-8, in 64 lower-case digits; the engine has none of its own. */
export type Digest = (text: string) => Promise<string>;

/** An event before it is chained. */
export type EventDraft = Pick<OutingEvent, 'id' | 'at' | 'by' | 'outing' | 'deed'>;

/** Where the chain is broken, and why. `no` is 0 for the revision itself. */
export interface ChainFault {
  no: number;
  reason: string;
}

/**
 * Hash of a frozen manifest's content.
 *
 *   SHA-256 of the content's canonical JSON (RFC 8785)
 *
 * @param content - plan, bag, things and lines as they were frozen
 * @param digest - SHA-256
 * @returns 64 hexadecimal digits
 */
export function contentHash(content: RevisionContent, digest: Digest): Promise<string> {
  return digest(canonicalJson(content));
}

/**
 * Hash of one event: of everything in it but itself and the count of its changes, so that it names the event before it too.
 *
 *   SHA-256 of the canonical JSON (RFC 8785) of the event without `hash` and `rev`
 *
 * @param event - as it is or shall be kept
 * @param digest - SHA-256
 * @returns 64 hexadecimal digits
 */
export function eventHash(event: Omit<OutingEvent, 'hash' | 'rev'>, digest: Digest): Promise<string> {
  const { id, revision, no, at, by, outing, deed, prev } = event;
  return digest(canonicalJson({ id, revision, no, at, by, outing, deed, prev }));
}

/**
 * Events with their numbers and hashes, in the order given, behind what is there already.
 *
 * @param revision - the manifest they belong to
 * @param last - the last event of it, or null before the first
 * @param drafts - what was done, oldest first
 * @param digest - SHA-256
 * @returns the events as they are to be kept
 */
export async function chained(
  revision: Pick<Revision, 'id' | 'hash'>,
  last: Pick<OutingEvent, 'no' | 'hash'> | null,
  drafts: readonly EventDraft[],
  digest: Digest,
): Promise<OutingEvent[]> {
  const events: OutingEvent[] = [];
  let { no, hash: prev } = last ?? { no: 0, hash: revision.hash };
  for (const draft of drafts) {
    no += 1;
    const body = { ...draft, revision: revision.id, no, prev };
    prev = await eventHash(body, digest);
    events.push({ ...body, rev: 0, hash: prev });
  }
  return events;
}

/**
 * Looks a revision and its events through from the first byte: content, numbers, chain.
 *
 * @param revision - as it is kept or was read from a file
 * @param events - all of its events, in any order
 * @param digest - SHA-256
 * @param head - hash of the last event as it was printed or told elsewhere: only by it is a cut end found
 * @returns the first fault, or null where all of it holds
 */
export async function chainFault(
  revision: Pick<Revision, 'id' | 'hash' | 'content'>,
  events: readonly OutingEvent[],
  digest: Digest,
  head?: string,
): Promise<ChainFault | null> {
  if ((await contentHash(revision.content, digest)) !== revision.hash)
    return { no: 0, reason: 'the frozen manifest is not what its hash says' };
  let prev = revision.hash;
  const inOrder = events.toSorted((one, other) => one.no - other.no);
  for (const [at, event] of inOrder.entries()) {
    const no = at + 1;
    if (event.no !== no)
      return event.no < no
        ? { no: event.no, reason: `event ${event.no} is there twice` }
        : { no, reason: `event ${no} is gone: event ${event.no} follows` };
    if (event.revision !== revision.id) return { no, reason: 'it belongs to another revision' };
    if (event.prev !== prev) return { no, reason: 'it does not follow the event before it' };
    if ((await eventHash(event, digest)) !== event.hash) return { no, reason: 'its content is not what its hash says' };
    prev = event.hash;
  }
  if (head !== undefined && !prev.startsWith(head.replaceAll(' ', '').toLowerCase()))
    return {
      no: events.length,
      reason: 'the last event is not the one that was printed: what came after it is gone, or it is another',
    };
  return null;
}
