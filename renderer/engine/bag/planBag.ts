import type { Highs } from 'highs';
import type {
  BagOuting,
  BagResult,
  BagWishes,
  Infeasibility,
  Minimised,
  Setting,
  Tolerance,
} from '../../../shared-types/bag.ts';
import { RefusedError } from '../errors.ts';
import { planProblems } from '../outing/planProblems.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { stackParts } from '../stack/stackTask.ts';
import { stepTurning } from '../stack/stepTurning.ts';
import { chooseSetting } from '../torque/chooseSetting.ts';
import { because } from './because.ts';
import { jointFaults } from './jointFaults.ts';
import { objectiveUnit } from './measure.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import { inCatalogOrder, massKg } from './outingAnswer.ts';
import type { Asked, OutingWork } from './outingWork.ts';
import { outingWork } from './outingWork.ts';
import { readdObjective, recheckOuting } from './recheck.ts';
import type { OutingOptions, SolvedOuting } from './solveOuting.ts';
import { reduceWork } from './presolve/reduceWork.ts';
import { beginOuting, solveOuting } from './solveOuting.ts';
import { loadSolver } from './solver.ts';
import { uncheckedRules } from './unchecked.ts';
import { consumedBeyondStock, unplaceable } from './unplaceable.ts';
import { checkWishes } from './wishes.ts';

export interface BagProgress {
  outing: string;
  best: number | null;
  bound: number | null;
}

export interface BagOptions {
  minimise: Minimised;
  /** What the bag is to stand; nothing where it is left out. */
  tolerance?: Tolerance | undefined;
  keep?: BagWishes['keep'] | undefined;
  forbid?: BagWishes['forbid'] | undefined;
  spares?: BagWishes['spares'] | undefined;
  timeLimitS?: number | undefined;
  /** From how many columns of flows on the pieces have a program of their own; for checks, since the answer is the same. */
  flowsMost?: number | undefined;
  onProgress?: ((progress: BagProgress) => void) | undefined;
  /** A solver already loaded; a page loads it from its own address. */
  solver?: Highs | undefined;
}

/**
 * The least bag for every outing of a plan, proven, or why there is none.
 *
 * Outings share nothing but gear that is used up, so each is its own program. Every answer goes through `recheck`,
 * which counts again without the solver; an answer that does not stand up to it is never given out.
 *
 * @returns the contents, stacks and settings of each outing, with the proof; or what makes it impossible
 * @throws RefusedError where volume counts and an item has none; `internal` where the recheck finds a fault
 */
export async function planBag(plan: ResolvedPlan, options: BagOptions): Promise<BagResult> {
  const { tolerance = 'nothing', keep = [], forbid = [], spares = [] } = options;
  const asked: Asked = { tolerance, wishes: { keep, forbid, spares } };
  requireVolumes(plan, options.minimise);
  checkWishes(plan, asked.wishes);
  const highs = options.solver ?? (await loadSolver());
  const works = plan.outings.map((outing) => outingWork(plan, outing, asked));
  const infeasible = consumedBeyondStock(plan, works);
  const { minimise, flowsMost } = options;
  const begun = works.map((work) => {
    const reduced = reduceWork(work, minimise);
    const faults = unplaceable(plan, work, reduced);
    if (faults.length > 0) return { work, reduced, faults, outing: null };
    const onProgress: OutingOptions['onProgress'] =
      options.onProgress && ((progress) => options.onProgress?.({ outing: work.outing.id, ...progress }));
    const outing = { minimise, flowsMost, onProgress };
    return { work, reduced, faults, outing: { ...outing, begun: beginOuting(plan, reduced, outing) } };
  });
  const solved: Solved[] = [];
  let leftS = options.timeLimitS;
  for (const [index, { work, reduced, faults, outing }] of begun.entries()) {
    infeasible.push(...faults);
    if (!outing) continue;
    const timeLimitS = leftS === undefined ? undefined : leftS / (begun.length - index);
    const result = solveOuting(highs, plan, reduced, { ...outing, timeLimitS });
    if (leftS !== undefined) leftS = Math.max(0, leftS - result.seconds);
    if (result.status === 'infeasible') infeasible.push(...jointFaults(highs, plan, work));
    else solved.push({ work, result });
  }
  return assemble(plan, solved, infeasible, { ...asked, minimise: options.minimise });
}

function requireVolumes(plan: ResolvedPlan, minimise: Minimised): void {
  const limited = [...plan.bags.values()].find((bag) => bag.volumeMaxL !== null);
  if (minimise !== 'volume' && !limited) return;
  const missing = [...plan.carried.values()].filter((item) => item.volumeL === null).map((item) => item.id);
  if (missing.length === 0) return;
  const why = minimise === 'volume' ? 'volume is minimised' : `bag ${limited?.id} has a volumeMax`;
  throw new RefusedError({
    code: 'missing-field',
    message: `${why}, but no volume is given for ${missing.slice(0, 20).join(', ')}${missing.length > 20 ? ' …' : ''}`,
    field: 'volume',
    value: missing,
  });
}

/** An outing with its bag. */
interface Solved {
  work: OutingWork;
  result: Exclude<SolvedOuting, { status: 'infeasible' }>;
}

function assemble(
  plan: ResolvedPlan,
  solved: readonly Solved[],
  infeasible: Infeasibility[],
  { minimise, tolerance, wishes }: Asked & { minimise: Minimised },
): BagResult {
  const printed = solved.map(({ work, result }) => ({ work, answer: printedOuting(plan, work, result.answer) }));
  const wrong = printed.flatMap(({ work, answer }) => recheckOuting(plan, work.outing, answer, { tolerance, wishes }));
  const outings = printed.map(({ answer }) => answer);
  if (wrong.length > 0) {
    throw new RefusedError({
      code: 'internal',
      message: `the answer does not stand up to its second count: ${wrong.join('; ')}`,
    });
  }
  const value = readdObjective(plan, outings, minimise);
  const bound = solved.every(({ result }) => result.status === 'optimal')
    ? value
    : solved.reduce((sum, { result }) => sum + result.bound, 0);
  const possible = infeasible.length === 0;
  return {
    status: !possible ? 'infeasible' : solved.some(({ result }) => result.status === 'stopped') ? 'stopped' : 'optimal',
    objective: possible
      ? {
          minimised: minimise,
          value,
          unit: objectiveUnit[minimise],
          bound,
          gap: value === 0 ? 0 : (value - bound) / value,
        }
      : null,
    outings,
    singleLoss: tolerance === 'piece',
    tolerance,
    wishes,
    unchecked: uncheckedRules(plan, outings),
    problems: planProblems(plan),
    infeasible,
    ignoredFields: plan.ignoredFields,
  };
}

function printedOuting(plan: ResolvedPlan, work: OutingWork, answer: OutingAnswer): BagOuting {
  const reasons = because(work, answer);
  return {
    id: work.outing.id,
    massKg: massKg(answer),
    items: inCatalogOrder(plan, work.bags, answer).map((line) => {
      return { id: line.item.id, quantity: line.quantity, bag: line.bag.id, because: reasons(line) };
    }),
    steps: work.steps.map((step) => {
      const choice = answer.chosen.get(step.id);
      const stack = choice?.stack.ids ?? [];
      return {
        id: step.id,
        stack,
        hold: choice?.hold?.ids ?? null,
        setting: settingOf(plan, step, stack),
        ...turningOf(plan, step, stack),
      };
    }),
  };
}

function settingOf(plan: ResolvedPlan, step: ResolvedStep, stack: readonly string[]): Setting | null {
  const torque = plan.tools.get(stack[0] ?? '')?.torque;
  if (!torque || !step.aim) return null;
  return chooseSetting({ torque, aim: step.aim, rangeShareMin: plan.rangeShareMin })?.setting ?? null;
}

/** Nothing where the plan gives no length to run: the answer then has the contract's fields alone. */
function turningOf(
  plan: ResolvedPlan,
  step: ResolvedStep,
  stack: readonly string[],
): { turns?: number; strokes?: number | null } {
  const parts = stackParts(plan, stack);
  const { turns, strokes } = parts === null ? { turns: null, strokes: null } : stepTurning(step, parts);
  return turns === null ? {} : { turns, strokes };
}
