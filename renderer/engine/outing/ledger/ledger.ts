import type { BagOuting, BagStep } from '../../../../shared-types/bag.ts';
import type { CourseProblem, Ledger, PieceWay, SecuringNeed } from '../../../../shared-types/outing.ts';
import type { ResolvedOuting, ResolvedPlan, ResolvedStep } from '../../plan/resolved.ts';
import { sequenceOf } from '../sequence.ts';
import { problemsAtEnd } from './atEnd.ts';
import { Book, inBag, store } from './book.ts';
import { fitFasteners, turnAndTakeOut } from './fastenerTransfers.ts';
import { beginStep, endStep, type InUse } from './gearTransfers.ts';
import { ordersBroken, otherWayProblems, overCarry } from './outingProblems.ts';
import { fromStore, kindOf, type OutingRun, type Run } from './run.ts';
import { checkSecuring, noNeeds, securedBy, withNeeds } from './securing.ts';

/** The ledger, and the way of each piece in it. */
export interface Followed {
  ledger: Ledger;
  ways: PieceWay[];
}

/**
 * Follows every piece from place to place over all outings: tools and gear of the planned bags, units that are moved,
 * fasteners and washers that are loosened, taken out and put in. Nothing is added or lost between two entries; what is
 * neither held, tethered, bagged, fixed nor set down at a named place is a problem, with what would mend it.
 *
 * A step takes its parts and gear from its role's bags, then from nobody's, and lays them back when it is done. Gear is
 * handed over from any bag of the outing. Steps of one slot move things when the clock has them begun and done, not as listed.
 * Fasteners are one pool for each kind: the plan does not tell two work sites apart.
 *
 * @param plan - the plan
 * @param outings - the planned bags; an outing without one is followed with its gear alone
 * @param options.withRows - without, entries have no rows: for problems alone
 * @returns the ledger and the ways
 * @throws nothing
 */
export function followPieces(
  plan: ResolvedPlan,
  outings: readonly BagOuting[],
  { withRows }: { withRows: boolean } = { withRows: true },
): Followed {
  const finals = new Set(plan.source.places?.filter(({ final }) => final).map(({ id }) => id));
  const run: Run = {
    plan,
    book: new Book(withRows ? (piece) => securedBy(run, finals, piece) : null),
    problems: [],
    assumptions: new Set(),
    touched: new Set(),
    counted: new Set(),
    untethered: new Set(),
  };
  const answers = new Map(outings.map((answer) => [answer.id, answer]));
  const needs = plan.outings.flatMap((outing) => followOuting(run, outing, answers.get(outing.id) ?? null));
  const problems = [...run.problems, ...problemsAtEnd(run), ...ordersBroken(plan)];
  const ledger: Ledger = {
    opening: run.book.opening(),
    entries: run.book.finished(),
    needs,
    problems: merged(problems),
    assumptions: [...run.assumptions],
  };
  return { ledger, ways: run.book.ways() };
}

function followOuting(all: Run, outing: ResolvedOuting, answer: BagOuting | null): SecuringNeed[] {
  const holding = new Set(answer?.items.map(({ bag }) => bag));
  // The problems, the book and what was assumed go on; the bags are the outing's own.
  const run: OutingRun = Object.assign(all, {
    outing,
    answer,
    bags: outing.bags.flatMap((id) => (holding.has(id) ? (all.plan.bags.get(id) ?? []) : [])),
  });
  const steps = run.plan.steps.filter((step) => step.outing === outing.id);
  const stacks = new Map(answer?.steps.map((step) => [step.id, step]));
  pack(run, steps);
  run.problems.push(...overCarry(run), ...otherWayProblems(run));
  const inUse = new Map<string, InUse>();
  let needs = noNeeds(run);
  for (const { step, moment } of sequenceOf(steps)) {
    run.book.open({ outing: outing.id, step: step.id, moment }, step.role);
    const stack = stacks.get(step.id);
    if (moment === 'begun') {
      inUse.set(step.id, beginStep(run, step, stack));
      fitFasteners(run, step);
    } else {
      turnAndTakeOut(run, step);
      endStep(run, step, inUse.get(step.id) ?? { tools: [], gear: [], moved: [] });
    }
    checkSecuring(run, step, moment === 'begun' ? stringsOf(stack) : 0);
    run.book.close();
    needs = withNeeds(run, needs, step.id);
  }
  comeHome(run);
  return needs;
}

/** The bags are filled from the store; without a planned bag, with the gear that the steps name. */
function pack(run: OutingRun, steps: readonly ResolvedStep[]): void {
  run.book.open({ outing: run.outing.id, step: null, moment: 'packed' }, null);
  if (run.answer === null) {
    for (const { id, quantity } of steps.flatMap(gearTaken))
      run.book.move(fromStore(run, 'gear', id, quantity), inBag(null));
  } else {
    for (const { id, quantity, bag } of run.answer.items) {
      run.book.move(fromStore(run, kindOf(run.plan, id), id, quantity), inBag(bag));
    }
  }
  run.book.close();
}

function gearTaken(step: ResolvedStep): { id: string; quantity: number }[] {
  return [...step.gear, ...step.moves.filter(({ from }) => from === 'bag')];
}

/** Bags and hands are emptied at home; what lies at a place or nowhere stays there. */
function comeHome(run: OutingRun): void {
  run.book.open({ outing: run.outing.id, step: null, moment: 'home' }, null);
  const back = run.book.all().filter(({ where }) => where.at === 'bag' || where.at === 'hand');
  run.book.move(back, store);
  run.untethered = new Set();
  run.book.close();
}

/** Strings of parts a step has in hand. */
function stringsOf(answer: BagStep | undefined): number {
  return [answer?.stack ?? [], answer?.hold ?? []].filter((ids) => ids.length > 0).length;
}

/** The same problem of the same step is told once, with its pieces added up. */
function merged(problems: readonly CourseProblem[]): CourseProblem[] {
  const known = new Map<string, CourseProblem>();
  for (const problem of problems) {
    const { rule, outing, step, id, kind, place = null, role = null } = problem;
    const key = JSON.stringify([rule, outing, step, id, kind, place, role]);
    const same = known.get(key);
    if (same) same.quantity += problem.quantity;
    else known.set(key, { ...problem });
  }
  return [...known.values()];
}
