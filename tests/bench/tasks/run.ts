/**
 * The planner on generated tasks, over seeds: stacks, time to the first answer, time to the proof, gap over time. Run
 * with `npx tsx tests/bench/tasks/run.ts`; `--help` lists what it can be told. Times of one run compare with each other,
 * not with those of another machine.
 */
import { loadSolver } from '../../../renderer/engine/bag/solver.ts';
import { generateTask } from '../../reference/tasks/generateTask.ts';
import type { TaskSize } from '../../reference/tasks/generateTask.ts';
import { readArguments, usage } from './arguments.ts';
import type { BenchArguments } from './arguments.ts';
import { runPlanner } from './planner.ts';
import type { Run } from './planner.ts';
import { say, showS, showShare, spread } from './report.ts';

async function benchSize(size: TaskSize, bench: BenchArguments): Promise<void> {
  const highs = await loadSolver();
  const { seeds, first, structured, tolerance, minimise, limitS } = bench;
  say(`${size}, ${structured ? 'families' : 'no repeats'}, tolerance ${tolerance}, least ${minimise}, ${seeds} seeds`);
  const runs: Run[] = [];
  for (let seed = first; seed < first + seeds; seed++) {
    const task = generateTask({ seed, size, structured, tolerance });
    const run = await runPlanner(highs, task, { minimise, tolerance, limitS, wishes: false });
    runs.push(run);
    const found = run.value === null ? '' : `, ${run.value.toPrecision(6)}, gap ${showShare(run.gap ?? 0)}`;
    say(`  seed ${seed}: ${run.status}${found}, first ${showS(run.firstS)}, end ${showS(run.totalS)}`);
  }
  const count = (status: Run['status']): number => runs.filter((run) => run.status === status).length;
  say(`  optimal ${count('optimal')}, stopped ${count('stopped')}, infeasible ${count('infeasible')}`);
  say(`  first answer: ${spread(runs.map(({ firstS, totalS }) => firstS ?? totalS))}`);
  say(`  to the end: ${spread(runs.map(({ totalS }) => totalS))}`);
}

if (process.argv.includes('--help')) say(usage);
else {
  const bench = readArguments(process.argv.slice(2));
  for (const size of bench.sizes) await benchSize(size, bench);
}
