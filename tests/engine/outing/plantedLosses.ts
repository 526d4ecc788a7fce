/**
 * Ways to lose a piece. In the plan and its bag: what somebody might forget, so that the ledger must tell a problem. In the
 * ledger itself: what a wrong computation might drop, so that the second count must find it.
 */
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { Ledger, LedgerRow } from '../../../shared-types/outing.ts';
import type { Plan, PlanStep } from '../../../shared-types/plan.ts';
import type { Dice } from '../../reference/dice.ts';
import type { DemoCourse } from './demoCourse.ts';

/** A loss, in words; null where the dice found nothing to lose. */
export type Loss<T> = (of: T, dice: Dice) => string | null;

type FastenerMove = NonNullable<PlanStep['fastenerMoves']>[number];
type Move = NonNullable<PlanStep['moves']>[number];

function someOf<T>(dice: Dice, list: readonly T[]): T | null {
  return list.length === 0 ? null : dice.pick(list);
}

function fastenerMoves({ steps }: Plan): { step: PlanStep; move: FastenerMove }[] {
  return steps.flatMap((step) => (step.fastenerMoves ?? []).map((move) => ({ step, move })));
}

/** Moves that leave something at a place or take it from one: what is built in at its final place is not lost when it stays home. */
function moves({ steps, places }: Plan): { step: PlanStep; move: Move }[] {
  const finals = new Set(places?.filter(({ final }) => final).map(({ id }) => id));
  return steps
    .flatMap((step) => (step.moves ?? []).map((move) => ({ step, move })))
    .filter(({ move }) => !(move.from === 'bag' && finals.has(move.to)));
}

function lines(outings: readonly BagOuting[]): { outing: BagOuting; index: number }[] {
  return outings.flatMap((outing) => outing.items.map((_, index) => ({ outing, index })));
}

export const lossesInPlan: Record<string, Loss<DemoCourse>> = {
  'a piece dropped from a bag': ({ outings }, dice) => {
    const found = someOf(dice, lines(outings));
    const line = found?.outing.items[found.index];
    if (found === null || line === undefined) return null;
    line.quantity -= 1;
    if (line.quantity === 0) found.outing.items.splice(found.index, 1);
    return `${line.id} in ${line.bag} of ${found.outing.id}`;
  },
  'a row of fasteners left out': ({ source }, dice) => {
    const found = someOf(dice, fastenerMoves(source));
    if (found === null) return null;
    found.step.fastenerMoves = found.step.fastenerMoves?.filter((move) => move !== found.move);
    return `${found.move.id} at ${found.step.id}`;
  },
  'a wrong count of fasteners': ({ source }, dice) => {
    const found = someOf(dice, fastenerMoves(source));
    if (found === null) return null;
    const wrong = found.move.quantity + (found.move.quantity > 1 ? dice.pick([-1, 1]) : 1);
    found.move.quantity = wrong;
    return `${found.move.id} at ${found.step.id}: ${wrong}`;
  },
  'a washer too few': ({ source }, dice) => {
    const washered = source.catalog.fasteners.filter(({ looseWashers = 0 }) => looseWashers > 0);
    const found = someOf(
      dice,
      fastenerMoves(source).filter(({ move }) => washered.some(({ id }) => id === move.id)),
    );
    const each = washered.find(({ id }) => id === found?.move.id)?.looseWashers ?? 0;
    if (found === null) return null;
    found.move.washers = found.move.quantity * each - 1;
    return `${found.move.id} at ${found.step.id}`;
  },
  'no word on where a fastener is laid': ({ source }, dice) => {
    const found = someOf(
      dice,
      fastenerMoves(source).filter(({ move }) => move.from === 'site' && move.to !== undefined),
    );
    if (found === null) return null;
    delete found.move.to;
    return `${found.move.id} at ${found.step.id}`;
  },
  'a fastener laid at another place': ({ source }, dice) => {
    const place = source.places?.find(({ final }) => final !== true)?.id;
    const found = someOf(
      dice,
      fastenerMoves(source).filter(({ move }) => move.from === 'site' && move.to === 'bag'),
    );
    if (found === null || place === undefined) return null;
    found.move.to = place;
    return `${found.move.id} at ${found.step.id} to ${place}`;
  },
  'a fastener taken from another place': ({ source }, dice) => {
    const place = source.places?.[0]?.id;
    const found = someOf(
      dice,
      fastenerMoves(source).filter(({ move }) => move.from !== 'site'),
    );
    if (found === null || place === undefined) return null;
    found.move.from = place;
    return `${found.move.id} at ${found.step.id} from ${place}`;
  },
  'a move left out': ({ source }, dice) => {
    const found = someOf(dice, moves(source));
    if (found === null) return null;
    found.step.moves = found.step.moves?.filter((move) => move !== found.move);
    return `${found.move.id} at ${found.step.id}`;
  },
  'a wrong count of a move': ({ source }, dice) => {
    const found = someOf(dice, moves(source));
    if (found === null) return null;
    found.move.quantity += found.move.quantity > 1 ? dice.pick([-1, 1]) : 1;
    return `${found.move.id} at ${found.step.id}: ${found.move.quantity}`;
  },
  'tether points removed': ({ source, outings }, dice) => {
    const tethered = new Set(
      Object.values(source.catalog)
        .flat()
        .filter((item) => 'tethers' in item && (item.tethers ?? 0) > 0)
        .map(({ id }) => id),
    );
    const bags = outings.flatMap(({ items }) => items.filter(({ id }) => tethered.has(id)).map(({ bag }) => bag));
    // A pouch hangs closed on its bag and is not taken in hand.
    const bag = source.catalog.bags.find(({ id }) => id === someOf(dice, bags));
    if (bag === undefined) return null;
    bag.tetherPoints = 0;
    return bag.id;
  },
  'places of a pouch removed': ({ source }, dice) => {
    const pouch = source.catalog.carryGear.find(({ pouchPlaces = 0 }) => pouchPlaces > 0);
    if (pouch === undefined) return null;
    pouch.pouchPlaces = dice.whole(1, 15);
    return `${pouch.id}: ${pouch.pouchPlaces}`;
  },
};

function entryWith(ledger: Ledger, dice: Dice, meets: (row: LedgerRow) => boolean) {
  const found = someOf(
    dice,
    ledger.entries.flatMap((entry) => entry.rows.filter(meets).map((row) => ({ entry, row }))),
  );
  return found;
}

const said = (row: LedgerRow): string => `${row.quantity} × ${row.kind} ${row.id} ${JSON.stringify(row.where)}`;

export const lossesInLedger: Record<string, Loss<Ledger>> = {
  'a piece dropped from a row': (ledger, dice) => {
    const found = entryWith(ledger, dice, () => true);
    if (found === null) return null;
    found.row.quantity -= 1;
    return said(found.row);
  },
  'a piece too many in a row': (ledger, dice) => {
    const found = entryWith(ledger, dice, () => true);
    if (found === null) return null;
    found.row.quantity += 1;
    return said(found.row);
  },
  'a row left out': (ledger, dice) => {
    const found = entryWith(ledger, dice, () => true);
    if (found === null) return null;
    found.entry.rows = found.entry.rows.filter((row) => row !== found.row);
    return said(found.row);
  },
  'a line left out': (ledger, dice) => {
    const entry = someOf(
      dice,
      ledger.entries.filter(({ transfers }) => transfers.length > 0),
    );
    const line = entry && someOf(dice, entry.transfers);
    if (entry === null || line === null) return null;
    entry.transfers = entry.transfers.filter((other) => other !== line);
    return `${entry.step ?? entry.outing}: ${line.id}`;
  },
  'a wrong count of a line': (ledger, dice) => {
    const line = someOf(
      dice,
      ledger.entries.flatMap(({ transfers }) => transfers),
    );
    if (line === null) return null;
    line.quantity += dice.pick([-1, 1]);
    return `${line.id}: ${line.quantity}`;
  },
  'a piece somewhere else': (ledger, dice) => {
    const found = entryWith(ledger, dice, ({ where }) => where.at !== 'nowhere');
    if (found === null) return null;
    found.row.where = { at: 'nowhere' };
    return said(found.row);
  },
  'a tether removed': (ledger, dice) => {
    const found = entryWith(ledger, dice, ({ secured }) => secured === 'tethered');
    if (found === null) return null;
    found.row.secured = 'held';
    return said(found.row);
  },
  'an entry left out': (ledger, dice) => {
    const entry = someOf(dice, ledger.entries);
    ledger.entries = ledger.entries.filter((other) => other !== entry);
    return `${entry?.step ?? entry?.outing} ${entry?.moment}`;
  },
  'a loose piece called set down': (ledger, dice) => {
    const found = entryWith(ledger, dice, ({ secured }) => secured === 'loose' || secured === 'bagged');
    if (found === null) return null;
    found.row.secured = 'set-down';
    return said(found.row);
  },
};
