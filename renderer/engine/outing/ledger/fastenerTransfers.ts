import type { Whereabouts } from '../../../../shared-types/outing.ts';
import type { ResolvedFastenerMove, ResolvedStep } from '../../plan/resolved.ts';
import { atTheSite, inTheBag } from '../../plan/resolveCourse.ts';
import { atPlace, atSite, inHand, nowhere, type Piece } from './book.ts';
import { countMends, looseMends, notThereMends } from './mends.ts';
import { bagOrPouch } from './pouches.ts';
import { fromBags, tell, type OutingRun } from './run.ts';

type Kind = 'fastener' | 'washer';
const kinds = ['fastener', 'washer'] as const;

/** Fasteners that a step turns: its own, and the one held against it, with their loose washers. */
function turned(step: ResolvedStep): { id: string; kind: Kind; quantity: number }[] {
  const { count } = step;
  if (step.action === 'use' || count === null) return [];
  const both = [step.fastener, step.hold?.fastener].flatMap((fastener) => fastener ?? []);
  return both.flatMap(({ id, looseWashers }) => [
    { id, kind: 'fastener' as const, quantity: count },
    ...(looseWashers === 0 ? [] : [{ id, kind: 'washer' as const, quantity: count * looseWashers }]),
  ]);
}

/** What is put into its hole is there before it is turned. */
export function fitFasteners(run: OutingRun, step: ResolvedStep): void {
  if (step.action !== 'use') checkCounts(run, step);
  carry(run, step, (move) => move.to === atTheSite);
}

/** The fasteners are turned, and then what comes out is taken out and laid down. */
export function turnAndTakeOut(run: OutingRun, step: ResolvedStep): void {
  // If it is ever done, a contingency step turns what another step turns too.
  if (!step.contingency) {
    for (const { id, kind, quantity } of turned(step)) {
      if (step.action === 'loosen') loosen(run, id, kind, quantity);
      else tighten(run, step, id, kind, quantity);
    }
  }
  carry(run, step, (move) => move.to !== atTheSite);
}

/** Every loosening turns fasteners of its own, as long as none was put in by which they could be counted. */
function loosen(run: OutingRun, id: string, kind: Kind, quantity: number): void {
  const { book } = run;
  const fixed = book.where(kind, id, (where) => where.at === 'site' && !where.loosened).slice(0, quantity);
  const missing = quantity - fixed.length;
  const more = run.counted.has(id) ? [] : book.known(kind, id, missing, atSite(false));
  book.move([...fixed, ...more], atSite(true));
}

function tighten(run: OutingRun, step: ResolvedStep, id: string, kind: Kind, quantity: number): void {
  const { book } = run;
  const loose = book.where(kind, id, (where) => where.at === 'site' && where.loosened).slice(0, quantity);
  const fixed = book.where(kind, id, (where) => where.at === 'site' && !where.loosened);
  const missing = quantity - loose.length - fixed.length;
  // What is said to be loose does not wait in its hole for somebody to tighten it.
  const isLoose = run.plan.fasteners.get(id)?.captive === false;
  const touched = isLoose || run.touched.has(id) || loose.length + fixed.length > 0;
  if (missing > 0 && !touched) {
    book.move(book.known(kind, id, missing, atSite(true)), atSite(false));
    run.assumptions.add(
      `${run.plan.fasteners.get(id)?.name ?? id}: in their holes before step ${step.id}, which tightens them.`,
    );
  } else if (missing > 0) {
    const mends = notThereMends(run, step, { kind, id, place: atTheSite });
    tell(run, step, { rule: 'not-there', id, kind, quantity: missing, place: atTheSite, role: step.role, mends });
  }
  book.move(loose, atSite(false));
}

/** A step cannot move more of its own fastener than it turns. */
function checkCounts(run: OutingRun, step: ResolvedStep): void {
  for (const { id, kind, quantity } of turned(step)) {
    const way = step.action === 'tighten' ? 'to' : 'from';
    const moved = step.fastenerMoves
      .filter((move) => move.id === id && move[way] === atTheSite)
      .reduce((sum, move) => sum + quantityOf(move, kind), 0);
    if (moved <= quantity) continue;
    const mends = countMends(step, quantity, moved);
    tell(run, step, { rule: 'count-differs', id, kind, quantity: moved - quantity, role: step.role, mends });
  }
}

function quantityOf(move: ResolvedFastenerMove, kind: Kind): number {
  return kind === 'washer' ? move.washers : move.quantity;
}

function carry(run: OutingRun, step: ResolvedStep, which: (move: ResolvedFastenerMove) => boolean): void {
  for (const move of step.fastenerMoves.filter(which)) {
    for (const kind of kinds) {
      const quantity = quantityOf(move, kind);
      if (quantity === 0) continue;
      const found = source(run, step, move, kind, quantity);
      run.touched.add(move.id);
      if (move.to === atTheSite) run.counted.add(move.id);
      if (found.length < quantity) {
        const mends = notThereMends(run, step, { kind, id: move.id, place: move.from });
        const missing = quantity - found.length;
        tell(run, step, {
          rule: 'not-there',
          id: move.id,
          kind,
          quantity: missing,
          place: move.from,
          role: step.role,
          mends,
        });
      }
      lay(run, step, found, move, kind);
    }
  }
}

function source(run: OutingRun, step: ResolvedStep, move: ResolvedFastenerMove, kind: Kind, quantity: number): Piece[] {
  const { book, plan } = run;
  const { id, from } = move;
  if (from === atTheSite) return fromSite(run, id, kind, quantity);
  if (from === inTheBag) return fromBagOrHome(run, step, id, kind, quantity);
  if (plan.source.places?.some((place) => place.id === from))
    return book.where(kind, id, (where) => where.at === 'place' && where.place === from).slice(0, quantity);
  if (run.outing.roles.includes(from))
    return book.where(kind, id, (where) => where.at === 'hand' && where.role === from).slice(0, quantity);
  return suppliedBy(run, step, from, id, kind, quantity);
}

function fromSite(run: OutingRun, id: string, kind: Kind, quantity: number): Piece[] {
  const { book } = run;
  const loose = book.where(kind, id, (where) => where.at === 'site' && where.loosened);
  const fixed = book.where(kind, id, (where) => where.at === 'site' && !where.loosened);
  const there = [...loose, ...fixed].slice(0, quantity);
  // A first step that takes some out says that they were there.
  const more = run.counted.has(id) ? 0 : quantity - there.length;
  return [...there, ...book.known(kind, id, more, atSite(false))];
}

/** What came home in a bag goes out in it again; what never was out comes from the stock of that fastener. */
function fromBagOrHome(run: OutingRun, step: ResolvedStep, id: string, kind: Kind, quantity: number): Piece[] {
  const { book, plan } = run;
  const bagged = fromBags(run, { kind, id, quantity, role: step.role });
  const home = book.where(kind, id, (where) => where.at === 'store').slice(0, quantity - bagged.length);
  const fastener = plan.fasteners.get(id);
  const stock = (fastener?.onHand ?? 0) * (kind === 'washer' ? (fastener?.looseWashers ?? 0) : 1);
  const drawn = book.where(kind, id, (_, piece) => piece.intervals[0]?.where.at === 'store').length;
  const more = Math.max(0, Math.min(quantity - bagged.length - home.length, stock - drawn));
  if (home.length + more > 0)
    run.assumptions.add(
      `${fastener?.name ?? id}: carried out by ${step.role} for step ${step.id}; the bag's figures do not count fasteners.`,
    );
  return [...bagged, ...home, ...book.known(kind, id, more, { at: 'store' })];
}

/** One piece of the gear gives so many; what of it is left over goes into the bag. */
function suppliedBy(
  run: OutingRun,
  step: ResolvedStep,
  gear: string,
  id: string,
  kind: Kind,
  quantity: number,
): Piece[] {
  const supplies = run.plan.gear.get(gear)?.supplies;
  if (kind === 'washer' || supplies?.fastener !== id) return [];
  const opened = step.gear.filter((one) => one.id === gear).reduce((sum, one) => sum + one.quantity, 0);
  const pieces = run.book.known(kind, id, opened * supplies.quantity, { at: 'store' });
  const left = pieces.slice(quantity);
  for (const piece of left) run.book.move([piece], bagOrPouch(run, step.role));
  return pieces.slice(0, quantity);
}

function lay(
  run: OutingRun,
  step: ResolvedStep,
  pieces: readonly Piece[],
  move: ResolvedFastenerMove,
  kind: Kind,
): void {
  const { book } = run;
  if (move.to === inTheBag) {
    for (const piece of pieces) book.move([piece], bagOrPouch(run, step.role));
    return;
  }
  const to = end(run, move.to);
  book.move(pieces, to);
  if (to.at !== 'nowhere' || pieces.length === 0) return;
  tell(run, step, {
    rule: 'loose',
    until: null,
    id: move.id,
    kind,
    quantity: pieces.length,
    role: step.role,
    mends: looseMends(run, step, pieces.length),
  });
}

function end(run: OutingRun, word: string | null): Whereabouts {
  if (word === null) return nowhere;
  if (word === atTheSite) return atSite(true);
  return run.plan.source.places?.some((place) => place.id === word) ? atPlace(word) : inHand(word);
}
