import type { BagOuting, BagWishes } from '../../../../shared-types/bag.ts';
import type { Limit, MeasuredLimit } from '../../../../shared-types/bagReasons.ts';
import type { Carried, ResolvedBag, ResolvedPlan } from '../../plan/resolved.ts';
import { exact } from './ask.ts';
import { packedPieces } from './derived.ts';

type BagField = 'massMax' | 'volumeMax' | 'itemsMax' | 'sizeMax' | 'tetherPoints';

/** A bag's limit: how much it allows, in which unit, and what of an item counts against it. */
interface BagLimit {
  kind: BagField;
  unit: MeasuredLimit['unit'];
  allowed: (bag: ResolvedBag) => number | null;
  each: (item: Carried) => number;
  /** Whether pieces add up; else the greatest counts. */
  adds: boolean;
}

const bagLimits: readonly BagLimit[] = [
  { kind: 'massMax', unit: 'kg', allowed: (bag) => bag.massMaxKg, each: (item) => item.massKg, adds: true },
  { kind: 'volumeMax', unit: 'L', allowed: (bag) => bag.volumeMaxL, each: (item) => item.volumeL ?? 0, adds: true },
  { kind: 'itemsMax', unit: 'pieces', allowed: (bag) => bag.itemsMax, each: () => 1, adds: true },
  { kind: 'sizeMax', unit: 'mm', allowed: (bag) => bag.sizeMaxMm, each: (item) => item.sizeMm ?? 0, adds: false },
  {
    kind: 'tetherPoints',
    unit: 'tether points',
    allowed: (bag) => bag.tetherPoints,
    each: (item) => item.tethers,
    adds: true,
  },
];

/**
 * Every limit that an outing's answer runs against, with what it uses of it: of each bag in the plan's order, of each
 * item's stock in the catalog's, of slots and wishes. Without an answer nothing is used.
 */
export function limitsOf(
  plan: ResolvedPlan,
  outingId: string,
  wishes: BagWishes,
  answer: BagOuting | null,
): MeasuredLimit[] {
  const outing = plan.outings.find(({ id }) => id === outingId);
  const bags = outing?.bags.flatMap((id) => plan.bags.get(id) ?? []) ?? [];
  const packed = answer ? packedPieces(plan, answer) : new Map<string, number>();
  const pieces = (limit: Limit, allowed: number | null, used: number | null): MeasuredLimit => {
    return { outing: outingId, limit, allowed, used, unit: 'pieces' };
  };
  const slots = new Set(plan.steps.flatMap(({ outing: of, slot }) => (of === outingId ? (slot ?? []) : [])));
  return [
    ...bags.flatMap((bag) => limitsOfBag(plan, outingId, bag, answer)),
    ...[...plan.carried.values()].map(({ id, onHand }) => pieces({ kind: 'stock', id }, onHand, packed.get(id) ?? 0)),
    ...[...slots].map((slot): MeasuredLimit => {
      return { outing: outingId, limit: { kind: 'slot', slot }, allowed: null, used: null, unit: null };
    }),
    ...wishes.keep.map(({ id, quantity }) => pieces({ kind: 'keep', id }, quantity, packed.get(id) ?? 0)),
    ...wishes.forbid.map(({ id }) => pieces({ kind: 'forbid', id }, 0, packed.get(id) ?? 0)),
    ...wishes.spares.map(({ id, quantity }) => pieces({ kind: 'spares', id }, quantity, packed.get(id) ?? 0)),
  ];
}

function limitsOfBag(plan: ResolvedPlan, outing: string, bag: ResolvedBag, answer: BagOuting | null): MeasuredLimit[] {
  return bagLimits.flatMap(({ kind, unit, allowed, each, adds }): MeasuredLimit[] => {
    const limit = allowed(bag);
    if (limit === null) return [];
    const amounts = (answer?.items ?? [])
      .filter((line) => line.bag === bag.id)
      .map((line) => each(plan.carried.get(line.id) ?? nothing) * (adds ? line.quantity : 1));
    const used = adds ? exact(amounts.reduce((sum, amount) => sum + amount, 0)) : Math.max(0, ...amounts);
    return [{ outing, limit: { kind, bag: bag.id }, allowed: limit, used, unit }];
  });
}

const nothing: Carried = {
  id: '',
  name: '',
  kind: 'gear',
  massKg: 0,
  volumeL: 0,
  sizeMm: 0,
  tethers: 0,
  onHand: 0,
};
