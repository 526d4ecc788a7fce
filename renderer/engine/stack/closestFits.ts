import type { ClosestFit } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import type { MeasuredCheck } from './checkStack.ts';
import { checkStack } from './checkStack.ts';
import type { Relaxed } from './enumerateStacks.ts';
import { enumerateStacks } from './enumerateStacks.ts';
import { inOrder } from './order.ts';
import type { StackParts, StackTask } from './stackTask.ts';
import { stackIds } from './stackTask.ts';

const relaxable: readonly Relaxed[] = [
  'drive',
  'opening',
  'reach',
  'clearance',
  'strength',
  'accuracy',
  'universal',
  'swing',
  'protrusion',
  'stock',
];

/** Fits shown for one check, and for stacks that fail several. */
const perCheck = 2;

interface Measured {
  parts: StackParts;
  failing: MeasuredCheck[];
}

/**
 * The nearest stacks that do not do the task, each with the checks it fails and what it has against what is needed.
 * One check at a time is left out of the search, and of each check the smallest shortfalls are kept; where no stack
 * fails in one check only, all that is measured is left out. The smallest shortfall comes first, as a share of what is
 * asked and added up over the checks; of equals, the one that fails fewer checks; then as stacks are always ordered.
 */
export function closestFits(plan: ResolvedPlan, task: StackTask): ClosestFit[] {
  const single = relaxable.flatMap((check) =>
    failuresOf(plan, task, new Set([check]))
      .filter(({ failing }) => failing.every((f) => f.check === check))
      .toSorted(byShortfall)
      .filter(piecesOnce())
      .slice(0, perCheck),
  );
  const fits = single.length > 0 ? single.toSorted(byShortfall) : severalFailures(plan, task);
  return fits.map(({ parts, failing }) => ({
    stack: stackIds(parts),
    fails: failing.map(({ check, have, need }) => ({ check, have, need })),
  }));
}

function failuresOf(plan: ResolvedPlan, task: StackTask, relaxed: ReadonlySet<Relaxed>): Measured[] {
  return inOrder(enumerateStacks(plan, task, relaxed), task.action !== 'tighten')
    .map((parts) => ({ parts, failing: checkStack(task, parts).filter((check) => !check.passes) }))
    .filter(({ failing }) => failing.length > 0);
}

function severalFailures(plan: ResolvedPlan, task: StackTask): Measured[] {
  const measured: Relaxed[] = ['reach', 'clearance', 'strength', 'accuracy', 'swing', 'protrusion', 'stock'];
  const found = failuresOf(plan, task, new Set(measured));
  const any = found.length > 0 ? found : failuresOf(plan, task, new Set(relaxable));
  return any.toSorted(byShortfall).filter(piecesOnce()).slice(0, perCheck);
}

/** Keeps the first of several orders of the same pieces. */
function piecesOnce(): (measured: Measured) => boolean {
  const seen = new Set<string>();
  return ({ parts }) => {
    const key = JSON.stringify(stackIds(parts).toSorted());
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  };
}

function byShortfall(a: Measured, b: Measured): number {
  return totalShare(a) - totalShare(b) || a.failing.length - b.failing.length;
}

/** Added up smallest first, so that the order of the checks cannot change the last digit. */
function totalShare({ failing }: Measured): number {
  return failing
    .map(({ shareShort }) => shareShort)
    .toSorted((a, b) => a - b)
    .reduce((sum, share) => sum + share, 0);
}
