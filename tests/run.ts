/**
 * Runs every check and every suite: `npm test`, or `npm test -- lint unit` for some stages, in lanes beside each other.
 * A stage says nothing until it has ended. Then one that passed takes one line; one that failed shows all it said in one
 * piece, and the rest still run. The last line counts everything.
 */
import { givesWay, stopAll } from './support/command.ts';
import { runInLanes } from './support/lanes.ts';
import { checked, type Result } from './support/result.ts';
import { pickStages, type Stage } from './support/stages.ts';
import { type Finished, lineOf, summaryOf } from './support/summary.ts';

const say = (text: string) => process.stdout.write(`${text}\n`);

async function resultOf(stage: Stage, needed: readonly Finished[]): Promise<Result> {
  const lacking = needed.find(({ result }) => result.failed > 0);
  if (lacking !== undefined) return checked(false, `not run: ${lacking.name} failed`, '');
  try {
    return await givesWay.run(stage.lane === 'computes', stage.run);
  } catch (error) {
    return checked(false, 'broke off', error instanceof Error ? (error.stack ?? error.message) : String(error));
  }
}

async function finish(stage: Stage, needed: readonly Finished[]): Promise<Finished> {
  const start = performance.now();
  const result = await resultOf(stage, needed);
  const done = { name: stage.name, seconds: (performance.now() - start) / 1000, result };
  say(result.text === '' ? lineOf(done) : `${lineOf(done)}\n\n${result.text.trim()}\n`);
  return done;
}

async function run(stages: readonly Stage[]): Promise<boolean> {
  const finished = await runInLanes(stages, finish);
  say(`\n${summaryOf(finished)}`);
  return finished.every(({ result }) => result.failed === 0);
}

for (const [signal, code] of [
  ['SIGINT', 130],
  ['SIGTERM', 143],
] as const) {
  process.on(signal, () => {
    stopAll();
    process.exit(code);
  });
}

try {
  process.exitCode = (await run(pickStages(process.argv.slice(2)))) ? 0 : 1;
} catch (error) {
  if (!(error instanceof RangeError)) throw error;
  say(`${error.message}\n0 passed, 1 failed`);
  process.exitCode = 1;
}
