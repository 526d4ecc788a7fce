import { isOfManifest } from '../tag/manifestTag.ts';
import type { NamedManifest } from '../tag/manifestTag.ts';
import type { Tag, TagReading } from '../tag/tag.ts';
import type { PackedLine, PackState } from './packState.ts';

/** What a code says to do, or why it stops the packing until someone has seen it. */
export type ScanOutcome =
  | { kind: 'count'; bag: string; item: string; label: string }
  /** How many, or how many parts, is not to be seen from the label. */
  | { kind: 'ask'; bag: string; item: string; label: string; ask: 'pieces' | 'parts' }
  | { kind: 'open-bag'; bag: string }
  | { kind: 'refused'; why: ScanRefusal; words: string };

export type ScanRefusal = 'unknown' | 'wrong-bag' | 'counted-already' | 'not-of-outing' | 'closed' | 'another-manifest';

export interface Scanning {
  state: PackState;
  /** The bag at hand; null where none is. */
  bag: string | null;
  /** Codes of things by the number on their label. */
  tags: ReadonlyMap<number, string>;
  /** The revision that is packed. */
  revision: NamedManifest;
}

/**
 * What to do about a code that was read.
 *
 * A label that names one piece counts that piece, once; one that names the thing alone asks how many, where more than one is open.
 *
 * @param reading - a label's number, or why what was read is none
 * @param at - where packing stands
 * @returns what to do; nothing is changed
 */
export function scanned(reading: TagReading, at: Scanning): ScanOutcome {
  if ('refused' in reading) return refuse('unknown', reading.refused);
  const { tag, text: label } = reading;
  if (tag.kind === 'manifest') return manifestOf(tag, at.revision);
  const thing = at.tags.get(tag.tag);
  if (thing === undefined)
    return refuse('unknown', `Label ${tag.tag} is of nothing that the catalog or the manifest knows`);
  if (tag.kind === 'bag') return bagOf(thing, at);
  return itemOf(thing, { label, piece: tag.piece }, at);
}

const refuse = (why: ScanRefusal, words: string): ScanOutcome => ({ kind: 'refused', why, words });

function manifestOf(tag: Tag, revision: NamedManifest): ScanOutcome {
  if (isOfManifest(tag, revision))
    return refuse('another-manifest', `This is the manifest that is packed, revision ${tag.tag}: nothing to count`);
  return tag.tag === revision.number
    ? refuse('another-manifest', `This is a manifest revision ${tag.tag} of other content than the one that is packed`)
    : refuse('another-manifest', `This is manifest revision ${tag.tag}; packed is revision ${revision.number}`);
}

function bagOf(bag: string, { state }: Scanning): ScanOutcome {
  return state.bags.some(({ id }) => id === bag)
    ? { kind: 'open-bag', bag }
    : refuse('not-of-outing', `Bag ${bag} does not go on outing ${state.outing}`);
}

function itemOf(item: string, { label, piece }: { label: string; piece: number }, at: Scanning): ScanOutcome {
  const { state, bag } = at;
  const lines = state.bags.flatMap((held) =>
    held.lines.flatMap((line) => (line.line.item === item ? [{ line, closed: held.closed !== null }] : [])),
  );
  if (lines.length === 0) return refuse('not-of-outing', `${item} is not packed on outing ${state.outing}`);
  const has = lines.find(({ line }) => piece > 0 && line.labels.includes(label));
  if (has !== undefined)
    return refuse('counted-already', `${item}, piece ${piece}, is counted already, in ${has.line.line.bag}`);
  const here = lines.find(({ line }) => line.line.bag === bag);
  const open = lines.filter(({ line, closed }) => !closed && line.open.pieces > 0);
  if (here === undefined || (here.line.open.pieces === 0 && open.length > 0)) {
    const into = (open.length > 0 ? open : lines).map(({ line }) => line.line.bag).join(' or ');
    return bag === null && open[0] !== undefined
      ? counting(open[0].line, label, piece)
      : refuse('wrong-bag', `${item} belongs in ${into}${bag === null ? '' : `, not in ${bag}`}`);
  }
  if (here.closed) return refuse('closed', `Bag ${here.line.line.bag} is closed: open it first`);
  const { line } = here;
  if (line.open.pieces === 0)
    return refuse(
      'counted-already',
      `${item}: ${line.counted.pieces} of ${line.line.quantity} counted already${line.missing.pieces > 0 ? `, ${line.missing.pieces} named missing` : ''}`,
    );
  return counting(line, label, piece);
}

function counting({ line: { bag, item }, thing, open }: PackedLine, label: string, piece: number): ScanOutcome {
  if (thing.parts > 1) return { kind: 'ask', bag, item, label, ask: 'parts' };
  return piece === 0 && open.pieces > 1
    ? { kind: 'ask', bag, item, label, ask: 'pieces' }
    : { kind: 'count', bag, item, label };
}
