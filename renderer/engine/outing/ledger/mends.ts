/** For each problem, the steps or things that would mend it. Sentences are for people; nothing is done by itself. */
import type { Mend, PieceKind } from '../../../../shared-types/outing.ts';
import type { ResolvedStep } from '../../plan/resolved.ts';
import { atTheSite, inTheBag } from '../../plan/resolveCourse.ts';
import type { Piece } from './book.ts';
import { bagCalled, capital, placeCalled, stepCalled, thingCalled } from './called.ts';
import { pouchesOf, type Pouch } from './pouches.ts';
import { stepsInOrder } from './stepsInOrder.ts';
import type { OutingRun, Run } from './run.ts';

interface Missing {
  id: string;
  kind: PieceKind;
  place: string;
}

/** Ends of a step's moves of one item; fasteners and gear alike. */
function movesOf(step: ResolvedStep, id: string): { from: string; to: string | null }[] {
  return [...step.moves, ...step.fastenerMoves].filter((move) => move.id === id);
}

/** A later step brings it, or an earlier one could: one that lays it elsewhere, or one that passes there. */
export function notThereMends(run: OutingRun, step: ResolvedStep, missing: Missing): Mend[] {
  const steps = stepsInOrder(run.plan);
  const at = steps.indexOf(step);
  const { id, place } = missing;
  const of = (one: ResolvedStep) => ({ outing: one.outing, step: one.id });
  const later = steps.slice(at + 1).filter((one) => movesOf(one, id).some(({ to }) => to === place));
  const elsewhere = steps
    .slice(0, at)
    .filter((one) => movesOf(one, id).some(({ to }) => to !== place && to !== atTheSite));
  const passing = place === inTheBag ? [] : steps.slice(0, at).filter((one) => passes(one, place));
  const where =
    place === atTheSite ? 'to its hole' : place === inTheBag ? 'into the bag' : `to ${placeCalled(run.plan, place)}`;
  const thing = thingCalled(run.plan, id);
  return [
    ...later.slice(0, 1).map((one): Mend => {
      return {
        how: 'reorder',
        ...of(one),
        says: `${capital(stepCalled(one))} brings ${thing} ${where}: do it before ${stepCalled(step)}.`,
      };
    }),
    ...elsewhere.slice(-1).map((one): Mend => {
      const last = movesOf(one, id).at(-1)?.to;
      const to = last === inTheBag ? 'in a bag' : !last ? 'nowhere that is named' : endCalled(run, last);
      return {
        how: 'bring',
        ...of(one),
        says: `${capital(stepCalled(one))} lays ${thing} ${to}: let it bring it ${where}, or take it from there.`,
      };
    }),
    ...(elsewhere.length > 0 || passing.length === 0
      ? []
      : passing.slice(-1).map((one): Mend => {
          return { how: 'bring', ...of(one), says: `${capital(stepCalled(one))} passes there: let it bring ${thing}.` };
        })),
    ...(later.length + elsewhere.length + passing.length > 0
      ? []
      : [
          {
            how: 'bring' as const,
            ...of(step),
            says: `Let ${stepCalled(step)} take ${thing} from the bag, or an earlier step bring it ${where}.`,
          },
        ]),
  ];
}

function passes(step: ResolvedStep, place: string): boolean {
  return [...step.moves, ...step.fastenerMoves].some(({ from, to }) => from === place || to === place);
}

/** Steps after the last move which pass where something lies; else the last step of whoever laid it down. */
export function fetchMends(run: Run, id: string, place: string, last: ResolvedStep): Mend[] {
  const steps = stepsInOrder(run.plan);
  const after = steps.slice(steps.indexOf(last) + 1);
  const passing = after.filter((one) => passes(one, place));
  const one = passing[0] ?? after.findLast(({ role }) => role === last.role) ?? last;
  const [thing, there] = [thingCalled(run.plan, id), placeCalled(run.plan, place)];
  const words =
    passing.length > 0
      ? `passes ${there}: let it fetch ${thing}.`
      : one === last
        ? `lays ${thing} at ${there} and no step comes by later: bring it home, or say that the place is final.`
        : `is the last of ${last.role}: let it fetch ${thing} from ${there}.`;
  return [{ how: 'fetch', outing: one.outing, step: one.id, says: `${capital(stepCalled(one))} ${words}` }];
}

/** Another step has it in hand just now. */
export function usedTwiceMends(run: OutingRun, step: ResolvedStep, id: string): Mend[] {
  const item = run.plan.carried.get(id);
  const packed = run.answer?.items.filter((line) => line.id === id).reduce((sum, line) => sum + line.quantity, 0) ?? 0;
  const more = item !== undefined && item.onHand > packed;
  return [
    {
      how: 'apart',
      outing: step.outing,
      step: step.id,
      says: `Take ${stepCalled(step)} out of its slot, so that ${thingCalled(run.plan, id)} is free by then.`,
    },
    ...(more
      ? [{ how: 'piece' as const, says: `Pack one more ${thingCalled(run.plan, id)}: ${item.onHand} are on hand.` }]
      : []),
  ];
}

/** It lies in none of the role's bags. */
export function notPackedMends(run: OutingRun, step: ResolvedStep, id: string, quantity: number): Mend[] {
  const bags = run.plan.outings.find((one) => one.id === step.outing)?.bags ?? [];
  const own = bags.find((bag) => run.plan.bags.get(bag)?.role === step.role) ?? bags[0];
  const where = own === undefined ? '' : ` in ${bagCalled(run.plan, own)}`;
  return [{ how: 'piece', outing: step.outing, says: `Pack ${quantity} × ${thingCalled(run.plan, id)}${where}.` }];
}

/** A pouch, a place, or being captive. */
export function looseMends(run: OutingRun, step: ResolvedStep, quantity: number): Mend[] {
  const free = pouchesOf(run, step.role).reduce((sum, { places, taken }) => sum + places - taken, 0);
  const places = placesCalled(run);
  const pouch =
    free >= quantity
      ? `Lay them in the pouch: "bag" has ${free} places free.`
      : `Give ${step.role} a pouch with ${quantity - free} more places, and lay them in the "bag".`;
  return [
    { how: 'pouch', outing: step.outing, step: step.id, says: pouch },
    {
      how: 'place',
      outing: step.outing,
      step: step.id,
      says: `Say where they are laid${places.length === 0 ? '' : `: ${places.join(', ')}`}.`,
    },
  ];
}

/** More points on the bag, or something else on another. */
export function tetherMends(run: OutingRun, step: ResolvedStep, pieces: readonly Piece[]): Mend[] {
  const need = pieces.reduce((sum, { id }) => sum + (run.plan.carried.get(id)?.tethers ?? 0), 0);
  const bag = pieces[0]?.bag;
  const where = bag === null || bag === undefined ? `a bag of ${step.role}` : bagCalled(run.plan, bag);
  return [
    {
      how: 'tether-point',
      outing: step.outing,
      step: step.id,
      says: `Give ${where} ${need} more tether ${need === 1 ? 'point' : 'points'}.`,
    },
  ];
}

/** More places, or a second pouch. */
export function pouchMends(run: OutingRun, step: ResolvedStep, pouches: readonly Pouch[], quantity: number): Mend[] {
  const names = pouches.map(({ id, places }) => `${thingCalled(run.plan, id)}, ${places} places`).join('; ');
  return [
    {
      how: 'pouch',
      outing: step.outing,
      step: step.id,
      says: `${quantity} more places than there are (${names}): pack another pouch, or lay some at a place.`,
    },
  ];
}

/** Lay down what is in the hands. */
export function handsMends(run: OutingRun, step: ResolvedStep): Mend[] {
  const places = placesCalled(run);
  return [
    {
      how: 'pouch',
      outing: step.outing,
      step: step.id,
      says: `Lay the loose pieces in the "bag" of ${step.role} before ${stepCalled(step)}.`,
    },
    ...(places.length === 0 ? [] : [{ how: 'place' as const, says: `Or at a place: ${places.join(', ')}.` }]),
  ];
}

/** One of the two numbers is wrong. */
export function countMends(step: ResolvedStep, turns: number, moves: number): Mend[] {
  return [
    {
      how: 'count',
      outing: step.outing,
      step: step.id,
      says: `${capital(stepCalled(step))} turns ${turns} and moves ${moves}: make them agree.`,
    },
  ];
}

/** Where a move ends: a place, its hole, or somebody's hands. */
function endCalled(run: OutingRun, end: string): string {
  if (end === atTheSite) return 'in its hole';
  const isPlace = run.plan.source.places?.some(({ id }) => id === end) === true;
  return isPlace ? `at ${placeCalled(run.plan, end)}` : `in the hands of ${end}`;
}

function placesCalled(run: OutingRun): string[] {
  return (run.plan.source.places ?? []).map(({ id }) => placeCalled(run.plan, id));
}
