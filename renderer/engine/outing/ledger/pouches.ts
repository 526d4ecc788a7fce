import type { Whereabouts } from '../../../../shared-types/outing.ts';
import { inBag, nowhere, type Piece } from './book.ts';
import { bagsOf, type OutingRun } from './run.ts';

/** A pouch packed in a bag: so many of one item count as one with all their places. */
export interface Pouch {
  id: string;
  bag: string;
  places: number;
  taken: number;
}

/** The pouches which a role can put something in: those in its own bags, then those in nobody's. */
export function pouchesOf(run: OutingRun, role: string): Pouch[] {
  const pouches = [...run.plan.gear.values()].filter(({ pouchPlaces }) => pouchPlaces > 0);
  return bagsOf(run, role).flatMap((bag) =>
    pouches.flatMap(({ id, pouchPlaces }): Pouch[] => {
      if (bag === null) return [];
      const packed = run.book.where('gear', id, (where) => where.at === 'bag' && where.bag === bag).length;
      if (packed === 0) return [];
      const taken = looseInBags(run).filter(({ where }) => where.bag === bag && where.pouch === id).length;
      return [{ id, bag, places: packed * pouchPlaces, taken }];
    }),
  );
}

/** Where a role bags a loose piece: the first pouch with room, else its bag; nowhere where it has neither. */
export function bagOrPouch(run: OutingRun, role: string): Whereabouts {
  const free = pouchesOf(run, role).find(({ places, taken }) => taken < places);
  if (free !== undefined) return inBag(free.bag, free.id);
  const [bag] = bagsOf(run, role);
  return bag === undefined ? nowhere : inBag(bag);
}

/** Fasteners and washers that lie in a bag. */
export function looseInBags(run: OutingRun): { piece: Piece; where: Extract<Whereabouts, { at: 'bag' }> }[] {
  return run.book.fasteners().flatMap((piece) => {
    const { where } = piece;
    return where.at === 'bag' ? [{ piece, where }] : [];
  });
}
