import type { BagStep } from '../../../../shared-types/bag.ts';
import type { ResolvedStep } from '../../plan/resolved.ts';
import { inTheBag } from '../../plan/resolveCourse.ts';
import { atPlace, inHand, type Piece } from './book.ts';
import { notPackedMends, notThereMends, usedTwiceMends } from './mends.ts';
import { backInBag, fromBags, fromStore, kindOf, tell, type OutingRun } from './run.ts';

/** What a step has in hand until it is done, and where each piece goes then. */
export interface InUse {
  tools: Piece[];
  gear: { piece: Piece; consumed: boolean }[];
  moved: { piece: Piece; to: string }[];
}

/** Parts of stack and hold, gear and moved units come into the role's hands. */
export function beginStep(run: OutingRun, step: ResolvedStep, answer: BagStep | undefined): InUse {
  const hand = inHand(step.role);
  const taken = (pieces: Piece[]): Piece[] => {
    run.book.move(pieces, hand);
    return pieces;
  };
  const tools = [...countsOf([...(answer?.stack ?? []), ...(answer?.hold ?? [])])].flatMap(([id, quantity]) => {
    const found = fromBags(run, { kind: 'tool', id, quantity, role: step.role });
    if (found.length < quantity) tellShort(run, step, id, quantity - found.length);
    return taken(found);
  });
  const gear = step.gear.flatMap(({ id, quantity }) => {
    const item = run.plan.gear.get(id);
    if (item === undefined) return [];
    const found = gearFromBags(run, step, id, quantity);
    // A pouch stays closed on its bag while it takes pieces in.
    return item.pouchPlaces > 0 ? [] : taken(found).map((piece) => ({ piece, consumed: item.consumed }));
  });
  const moved: InUse['moved'] = [];
  for (const { id, quantity, from, to } of step.moves) {
    if (from === inTheBag) {
      moved.push(...taken(gearFromBags(run, step, id, quantity)).map((piece) => ({ piece, to })));
      continue;
    }
    // What an earlier move of the same step brings there is there.
    const there = taken(piecesAt(run, id, from).slice(0, quantity));
    const brought = moved.filter((one) => one.piece.id === id && one.to === from).slice(0, quantity - there.length);
    for (const one of brought) one.to = to;
    moved.push(...there.map((piece) => ({ piece, to })));
    tellNotThere(run, step, { id, place: from, quantity: quantity - there.length - brought.length });
  }
  return { tools, gear, moved };
}

/** Everything out of the hands again: used up, laid down, or back in a bag. */
export function endStep(run: OutingRun, step: ResolvedStep, inUse: InUse): void {
  for (const piece of inUse.tools) run.book.move([piece], backInBag(run, step.role, piece));
  for (const { piece, consumed } of inUse.gear) {
    run.book.move([piece], consumed ? { at: 'used' } : backInBag(run, step.role, piece));
  }
  for (const { piece, to } of inUse.moved) {
    run.book.move([piece], to === inTheBag ? backInBag(run, step.role) : atPlace(to));
  }
}

function piecesAt(run: OutingRun, id: string, place: string): Piece[] {
  return run.book.where('gear', id, (where) => where.at === 'place' && where.place === place);
}

function tellNotThere(
  run: OutingRun,
  step: ResolvedStep,
  missing: { id: string; place: string; quantity: number },
): void {
  if (missing.quantity === 0) return;
  const mends = notThereMends(run, step, { kind: 'gear', id: missing.id, place: missing.place });
  tell(run, step, { rule: 'not-there', kind: 'gear', role: step.role, ...missing, mends });
}

/** Gear is judged by its id: what lies in another role's bag is handed over. */
function gearFromBags(run: OutingRun, step: ResolvedStep, id: string, quantity: number): Piece[] {
  const found = fromBags(run, { kind: 'gear', id, quantity, role: step.role, others: true });
  const missing = quantity - found.length;
  if (missing === 0) return found;
  if (run.answer === null) return [...found, ...fromStore(run, 'gear', id, missing)];
  tellShort(run, step, id, missing);
  return found;
}

/** A piece that another role has in its hands just now is used twice; any other is not packed. */
function tellShort(run: OutingRun, step: ResolvedStep, id: string, quantity: number): void {
  const kind = kindOf(run.plan, id);
  const elsewhere = run.book.where(kind, id, (where) => where.at === 'hand' && where.role !== step.role);
  const twice = elsewhere.length > 0;
  const rule = twice ? 'used-twice' : 'not-packed';
  const mends = twice ? usedTwiceMends(run, step, id) : notPackedMends(run, step, id, quantity);
  tell(run, step, { rule, id, kind, quantity, role: step.role, mends });
}

function countsOf(ids: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const id of ids) counts.set(id, (counts.get(id) ?? 0) + 1);
  return counts;
}
