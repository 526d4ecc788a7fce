import { amountText, nothing, sameAmount } from './amount.ts';
import type { Amount } from './amount.ts';
import { countedOf, missingOf } from './folded.ts';
import type { FoldedLine, PackingFold, SecondCount } from './folded.ts';

/** What a line still lacks: neither counted nor named missing. */
export function openOf(line: FoldedLine, counted = countedOf(line), missing = missingOf(line)): Amount {
  const { quantity } = line.line;
  return {
    pieces: quantity - counted.pieces - missing.pieces,
    parts: quantity * line.thing.parts - counted.parts - missing.parts,
  };
}

/** A line that is not whole: what is still open, what is named missing. */
export interface Short {
  item: string;
  partsEach: number;
  open: Amount;
  missing: Amount;
}

/** Lines of a bag that are not whole, in the manifest's order. */
export function shortOf(fold: PackingFold, bag: string): Short[] {
  return linesOf(fold, bag).flatMap((line) => {
    const [open, missing] = [openOf(line), missingOf(line)];
    const { item } = line.line;
    return open.parts === 0 && missing.parts === 0 ? [] : [{ item, partsEach: line.thing.parts, open, missing }];
  });
}

/** "S-24: 1 piece to pack; T-07: 2 pieces missing". */
export function openText(short: readonly Short[]): string {
  return short
    .map(({ item, partsEach, open, missing }) => {
      const said = [
        ...(open.parts === 0 ? [] : [`${amountText(open, partsEach)} to pack`]),
        ...(missing.parts === 0 ? [] : [`${amountText(missing, partsEach)} missing`]),
      ];
      return `${item}: ${said.join(', ')}`;
    })
    .join('; ');
}

/** A bag's lines in the manifest's order. */
export function linesOf({ lines }: PackingFold, bag: string): FoldedLine[] {
  return [...lines.values()].filter(({ line }) => line.bag === bag);
}

/** Names of all who counted into a bag what lies in it, those of an earlier revision with them. */
export function packersOf(fold: PackingFold, bag: string): string[] {
  const entries = linesOf(fold, bag).flatMap((line) => line.entries);
  const carried = entries.some(({ kind }) => kind === 'carried-over');
  return [...new Set([...entries.map(({ by }) => by.name), ...(carried ? fold.before : [])])];
}

/** The last time that a second person counted a line. */
export function secondOf({ seconds }: FoldedLine): SecondCount | null {
  return seconds.at(-1) ?? null;
}

/**
 * Whether a second count found something else in a line than was counted in, and nobody has counted that line since: the
 * packer must, whatever a later second count says.
 */
export function isToRecount({ seconds, touched }: FoldedLine): boolean {
  return seconds.some(({ no, amount, packed }) => no > touched && !sameAmount(amount, packed));
}

/** Things that a second person found in a bag and that are no line of it, by the last count of each. */
export function extrasOf(fold: PackingFold, bag: string): { item: string; amount: Amount }[] {
  const last = new Map((fold.bags.get(bag)?.extras ?? []).map(({ item, amount }) => [item, amount]));
  return [...last].flatMap(([item, amount]) => (sameAmount(amount, nothing) ? [] : [{ item, amount }]));
}

/** What keeps a bag from having been counted again to the same: in words, one for each line. */
export function secondCountFaults(fold: PackingFold, bag: string): string[] {
  const faults = linesOf(fold, bag).flatMap((line) => {
    const { item } = line.line;
    const second = secondOf(line);
    if (second === null) return [`${item} is not counted again`];
    const counted = countedOf(line);
    const [mine, theirs] = [amountText(counted, line.thing.parts), amountText(second.amount, line.thing.parts)];
    if (!sameAmount(counted, second.amount)) return [`${item}: ${mine} packed, ${theirs} counted again`];
    return isToRecount(line) ? [`${item}: the packer has not counted again what a second count found different`] : [];
  });
  const extras = extrasOf(fold, bag).map(
    ({ item, amount }) => `${item}: ${amountText(amount, 1)} found in it, no line of it`,
  );
  return [...faults, ...extras];
}

/** What of the counting alone keeps an outing from leaving: the first reason, or null. */
export function whyNotIssued(fold: PackingFold): string | null {
  for (const { id, closed } of fold.bags.values()) {
    if (closed === null) return `Bag ${id} is not closed`;
    const [fault] = secondCountFaults(fold, id);
    if (fault !== undefined) return `Bag ${id}: ${fault}`;
  }
  return fold.bags.size === 0 ? 'Nothing is packed on this outing' : null;
}
