import type { Deed, DeedOf, Doer, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { RefusedError } from '../errors.ts';
import { deedRefusal } from './deedRefusal.ts';
import { countedOf, lineKey, namesOnePiece } from './folded.ts';
import type { Entry, FoldedLine, PackingFold } from './folded.ts';

/**
 * An outing's packing before anything was done.
 *
 * @param before - names of those who counted, under an earlier revision, what is carried over
 * @returns lines and bags with nothing in them
 * @throws RefusedError where a line names a thing that the manifest does not hold
 */
export function beginPacking(
  { content }: Pick<Revision, 'content'>,
  outing: string,
  before: readonly string[] = [],
): PackingFold {
  const things = new Map(content.things.map((thing) => [thing.id, thing]));
  const lines: PackingFold['lines'] = new Map();
  const bags: PackingFold['bags'] = new Map();
  for (const line of content.lines) {
    if (line.outing !== outing) continue;
    const thing = things.get(line.item);
    if (thing === undefined)
      throw new RefusedError({
        code: 'unknown-id',
        message: `the manifest holds nothing called ${line.item}`,
        field: 'lines.item',
        value: line.item,
      });
    lines.set(lineKey(line.bag, line.item), { line, thing, entries: [], seconds: [], touched: 0 });
    if (!bags.has(line.bag)) bags.set(line.bag, { id: line.bag, closed: null, extras: [] });
  }
  return {
    ...{ outing, lines, bags, before, issued: null, returning: 0, last: null, lastNo: 0, refused: [] },
    ...{ standing: new Map(), taken: new Set(), labels: new Set() },
  };
}

/**
 * The same after some events more. The fold given is changed: it is the caller's own.
 *
 * An event that does not fit counts for nothing and is said with its reason, so that the same events always say the same,
 * whoever wrote them.
 *
 * @param events - of the revision, in the order of their numbers; those of other outings are passed over
 * @returns the fold given
 */
export function packOn(fold: PackingFold, events: readonly OutingEvent[]): PackingFold {
  for (const event of events) {
    if (event.outing !== fold.outing) continue;
    fold.lastNo = event.no;
    const reason = deedRefusal(fold, event);
    if (reason === null) applied(fold, event);
    else fold.refused.push({ no: event.no, reason });
  }
  return fold;
}

function applied(fold: PackingFold, event: OutingEvent): void {
  const { no, deed } = event;
  const lines = deed.kind === 'taken-back' ? takenBack(fold, deed.of, no) : put(fold, event);
  if (deed.kind !== 'taken-back') fold.standing.set(no, { event, lines });
  const [first] = lines;
  const bag = first?.line.bag ?? ('bag' in deed ? deed.bag : undefined);
  if (bag !== undefined) fold.last = { no, bag, item: first?.line.item ?? null };
}

/** Puts into the fold what the event says; gives the lines that it is about. */
function put(fold: PackingFold, event: OutingEvent): FoldedLine[] {
  const { no, at, by, deed } = event;
  const lineOf = (bag: string, item: string): FoldedLine[] => {
    const line = fold.lines.get(lineKey(bag, item));
    return line === undefined ? [] : [line];
  };
  const enter = (lines: FoldedLine[], entry: Entry): FoldedLine[] => {
    for (const label of entry.labels) fold.labels.add(label);
    for (const line of lines) {
      line.entries.push(entry);
      line.touched = no;
    }
    return lines;
  };
  switch (deed.kind) {
    case 'counted':
    case 'missing': {
      const { kind, pieces, parts } = deed;
      const labels =
        deed.kind === 'counted' && deed.label !== undefined && namesOnePiece(deed.label) ? [deed.label] : [];
      const why = deed.kind === 'missing' ? { reason: deed.reason } : {};
      return enter(lineOf(deed.bag, deed.item), { no, at, by, kind, pieces, parts, labels, ...why });
    }
    case 'carried-over':
      return deed.counts.flatMap(({ bag, item, pieces, parts, labels }) =>
        enter(lineOf(bag, item), {
          no,
          at,
          by,
          kind: 'carried-over',
          pieces,
          parts,
          labels: labels.filter(namesOnePiece),
        }),
      );
    case 'bag-closed':
    case 'bag-opened': {
      const bag = fold.bags.get(deed.bag);
      if (bag !== undefined) bag.closed = deed.kind === 'bag-opened' ? null : { no, at, by, ...closing(deed) };
      return [];
    }
    case 'second-count':
      countedAgain(fold, event, deed);
      return [];
    case 'issued':
      fold.issued = event;
      return [];
    case 'remark':
      return deed.bag === undefined || deed.item === undefined ? [] : lineOf(deed.bag, deed.item);
    default:
      fold.returning += 1;
      return [];
  }
}

function closing({ reason, second }: DeedOf<'bag-closed'>): { reason?: string; second?: Doer } {
  return { ...(reason === undefined ? {} : { reason }), ...(second === undefined ? {} : { second }) };
}

function countedAgain(fold: PackingFold, { no, by }: OutingEvent, { bag, way, counts }: DeedOf<'second-count'>): void {
  for (const { item, pieces, parts } of counts) {
    const amount = { pieces, parts };
    const line = fold.lines.get(lineKey(bag, item));
    if (line === undefined) fold.bags.get(bag)?.extras.push({ item, no, by, amount });
    else line.seconds.push({ no, by, way, amount, packed: countedOf(line) });
  }
}

/** Takes out of the fold what an event had put into it; gives the lines that it was about. */
function takenBack(fold: PackingFold, of: number, no: number): readonly FoldedLine[] {
  const was = fold.standing.get(of);
  if (was === undefined) return [];
  fold.standing.delete(of);
  fold.taken.add(of);
  const { deed } = was.event;
  if (deed.kind === 'issued') fold.issued = null;
  else if (deed.kind === 'second-count') uncounted(fold, deed, of);
  else if (isOfReturn(deed)) fold.returning -= 1;
  else if (deed.kind !== 'remark')
    for (const line of was.lines) {
      for (const { labels } of line.entries.filter((entry) => entry.no === of))
        for (const label of labels) fold.labels.delete(label);
      line.entries = line.entries.filter((entry) => entry.no !== of);
      line.touched = no;
    }
  return was.lines;
}

function uncounted(fold: PackingFold, { bag, counts }: DeedOf<'second-count'>, of: number): void {
  for (const { item } of counts) {
    const line = fold.lines.get(lineKey(bag, item));
    if (line !== undefined) line.seconds = line.seconds.filter(({ no }) => no !== of);
  }
  const held = fold.bags.get(bag);
  if (held !== undefined) held.extras = held.extras.filter(({ no }) => no !== of);
}

function isOfReturn({ kind }: Deed): boolean {
  return kind === 'back' || kind === 'left' || kind === 'used' || kind === 'seen' || kind === 'return-closed';
}
