import type { Item } from '../../../shared-types/records/item.ts';
import { RefusedError } from '../errors.ts';
import { differencesOf } from '../records/differences.ts';
import type { FieldDifference } from '../records/differences.ts';
import { byText } from '../records/inOrder.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { convertValue, readQuantity } from '../units/index.ts';

/** A field that two entries do not share. `same`: the two texts say the same quantity, each in its own unit. */
export interface KitDifference extends FieldDifference {
  same: boolean;
}

export interface KitPair {
  mine: Item;
  theirs: Item;
  fields: KitDifference[];
}

export interface KitComparison {
  /** In mine and not in theirs, and the other way round. */
  onlyMine: Item[];
  onlyTheirs: Item[];
  /** The same thing under another code in either: by kind and by every figure, never by name. */
  renamed: KitPair[];
  /** Of one code in both, and not the same. */
  differ: KitPair[];
  /** Of one code in both, and the same. */
  same: number;
}

/** What is the record's own, or says only where the thing is kept. */
const passedOver = new Set(['id', 'rev', 'shelf', 'position', 'kit', 'code', 'keptAt']);
/** What two pieces of one make do not share. */
const ofOnePiece = new Set([...passedOver, 'name', 'notes', 'onHand', 'serial', 'calibrationDue', 'retired', 'parts']);

/**
 * Two kits held against each other, entry by entry under their codes, field by field where both have one. An entry without its like on
 * the other side is looked for there among those left over, as the same thing under another code. A code that a kit has twice stands for
 * the first of them.
 *
 * @param mine - items of the first kit
 * @param theirs - items of the second
 * @returns what is missing on either side, what differs and in which fields, and how many are the same; each list in order of codes
 */
export function compareKits(mine: readonly Item[], theirs: readonly Item[]): KitComparison {
  const [here, there] = [byCode(mine), byCode(theirs)];
  const differ: KitPair[] = [];
  let same = 0;
  for (const [code, one] of here) {
    const other = there.get(code);
    if (other === undefined) continue;
    const fields = kitDifferences(one, other);
    if (fields.length === 0) same += 1;
    else differ.push({ mine: one, theirs: other, fields });
  }
  const left = [...here.values()].filter(({ code }) => !there.has(code));
  const right = [...there.values()].filter(({ code }) => !here.has(code));
  const likes = new Map<string, Item[]>();
  for (const item of right) likes.set(likeness(item), [...(likes.get(likeness(item)) ?? []), item]);
  const renamed: KitPair[] = [];
  const taken = new Set<string>();
  const onlyMine = left.filter((item) => {
    const other = likes.get(likeness(item))?.shift();
    if (other === undefined) return true;
    taken.add(other.code);
    renamed.push({ mine: item, theirs: other, fields: kitDifferences(item, other) });
    return false;
  });
  const onlyTheirs = right.filter(({ code }) => !taken.has(code));
  return { onlyMine, onlyTheirs, renamed, differ, same };
}

/** Every field but those of the record itself, and where the thing lies. */
function kitDifferences(mine: Item, theirs: Item): KitDifference[] {
  const fields = [...new Set([...Object.keys(mine), ...Object.keys(theirs)])].filter((field) => !passedOver.has(field));
  return differencesOf<Record<string, unknown>>({ ...mine }, { ...theirs }, fields).map((one) => ({
    ...one,
    same: sameQuantity(one.here, one.file),
  }));
}

/** "1.5 in" and "38.1 mm" are one length. */
function sameQuantity(mine: string | null, theirs: string | null): boolean {
  if (mine === null || theirs === null) return false;
  try {
    const [a, b] = [readQuantity(mine), readQuantity(theirs)];
    if (a.kind !== b.kind) return false;
    const other = convertValue(b.value, b.unit, a.unit);
    return atLeast(a.value, other) && atMost(a.value, other);
  } catch (error) {
    // Words, numbers without a unit: as typed they differ.
    if (error instanceof RefusedError) return false;
    throw error;
  }
}

/** Two things are alike where every figure of theirs is; whatever may be typed in two units is compared as typed here. */
function likeness(item: Item): string {
  const kept = Object.entries(item).filter(([field, value]) => !ofOnePiece.has(field) && value !== undefined);
  return JSON.stringify(kept.toSorted(([a], [b]) => byText(a, b)));
}

function byCode(items: readonly Item[]): Map<string, Item> {
  const kept = new Map<string, Item>();
  for (const item of items.toSorted((a, b) => byText(a.code, b.code)))
    if (!kept.has(item.code)) kept.set(item.code, item);
  return kept;
}
