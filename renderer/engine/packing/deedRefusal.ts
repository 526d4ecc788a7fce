import type { Deed, DeedOf, Doer } from '../../../shared-types/records/revision.ts';
import { added, amountText, nothing, sameAmount } from './amount.ts';
import type { Amount } from './amount.ts';
import { countedOf, lineKey, missingOf, namesOnePiece } from './folded.ts';
import type { FoldedBag, FoldedLine, PackingFold } from './folded.ts';
import { isSamePerson } from './names.ts';
import { openText, packersOf, shortOf, whyNotIssued } from './standsOf.ts';

/** What someone is about to do. */
export interface Proposed {
  by: Doer;
  deed: Deed;
}

/**
 * Why something cannot be done with an outing's bags as they are.
 *
 * @param fold - what was done so far
 * @param proposed - what shall be done, and by whom
 * @returns the reason in words, or null where it can
 */
export function deedRefusal(fold: PackingFold, { by, deed }: Proposed): string | null {
  switch (deed.kind) {
    case 'counted':
    case 'missing':
      return notOpen(fold, deed.bag) ?? notCounted(fold, deed);
    case 'taken-back':
      return notTakenBack(fold, deed);
    case 'bag-closed':
      return isOut(fold) ?? notClosed(fold, by, deed);
    case 'bag-opened':
      return isOut(fold) ?? (bagOf(fold, deed.bag).closed === null ? `Bag ${deed.bag} is open` : null);
    case 'second-count':
      return isOut(fold) ?? notCountedAgain(fold, by, deed);
    case 'issued':
      return isOut(fold) ?? whyNotIssued(fold);
    case 'carried-over':
      return isOut(fold) ?? notCarriedOver(fold, deed);
    default:
      return null;
  }
}

const isOut = ({ issued }: PackingFold): string | null =>
  issued === null ? null : `The outing is out since event ${issued.no}: nothing is packed any more`;

function bagOf({ bags }: PackingFold, id: string): FoldedBag {
  return bags.get(id) ?? { id, closed: null, extras: [] };
}

function notOpen(fold: PackingFold, bag: string): string | null {
  const out = isOut(fold);
  if (out !== null) return out;
  return bagOf(fold, bag).closed === null ? null : `Bag ${bag} is closed: open it first`;
}

function unknownLine({ outing, lines }: PackingFold, bag: string, item: string): string {
  const elsewhere = [...lines.values()].filter(({ line }) => line.item === item).map(({ line }) => line.bag);
  return elsewhere.length === 0
    ? `${item} is not packed on outing ${outing}`
    : `${item} is not packed into ${bag}: it belongs in ${elsewhere.join(' or ')}`;
}

function notCounted(fold: PackingFold, deed: DeedOf<'counted'> | DeedOf<'missing'>): string | null {
  const found = fold.lines.get(lineKey(deed.bag, deed.item));
  if (found === undefined) return unknownLine(fold, deed.bag, deed.item);
  if (deed.kind === 'counted' && deed.label !== undefined && namesOnePiece(deed.label) && fold.labels.has(deed.label))
    return `${deed.item}: this label is counted already`;
  if (deed.pieces === 0 && deed.parts === 0) return `${deed.item}: nothing is counted`;
  const [counted, missing] = [countedOf(found), missingOf(found)];
  return deed.kind === 'counted'
    ? notWithin(found, added(counted, deed), missing)
    : notWithin(found, counted, added(missing, deed));
}

/** Pieces and parts that do not go together, or are more than the line has. */
function notWithin({ line, thing }: FoldedLine, counted: Amount, missing: Amount): string | null {
  const { item, quantity } = line;
  const said = missing.parts > 0 ? ', missing ones among them' : '';
  if (counted.pieces + missing.pieces > quantity)
    return `${item}: ${counted.pieces + missing.pieces} would be counted of ${quantity}${said}`;
  const loose = missing.parts - missing.pieces * thing.parts;
  if (counted.parts < counted.pieces || loose < 0)
    return `${item}: ${amountText(counted, thing.parts)}: a piece has at least one part`;
  if (counted.parts + loose > counted.pieces * thing.parts)
    return `${item}: ${counted.parts + loose} parts of ${counted.pieces * thing.parts} would be counted${said}`;
  return null;
}

function notTakenBack(fold: PackingFold, { of }: DeedOf<'taken-back'>): string | null {
  if (fold.taken.has(of)) return `Event ${of} is taken back already`;
  const was = fold.standing.get(of);
  if (was === undefined) return `Event ${of} is nothing of this outing that could be taken back`;
  const { deed } = was.event;
  switch (deed.kind) {
    case 'bag-closed':
    case 'bag-opened':
      return 'A bag is opened and closed again, not taken back';
    case 'issued':
      return fold.returning > 0 ? 'Some of it has come back: the issue stands' : null;
    case 'counted':
    case 'missing':
    case 'carried-over':
      for (const { line } of was.lines) {
        const closed = notOpen(fold, line.bag);
        if (closed !== null) return closed;
      }
      return leftOver(was.lines, of);
    case 'second-count':
      return isOut(fold);
    default:
      return null;
  }
}

/** Parts that came later than their piece stand on it. */
function leftOver(lines: readonly FoldedLine[], of: number): string | null {
  for (const line of lines) {
    const rest = { ...line, entries: line.entries.filter(({ no }) => no !== of) };
    if (notWithin(rest, countedOf(rest), missingOf(rest)) !== null)
      return `${line.line.item}: parts were counted after it: take those back first`;
  }
  return null;
}

function notClosed(fold: PackingFold, by: Doer, { bag, reason, second }: DeedOf<'bag-closed'>): string | null {
  if (!fold.bags.has(bag)) return `${bag} is no bag of outing ${fold.outing}`;
  if (bagOf(fold, bag).closed !== null) return `Bag ${bag} is closed already`;
  const short = shortOf(fold, bag);
  if (short.length === 0) return null;
  if (reason === undefined || reason.trim() === '' || second === undefined)
    return `Bag ${bag} is not whole: ${openText(short)}. To close it so takes a reason and a second name`;
  const same = [by.name, ...packersOf(fold, bag)].find((name) => isSamePerson(name, second.name));
  return same === undefined ? null : `${second.name} packed it: the second name must be of another person`;
}

function notCountedAgain(fold: PackingFold, by: Doer, { bag, counts }: DeedOf<'second-count'>): string | null {
  if (!fold.bags.has(bag)) return `${bag} is no bag of outing ${fold.outing}`;
  if (packersOf(fold, bag).some((name) => isSamePerson(name, by.name)))
    return `${by.name} packed bag ${bag}: another person must count it again`;
  if (counts.length === 0) return 'Nothing was counted again';
  const twice = counts.find(({ item }, at) => counts.findIndex((other) => other.item === item) !== at);
  if (twice !== undefined) return `${twice.item} is counted twice in one count`;
  const odd = counts.find(({ item, pieces, parts }) => {
    const each = fold.lines.get(lineKey(bag, item))?.thing.parts;
    return parts < pieces || (pieces === 0 && parts > 0) || (each !== undefined && parts > pieces * each);
  });
  return odd === undefined ? null : `${odd.item}: ${odd.parts} parts of ${odd.pieces} pieces cannot be`;
}

function notCarriedOver(fold: PackingFold, { counts }: DeedOf<'carried-over'>): string | null {
  for (const [at, { bag, item, labels, ...amount }] of counts.entries()) {
    const found = fold.lines.get(lineKey(bag, item));
    if (found === undefined) return unknownLine(fold, bag, item);
    if (bagOf(fold, bag).closed !== null) return `Bag ${bag} is closed: open it first`;
    if (counts.findIndex((other) => other.bag === bag && other.item === item) !== at)
      return `${item} is carried over twice`;
    if (!sameAmount(countedOf(found), nothing)) return `${item} is counted in ${bag} already`;
    const wrong = notWithin(found, amount, missingOf(found));
    if (wrong !== null) return wrong;
    const known = labels.find((label) => namesOnePiece(label) && fold.labels.has(label));
    if (known !== undefined) return `${item}: label ${known} is counted already`;
  }
  return null;
}
