import type { BagOuting } from '../../../../shared-types/bag.ts';
import type { CourseProblem, PieceKind, Whereabouts } from '../../../../shared-types/outing.ts';
import type { ResolvedBag, ResolvedOuting, ResolvedPlan, ResolvedStep } from '../../plan/resolved.ts';
import { inBag, store, type Book, type Piece } from './book.ts';

/** What a ledger carries from one step to the next. */
export interface Run {
  plan: ResolvedPlan;
  book: Book;
  problems: CourseProblem[];
  assumptions: Set<string>;
  /** Fasteners of which some were taken out or put in: what is tightened from then on must have been put in. */
  touched: Set<string>;
  /** Fasteners of which some were put in: from then on the site has no more than it is known to have. */
  counted: Set<string>;
  /** Pieces in hand without the tether points they need, just now. */
  untethered: Set<Piece>;
}

/** A run within one outing. */
export interface OutingRun extends Run {
  outing: ResolvedOuting;
  /** Null where no bag was planned. */
  answer: BagOuting | null;
  /** Bags of the outing that hold something. */
  bags: ResolvedBag[];
}

/** Bags a role takes from: its own, then nobody's. Others' come last, and only where asked for. */
export function bagsOf(run: OutingRun, role: string, others = false): (string | null)[] {
  if (run.answer === null) return [null];
  const rank = (bag: ResolvedBag): number => (bag.role === role ? 0 : bag.role === null ? 1 : 2);
  return run.bags
    .filter((bag) => others || rank(bag) < 2)
    .toSorted((a, b) => rank(a) - rank(b))
    .map(({ id }) => id);
}

/** Up to so many pieces of an item from a role's bags. */
export function fromBags(
  run: OutingRun,
  x: { kind: PieceKind; id: string; quantity: number; role: string; others?: boolean },
): Piece[] {
  const found = bagsOf(run, x.role, x.others).flatMap((bag) =>
    run.book.where(x.kind, x.id, (where) => where.at === 'bag' && where.bag === bag),
  );
  return found.slice(0, x.quantity);
}

/** Where a role's things go back to: the bag a piece came from, or the first that is its own, or anybody's. */
export function backInBag(run: OutingRun, role: string, piece?: Piece): Whereabouts {
  const own = bagsOf(run, role);
  const known = piece !== undefined && run.bags.some(({ id }) => id === piece.bag) ? piece.bag : undefined;
  return inBag(known ?? own[0] ?? null);
}

/** Pieces from the store, asked for where they are not there yet. */
export function fromStore(run: Run, kind: PieceKind, id: string, quantity: number): Piece[] {
  const home = run.book.where(kind, id, (where) => where.at === 'store').slice(0, quantity);
  return [...home, ...run.book.known(kind, id, quantity - home.length, store)];
}

/** Adds a problem of a step. */
export function tell(run: OutingRun, step: ResolvedStep | null, problem: Omit<CourseProblem, 'outing' | 'step'>): void {
  run.problems.push({ ...problem, outing: run.outing.id, step: step?.id ?? null });
}

/** Tools and gear are told apart for reading alone. */
export function kindOf(plan: ResolvedPlan, id: string): 'tool' | 'gear' {
  return plan.gear.has(id) ? 'gear' : 'tool';
}
