import type { Secured, SecuringNeed } from '../../../../shared-types/outing.ts';
import type { ResolvedStep } from '../../plan/resolved.ts';
import type { Piece } from './book.ts';
import { handsMends, pouchMends, tetherMends } from './mends.ts';
import { looseInBags, pouchesOf } from './pouches.ts';
import { bagsOf, tell, type OutingRun, type Run } from './run.ts';

/** People have two; common practice, no source. */
const handsOf = 2;

/** What keeps a piece from being lost, where it is. */
export function securedBy(run: Run, finals: ReadonlySet<string>, piece: Piece): Secured {
  const { where } = piece;
  switch (where.at) {
    case 'store':
      return 'home';
    case 'bag':
      return 'bagged';
    case 'hand':
      return tethersOf(run, piece) > 0 && !run.untethered.has(piece) ? 'tethered' : 'held';
    case 'place':
      return finals.has(where.place) ? 'fixed' : 'set-down';
    case 'site':
      return 'fixed';
    case 'used':
      return 'used';
    case 'nowhere':
      return 'loose';
  }
}

/** Tether points against what hangs on them, pouch places against what lies in them, two hands against what is in them. */
export function checkSecuring(run: OutingRun, step: ResolvedStep, strings: number): void {
  const before = run.untethered;
  run.untethered = untetheredNow(run);
  for (const [id, pieces] of grouped([...run.untethered].filter((piece) => !before.has(piece)))) {
    const [{ kind }] = pieces as [Piece];
    const mends = tetherMends(run, step, pieces);
    tell(run, step, { rule: 'no-tether-point', id, kind, quantity: pieces.length, role: step.role, mends });
  }
  checkPouches(run, step);
  const handful = [...run.book.inHands()].some(
    (piece) => isLoose(piece) && piece.where.at === 'hand' && piece.where.role === step.role,
  );
  const full = strings + (handful ? 1 : 0) - handsOf;
  if (full > 0)
    tell(run, step, {
      rule: 'hands-full',
      id: step.role,
      kind: 'role',
      quantity: full,
      role: step.role,
      mends: handsMends(run, step),
    });
}

function checkPouches(run: OutingRun, step: ResolvedStep): void {
  const pouches = pouchesOf(run, step.role);
  if (pouches.length === 0) return;
  const added = run.book.added();
  const over = looseInBags(run).filter(
    ({ piece, where }) => where.pouch === undefined && piece.by === step.role && added.has(piece),
  );
  for (const [id, pieces] of grouped(over.map(({ piece }) => piece))) {
    const [{ kind }] = pieces as [Piece];
    const mends = pouchMends(run, step, pouches, pieces.length);
    tell(run, step, { rule: 'no-pouch-place', id, kind, quantity: pieces.length, role: step.role, mends });
  }
}

/** In the order of their taking, until a bag has no point left. */
function untetheredNow(run: OutingRun): Set<Piece> {
  const left = new Map(run.bags.map(({ id, tetherPoints }) => [id, tetherPoints]));
  return new Set(
    inHands(run).filter((piece) => {
      const bag = hangsOn(run, piece);
      const points = bag === null ? null : (left.get(bag) ?? null);
      if (bag === null || points === null) return false;
      const need = tethersOf(run, piece);
      left.set(bag, Math.max(0, points - need));
      return need > points;
    }),
  );
}

function inHands(run: Run): Piece[] {
  return [...run.book.inHands()].filter((piece) => tethersOf(run, piece) > 0);
}

/** The bag it came from; what was fetched from a place hangs on the bag of whoever holds it. */
function hangsOn(run: OutingRun, piece: Piece): string | null {
  if (run.bags.some(({ id }) => id === piece.bag)) return piece.bag;
  return piece.where.at === 'hand' ? (bagsOf(run, piece.where.role)[0] ?? null) : null;
}

function tethersOf(run: Run, { id, kind }: Piece): number {
  return isLoose({ kind }) ? 0 : (run.plan.carried.get(id)?.tethers ?? 0);
}

const isLoose = ({ kind }: Pick<Piece, 'kind'>): boolean => kind === 'fastener' || kind === 'washer';

function grouped(pieces: readonly Piece[]): Map<string, Piece[]> {
  const groups = new Map<string, Piece[]>();
  for (const piece of pieces) {
    const key = isLoose(piece) && piece.kind === 'washer' ? `${piece.id}\nwasher` : piece.id;
    groups.set(key, [...(groups.get(key) ?? []), piece]);
  }
  return new Map([...groups.values()].map((group) => [group[0]?.id ?? '', group]));
}

/** The needs of an outing's roles before anything is done. */
export function noNeeds(run: OutingRun): SecuringNeed[] {
  return run.outing.roles.map((role) => {
    const bags = run.bags.filter((bag) => bag.role === role || bag.role === null);
    const points = bags.map(({ tetherPoints }) => tetherPoints);
    const known = run.answer !== null && points.every((n) => n !== null);
    return {
      outing: run.outing.id,
      role,
      tethers: { needed: 0, available: known ? points.reduce((sum, n) => sum + n, 0) : null, step: null },
      pouchPlaces: {
        needed: 0,
        available: pouchesOf(run, role).reduce((sum, { places }) => sum + places, 0),
        step: null,
      },
    };
  });
}

/** The needs after one more step. */
export function withNeeds(run: OutingRun, needs: readonly SecuringNeed[], step: string): SecuringNeed[] {
  return needs.map((need) => {
    const held = inHands(run).filter(({ where }) => where.at === 'hand' && where.role === need.role);
    const tethers = held.reduce((sum, piece) => sum + tethersOf(run, piece), 0);
    const bagged = looseInBags(run).filter(({ piece }) => piece.by === need.role).length;
    return {
      ...need,
      tethers: tethers > need.tethers.needed ? { ...need.tethers, needed: tethers, step } : need.tethers,
      pouchPlaces: bagged > need.pouchPlaces.needed ? { ...need.pouchPlaces, needed: bagged, step } : need.pouchPlaces,
    };
  });
}
