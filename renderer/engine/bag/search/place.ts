import type { Carried, ResolvedBag } from '../../plan/resolved.ts';
import { atMost } from '../../tolerance.ts';
import type { Counts } from '../counts.ts';
import { mostOf } from '../counts.ts';
import { volumeL } from '../measure.ts';
import type { BagModel, Lying } from '../model/lying.ts';
import type { OutingWork } from '../outingWork.ts';

/**
 * Lays pieces into the bags of an outing, the heaviest first, each into the first bag that still takes it: bags of
 * nobody before bags of a role, light ones before heavy ones.
 *
 * @returns the columns of the program that say so; null where something finds no room
 */
export function placed(model: BagModel, { bags, gear, keep }: OutingWork, pieces: Counts): Map<number, number> | null {
  const order = bags.toSorted((a, b) => Number(a.role !== null) - Number(b.role !== null) || a.massKg - b.massKg);
  const filled = new Map(bags.map((bag) => [bag, emptyBag()]));
  const columns = new Map<number, number>(model.lying.map(({ column }) => [column, 0]));
  const opened = new Set<ResolvedBag>();
  // Kept pieces are among the pieces already.
  const wanted = [...mostOf([pieces, gear, keep])].flatMap(([id, count]) => {
    const lying = model.lyingOf.get(id);
    return lying?.[0] ? [{ lying, item: lying[0].item, count }] : count > 0 ? [null] : [];
  });
  if (wanted.includes(null)) return null;
  for (const want of wanted.toSorted((a, b) => (b?.item.massKg ?? 0) - (a?.item.massKg ?? 0))) {
    if (!want) return null;
    for (let left = want.count; left > 0; left -= 1) {
      const into = order.flatMap((bag) => want.lying.filter((l) => l.bag === bag)).find((l) => takes(filled, l));
      if (!into) return null;
      add(filled.get(into.bag), into.item);
      opened.add(into.bag);
      columns.set(into.column, (columns.get(into.column) ?? 0) + 1);
    }
  }
  for (const [bag, column] of model.opened) columns.set(column, Number(opened.has(bag)));
  return columns;
}

interface Filling {
  massKg: number;
  volumeL: number;
  items: number;
  tethers: number;
}

function emptyBag(): Filling {
  return { massKg: 0, volumeL: 0, items: 0, tethers: 0 };
}

function takes(filled: ReadonlyMap<ResolvedBag, Filling>, { bag, item }: Lying): boolean {
  const within = filled.get(bag);
  if (!within) return false;
  const fits = (limit: number | null, value: () => number): boolean => limit === null || atMost(value(), limit);
  return (
    fits(bag.massMaxKg, () => within.massKg + item.massKg) &&
    fits(bag.volumeMaxL, () => within.volumeL + volumeL(item)) &&
    fits(bag.itemsMax, () => within.items + 1) &&
    fits(bag.tetherPoints, () => within.tethers + item.tethers)
  );
}

function add(within: Filling | undefined, item: Carried): void {
  if (!within) return;
  within.massKg += item.massKg;
  within.volumeL += item.volumeL ?? 0;
  within.items += 1;
  within.tethers += item.tethers;
}
