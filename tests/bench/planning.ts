/**
 * Where the time of planning goes, with nothing lost and with any one piece: `npx tsx tests/bench/planning.ts`. The solve
 * holds a first bag and a model of its own. Each part is a share of one run's total, so that
 * runs on other machines compare; the first, cold run (the solver's program is still being compiled) is told apart.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { bagModel } from '../../renderer/engine/bag/model/bagModel.ts';
import { outingWork } from '../../renderer/engine/bag/outingWork.ts';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { reduceWork } from '../../renderer/engine/bag/presolve/reduceWork.ts';
import { covering } from '../../renderer/engine/bag/search/covering.ts';
import { firstBag } from '../../renderer/engine/bag/search/firstBag.ts';
import { outingCosts, solveOuting } from '../../renderer/engine/bag/solveOuting.ts';
import { loadSolver } from '../../renderer/engine/bag/solver.ts';
import { noWishes } from '../../renderer/engine/bag/wishes.ts';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import type { Tolerance } from '../../shared-types/bag.ts';
import { roundNominal } from '../../renderer/engine/units/index.ts';

const folder = new URL('../../data/demo/', import.meta.url);
const rounds = 5;

function timed<T>(times: Map<string, number>, part: string, work: () => T): T {
  const began = performance.now();
  const result = work();
  times.set(part, (times.get(part) ?? 0) + performance.now() - began);
  return result;
}

async function round(text: string, tolerance: Tolerance): Promise<Map<string, number>> {
  const times = new Map<string, number>();
  const highs = await loadSolver();
  const plan = timed(times, 'read', () => readPlan(text));
  for (const outing of plan.outings) {
    const work = timed(times, 'stacks', () => outingWork(plan, outing, { tolerance, wishes: noWishes }));
    const reduced = timed(times, 'reduce', () => reduceWork(work, 'mass'));
    const costs = outingCosts(plan, reduced, 'mass');
    timed(times, 'first bag', () => firstBag(covering(plan, reduced, costs)));
    timed(times, 'model', () => bagModel(plan, reduced, { costs, losses: [] }));
    timed(times, 'solve', () => solveOuting(highs, plan, reduced, { minimise: 'mass' }));
  }
  const began = performance.now();
  await planBag(plan, { minimise: 'mass', tolerance, solver: highs });
  times.set('whole', performance.now() - began);
  return times;
}

for (const name of readdirSync(folder).filter((file) => file.endsWith('.json'))) {
  const text = readFileSync(new URL(name, folder), 'utf8');
  for (const tolerance of ['nothing', 'piece'] as const) {
    const cold = await round(text, tolerance);
    const warm: Map<string, number>[] = [];
    for (let n = 0; n < rounds; n += 1) warm.push(await round(text, tolerance));
    const middle = (part: string): number =>
      warm.map((times) => times.get(part) ?? 0).toSorted((a, b) => a - b)[rounds >> 1] ?? 0;
    const whole = middle('whole');
    const shares = ['read', 'stacks', 'reduce', 'first bag', 'model', 'solve'].map(
      (part) => `${part} ${roundNominal((100 * middle(part)) / whole, 1)} %`,
    );
    const first = roundNominal((cold.get('whole') ?? 0) / whole, 1);
    process.stdout.write(
      `${name}, ${tolerance} lost: whole ${roundNominal(whole, 0)} ms (median of ${rounds}); ${shares.join(', ')}; first run × ${first}\n`,
    );
  }
}
