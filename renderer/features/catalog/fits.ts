import type { Item, ItemOf } from '../../../shared-types/records/item.ts';
import { RefusedError } from '../../engine/errors.ts';
import type { OpeningSize } from '../../engine/plan/resolved.ts';
import { squareSideMm } from '../../engine/plan/squares.ts';
import { openingGoesOnHead } from '../../engine/socket/openingForms.ts';
import { quantityIn } from '../../engine/units/index.ts';
import { alikeItems } from './alike.ts';

const lengths = new Map<string, number | null>();

/** A length read once for each text; null where it cannot be read, and then fits nothing. */
export function lengthMm(text: string): number | null {
  const known = lengths.get(text);
  if (known !== undefined) return known;
  const read = orNull(() => quantityIn(text, 'length', 'mm'));
  lengths.set(text, read);
  return read;
}

function orNull<T>(read: () => T): T | null {
  try {
    return read();
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}

function squareMm(text: string): number | null {
  const side = lengthMm(text);
  return side === null ? null : orNull(() => squareSideMm(side));
}

function sizeOf(form: string, text: string): OpeningSize | null {
  if (form === 'hexalobular') return { text: text.trim() };
  const mm = lengthMm(text);
  return mm === null ? null : { mm };
}

function goesOn(socket: ItemOf<'socket'>, fastener: ItemOf<'fastener'>): boolean {
  const acrossFlats = sizeOf(fastener.head.form, fastener.head.acrossFlats);
  const size = sizeOf(socket.opening.form, socket.opening.size);
  if (acrossFlats === null || size === null) return false;
  return openingGoesOnHead({ headForm: fastener.head.form, acrossFlats, openingForm: socket.opening.form, size });
}

/** The square a part is driven by, and the one it drives with. */
const squareIn = (item: Item): number | null =>
  item.kind === 'socket' ? squareMm(item.drive) : item.kind === 'extension' ? squareMm(item.driveIn) : null;
const squareOut = (item: Item): number | null =>
  item.kind === 'driver' || item.kind === 'torque-tool'
    ? squareMm(item.drive)
    : item.kind === 'extension'
      ? squareMm(item.driveOut)
      : null;

export interface FitList {
  title: string;
  items: Item[];
}

/** What of the same shelf an item goes together with, by nominal sizes and squares; nothing is said of limits. In the order of the table. */
export function fitsOf(item: Item, items: ReadonlyMap<string, Item>): FitList[] {
  const { all, groups } = alikeItems(items);
  const live = groups.get(item.shelf) ?? [];
  const which = (fits: (other: Item) => boolean): Item[] => {
    const places = live.flatMap((group) => (fits(group.first) ? group.places : []));
    return [...Uint32Array.from(places).toSorted()].flatMap((at) => {
      const other = all[at];
      return other === undefined || other.id === item.id ? [] : [other];
    });
  };
  const lists: FitList[] = [];
  if (item.kind === 'socket')
    lists.push({ title: 'Goes on', items: which((other) => other.kind === 'fastener' && goesOn(item, other)) });
  if (item.kind === 'fastener')
    lists.push({ title: 'Turned by', items: which((other) => other.kind === 'socket' && goesOn(other, item)) });
  const own = squareIn(item);
  if (own !== null) lists.push({ title: 'Driven by', items: which((other) => squareOut(other) === own) });
  const out = squareOut(item);
  if (out !== null) lists.push({ title: 'Drives', items: which((other) => squareIn(other) === out) });
  return lists;
}
