import type { Item } from '../../../../shared-types/records/item.ts';
import { quantityIn } from '../../../engine/units/index.ts';

/** What lies at one place of the store. */
export interface PlaceStock {
  /** Empty for what has no place. */
  place: string;
  items: readonly Item[];
  pieces: number;
  /** Of everything there whose mass is known [kg]. */
  massKg: number;
  /** Items without a mass, of which the sum says nothing. */
  withoutMass: number;
}

const masses = new Map<string, number | null>();

function massKgOf(text: string): number | null {
  const known = masses.get(text);
  if (known !== undefined) return known;
  let massKg: number | null;
  try {
    massKg = quantityIn(text, 'mass', 'kg');
  } catch {
    massKg = null;
  }
  masses.set(text, massKg);
  return massKg;
}

const piecesOf = (item: Item): number => ('onHand' in item ? (item.onHand ?? 0) : 1);

/** The stock by place, names in order with their numbers as numbers; what has no place comes last. Retired items lie nowhere. */
export function stockByPlace(items: readonly Item[]): PlaceStock[] {
  const places = new Map<
    string,
    { place: string; items: Item[]; pieces: number; massKg: number; withoutMass: number }
  >();
  for (const item of items) {
    if (item.retired) continue;
    const place = (item.keptAt ?? '').trim();
    const held = places.get(place) ?? { place, items: [], pieces: 0, massKg: 0, withoutMass: 0 };
    places.set(place, held);
    const pieces = piecesOf(item);
    held.items.push(item);
    held.pieces += pieces;
    const massKg = item.mass === undefined ? null : massKgOf(item.mass);
    if (massKg === null) held.withoutMass += 1;
    else held.massKg += massKg * pieces;
  }
  const order = new Intl.Collator('en', { numeric: true });
  return [...places.values()].toSorted((a, b) =>
    a.place === '' || b.place === ''
      ? Number(a.place === '') - Number(b.place === '')
      : order.compare(a.place, b.place),
  );
}
