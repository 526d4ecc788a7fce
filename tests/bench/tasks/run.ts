/**
 * The planner on generated tasks, over seeds: time to the first answer, time to the proof, gap over time; against HiGHS
 * cold on the plain model of the same plan, and against a greedy bag. Run with `npx tsx tests/bench/tasks/run.ts`;
 * `--help` lists what it can be told. What is compared is measured in one run, so that ratios hold on other machines; they are of the
 * processor's own time, since a busy machine stretches the clock's.
 */
import type { Highs } from 'highs';
import { loadSolver } from '../../../renderer/engine/bag/solver.ts';
import { plainAsk } from '../../reference/ask.ts';
import { TooLargeError } from '../../reference/secondSolver/stacks.ts';
import { generateTask } from '../../reference/tasks/generateTask.ts';
import type { GeneratedTask, TaskSize } from '../../reference/tasks/generateTask.ts';
import { readArguments, usage } from './arguments.ts';
import type { BenchArguments } from './arguments.ts';
import { enumerate, peakMB } from './enumeration.ts';
import { greedyBag } from './greedy.ts';
import { runPlain } from './plainModel.ts';
import type { PlainRun } from './plainModel.ts';
import { runPlanner } from './planner.ts';
import type { Run } from './planner.ts';
import { gapsOverTime, medianOf, say, showRatio, showS, showShare, spread } from './report.ts';

interface Compared {
  run: Run;
  plain: PlainRun | null;
  /** The greedy bag's cost over the planner's, less 1. */
  greedyExcess: number | null;
}

/** Stacks that the greedy bag is still chosen from. */
const greedyStacksMax = 4_000_000;

function greedyExcess(task: GeneratedTask, run: Run, { minimise, tolerance }: BenchArguments): number | null {
  if (run.value === null) return null;
  try {
    const value = greedyBag(task, plainAsk(minimise, { tolerance }), greedyStacksMax);
    return value === null ? null : value / run.value - 1;
  } catch (error) {
    if (error instanceof TooLargeError) return null;
    throw error;
  }
}

async function compare(highs: Highs, task: GeneratedTask, bench: BenchArguments): Promise<Compared> {
  const { minimise, tolerance, limitS } = bench;
  const run = await runPlanner(highs, task, { minimise, tolerance, limitS, wishes: false });
  const plain = bench.plain ? runPlain(highs, task, plainAsk(minimise, { tolerance }), limitS) : null;
  return { run, plain, greedyExcess: bench.greedy ? greedyExcess(task, run, bench) : null };
}

const plainS = ({ modelS, solveS }: PlainRun): number => modelS + solveS;

function lineOf(seed: number, { run, plain, greedyExcess: excess }: Compared): string {
  const found = run.value === null ? '' : ` ${run.value.toPrecision(6)}, gap ${showShare(run.gap ?? 0)}`;
  const ours = `${run.status}${found}, first ${showS(run.firstS)}, end ${showS(run.totalS)} (${showS(run.processorS)} of processor)`;
  const solved = plain !== null && (plain.status === 'optimal' || plain.status === 'infeasible');
  const size = plain === null ? '' : `${plain.stacks} stacks, ${plain.columns} columns`;
  const theirs =
    plain === null
      ? ''
      : plain.status === 'too large'
        ? '; plain model too large'
        : `; plain ${plain.status}${plain.value === null ? '' : ` ${plain.value.toPrecision(6)}`}, ${size}, ${showS(plainS(plain))}, ratio ${solved ? '' : 'below '}${showRatio(run.processorS / plain.processorS)}`;
  return `  seed ${seed}: ${ours}${theirs}${excess === null ? '' : `; greedy +${showShare(excess)}`}`;
}

function sayPlain(all: readonly Compared[]): void {
  const pairs = all.flatMap(({ run, plain }) => (plain === null ? [] : [{ run, plain }]));
  if (pairs.length === 0) return;
  const solved = pairs.filter(({ plain }) => plain.status === 'optimal' || plain.status === 'infeasible');
  const differ = solved.filter(
    ({ run, plain }) =>
      run.status !== 'stopped' && Math.abs((run.value ?? 0) - (plain.value ?? 0)) > 1e-9 * (plain.value ?? 0),
  );
  const large = pairs.filter(({ plain }) => plain.status === 'too large').length;
  const stopped = pairs.length - solved.length - large;
  say(`  plain model: solved ${solved.length}, out of time ${stopped}, too large to write down ${large}`);
  if (solved.length > 0) {
    const ratios = solved.map(({ run, plain }) => run.processorS / plain.processorS);
    say(
      `  planner / plain in time of the processor, where both end: median ${showRatio(medianOf(ratios))}, worst ${showRatio(Math.max(...ratios))}`,
    );
    say(`  plain to the end: ${spread(solved.map(({ plain }) => plainS(plain)))}; other answers: ${differ.length}`);
  }
}

async function benchSize(size: TaskSize, bench: BenchArguments): Promise<void> {
  const highs = await loadSolver();
  const { seeds, first, structured, tolerance, minimise } = bench;
  say(`${size}, ${structured ? 'families' : 'no repeats'}, tolerance ${tolerance}, least ${minimise}, ${seeds} seeds`);
  // What is run the first time is still being compiled.
  await compare(highs, generateTask({ seed: 1000, size: 'small', structured, tolerance }), bench);
  const all: Compared[] = [];
  for (let seed = first; seed < first + seeds; seed++) {
    const one = await compare(highs, generateTask({ seed, size, structured, tolerance }), bench);
    all.push(one);
    say(lineOf(seed, one));
  }
  const runs = all.map(({ run }) => run);
  const count = (status: Run['status']): number => runs.filter((run) => run.status === status).length;
  say(`  optimal ${count('optimal')}, stopped ${count('stopped')}, infeasible ${count('infeasible')}`);
  say(`  first answer: ${spread(runs.map(({ firstS, totalS }) => firstS ?? totalS))}`);
  say(`  to the end: ${spread(runs.map(({ totalS }) => totalS))}`);
  say(`  to the end, of the processor: ${spread(runs.map(({ processorS }) => processorS))}`);
  say(`  gap over time, median: ${gapsOverTime(runs)}`);
  const left = runs.flatMap(({ status, gap }) => (status === 'stopped' && gap !== null ? [gap] : []));
  if (left.length > 0) say(`  gap left: median ${showShare(medianOf(left))}, worst ${showShare(Math.max(...left))}`);
  const bettered = runs.flatMap(({ firstValue, value }) =>
    firstValue !== null && value !== null ? [firstValue / value - 1] : [],
  );
  if (bettered.length > 0) {
    const [middle, most] = [medianOf(bettered), Math.max(...bettered)];
    say(`  first answer over the last: median +${showShare(middle)}, worst +${showShare(most)}`);
  }
  sayPlain(all);
  const excess = all.flatMap(({ greedyExcess: one }) => (one === null ? [] : [one]));
  if (excess.length > 0)
    say(
      `  greedy bag over the least: median +${showShare(medianOf(excess))}, worst +${showShare(Math.max(...excess))}`,
    );
}

function benchEnumeration(size: TaskSize, { seeds, first, structured }: BenchArguments): void {
  say(`${size}, ${structured ? 'families' : 'no repeats'}: enumeration alone, ${seeds} seeds`);
  const beforeMB = peakMB();
  const all = Array.from({ length: seeds }, (_, index) =>
    enumerate(generateTask({ seed: first + index, size, structured })),
  );
  const stacks = all.map((one) => one.stacks);
  say(`  stacks: median ${medianOf(stacks)}, most ${Math.max(...stacks)}`);
  say(`  time: ${spread(all.map(({ seconds }) => seconds))}`);
  say(`  of the processor: ${spread(all.map(({ processorS }) => processorS))}`);
  say(`  memory of the process at most: ${Math.round(peakMB())} MB, before ${Math.round(beforeMB)} MB`);
}

if (process.argv.includes('--help')) say(usage);
else {
  const bench = readArguments(process.argv.slice(2));
  for (const size of bench.sizes) {
    if (bench.enumeration) benchEnumeration(size, bench);
    else await benchSize(size, bench);
  }
}
