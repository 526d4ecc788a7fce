import { otherOrder } from '../../engine/packing/index.ts';
import type { Amount, PackedBag, PackedLine } from '../../engine/packing/index.ts';
import type { TagReading } from '../../engine/tag/index.ts';

/** What a second person counted so far of the lines at hand, and by which labels. */
export type Tally = ReadonlyMap<string, { amount: Amount; labels: readonly string[] }>;

/**
 * Lines of a bag that a second person has still to count, in an order that is not the packer's. Nothing but what is kept says which are
 * done: whoever comes back, after whatever happened, goes on at the same line.
 *
 * @param recounts - lines to be counted once more, though they are counted
 */
export function toCountAgain({ id, lines }: PackedBag, recounts: readonly string[]): PackedLine[] {
  // The same bag has the same order on every machine.
  return otherOrder(lines, seedOf(id)).filter(({ line, second }) => second === null || recounts.includes(line.item));
}

function seedOf(text: string): number {
  return [...text].reduce((seed, sign) => (seed * 31 + (sign.codePointAt(0) ?? 0)) % 2_147_483_647, 7);
}

/** One piece more by its label, or why it is none. */
export function readAgain(
  reading: TagReading,
  at: { tags: ReadonlyMap<number, string>; lines: readonly PackedLine[]; bag: string; tally: Tally },
): { tally: Tally; item: string } | { refused: string } {
  if ('refused' in reading) return { refused: reading.refused };
  const { tag, text } = reading;
  const item = tag.kind === 'item' ? at.tags.get(tag.tag) : undefined;
  if (item === undefined) return { refused: `label ${tag.tag} is of nothing that is counted here` };
  const line = at.lines.find((one) => one.line.item === item);
  if (line === undefined) return { refused: `${item} is not among the lines shown` };
  const held = at.tally.get(item) ?? { amount: { pieces: 0, parts: 0 }, labels: [] };
  if (tag.piece === 0) return { refused: `${item}: its labels do not tell the pieces apart, count them by hand` };
  if (held.labels.includes(text)) return { refused: `${item}, piece ${tag.piece}, is counted already` };
  const amount = { pieces: held.amount.pieces + 1, parts: held.amount.parts + line.thing.parts };
  return { tally: new Map([...at.tally, [item, { amount, labels: [...held.labels, text] }]]), item };
}
