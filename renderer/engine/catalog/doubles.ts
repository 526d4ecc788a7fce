import type { Item, LeftApart } from '../../../shared-types/records/item.ts';
import { RefusedError } from '../errors.ts';
import { convertValue, readQuantity } from '../units/index.ts';
import { atPath, valueText } from './cellText.ts';
import { columnsOfKind } from './itemColumns.ts';
import { looksLike, oddSigns } from './lookAlikes.ts';

/** Why items are shown together. */
export type DoubleReason = LeftApart['reason'];

export interface Doubles {
  reason: DoubleReason;
  items: readonly Item[];
  /** What they have in common, or what cannot be seen. */
  said: string;
}

/** What tells one piece from another of the same kind: where it lies and what it is called do not. */
const aside = new Set([
  ...[
    'code',
    'name',
    'notes',
    'keptAt',
    'onHand',
    'kit',
    'retired',
    'parts',
    'serial',
    'calibrationDue',
    'accuracyFrom',
  ],
  ...['mass', 'volume', 'size', 'tethers', 'finish', 'lubrication', 'washers', 'role'],
]);

const anchors = { torque: 'N·m', length: 'mm', mass: 'kg', volume: 'L' } as const;

/** A text as it is compared: a quantity by its size whatever its unit, anything else by its signs. */
const compared = new Map<string, string>();
const comparedMost = 50_000;

function comparedText(text: string): string {
  const known = compared.get(text);
  if (known !== undefined) return known;
  const made = sizeText(text) ?? text.trim().toLowerCase().replaceAll(/\s+/g, ' ');
  if (compared.size < comparedMost) compared.set(text, made);
  return made;
}

/** Seven digits: one inch written as 25.4 mm is the same size, 13 mm and 1/2 in are not. */
const digits = 7;

function sizeText(text: string): string | null {
  try {
    const { value, unit, kind } = readQuantity(text);
    const anchor = Object.entries(anchors).find(([name]) => name === kind)?.[1];
    return anchor === undefined ? null : `${convertValue(value, unit, anchor).toPrecision(digits)} ${anchor}`;
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}

/** What an item is, by kind and sizes alone: equal texts for the same thing; null where too little is known of it. */
function thingOf(item: Item): string | null {
  // What carry gear is and which bag is meant is said by its name alone.
  const byName = item.kind === 'gear' || item.kind === 'bag';
  const name = item.name?.trim().toLowerCase() ?? '';
  if (byName && name === '') return null;
  const parts = columnsOfKind(item.kind).flatMap(({ name: column, path, type }) => {
    if (aside.has(column)) return [];
    const text = valueText(type, atPath(item, path));
    return text === '' ? [] : [`${column} ${comparedText(text)}`];
  });
  return [...parts, ...(byName ? [`name ${name.replaceAll(/\s+/g, ' ')}`] : [])].join('\n');
}

/** So much of what an item is, is kept with it where it is left. */
const wasMost = 2000;

/**
 * What an item is in the eyes of this comparison: code, kind and sizes, whatever their units.
 *
 * @returns one text; where another one comes, the item is another than it was
 */
export function asCompared(item: Item): string {
  return [item.code, item.kind, thingOf(item) ?? item.name ?? ''].join('\n').slice(0, wasMost);
}

function put(groups: Map<string, Item[]>, key: string, item: Item): void {
  const group = groups.get(key);
  if (group === undefined) groups.set(key, [item]);
  else group.push(item);
}

const several = (groups: ReadonlyMap<string, Item[]>): Item[][] =>
  [...groups.values()].filter((group) => group.length > 1);

/**
 * Items that may be one thing kept twice, or be taken for each other: codes with signs that nobody sees, codes that look
 * alike, and the same kind in the same sizes. Retired items are left out, and the same thing on two shelves is no double.
 */
export class DoublesFinder {
  private readonly odd: Doubles[] = [];
  private readonly shapes = new Map<string, Item[]>();
  private readonly things = new Map<string, Item[]>();

  /** Takes in one item after another, so that nobody waits for fifty thousand at once. */
  take(item: Item): void {
    if (item.retired) return;
    const signs = oddSigns(item.code);
    if (signs.length > 0) this.odd.push({ reason: 'odd-signs', items: [item], said: signs.join('; ') });
    put(this.shapes, `${item.shelf}\n${looksLike(item.code)}`, item);
    const thing = thingOf(item);
    if (thing !== null) put(this.things, `${item.shelf}\n${thing}`, item);
  }

  /** What was found among those taken in. */
  found(): Doubles[] {
    const alike = 'Their codes are taken for each other: signs that look alike, case, blanks or dashes.';
    const same = 'The same kind in the same sizes, whatever their units.';
    return [
      ...this.odd,
      ...several(this.shapes).map((items): Doubles => ({ reason: 'codes-look-alike', items, said: alike })),
      ...several(this.things).map((items): Doubles => ({ reason: 'same-thing', items, said: same })),
    ];
  }
}
