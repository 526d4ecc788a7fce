/**
 * Runs every check and every suite: `npm test`, or `npm test -- lint unit` for some stages. A stage that passes takes
 * one line; one that fails shows all it said, and the rest still run. The last line counts everything.
 */
import { stopAll } from './support/command.ts';
import { checked, type Result } from './support/result.ts';
import { pickStages, type Stage } from './support/stages.ts';
import { type Finished, lineOf, summaryOf } from './support/summary.ts';

const say = (text: string) => process.stdout.write(`${text}\n`);

async function resultOf(stage: Stage, before: readonly Finished[]): Promise<Result> {
  const lacking = before.find(({ name, result }) => stage.needs.includes(name) && result.failed > 0);
  if (lacking !== undefined) return checked(false, `not run: ${lacking.name} failed`, '');
  try {
    return await stage.run();
  } catch (error) {
    return checked(false, 'broke off', error instanceof Error ? (error.stack ?? error.message) : String(error));
  }
}

async function run(stages: readonly Stage[]): Promise<boolean> {
  const finished: Finished[] = [];
  for (const stage of stages) {
    const start = performance.now();
    const result = await resultOf(stage, finished);
    const done = { name: stage.name, seconds: (performance.now() - start) / 1000, result };
    finished.push(done);
    say(lineOf(done));
    if (result.text !== '') say(`\n${result.text.trim()}\n`);
  }
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
