/**
 * `npm run faults`: every fault of the table, as often as it says, from one seed. Ends with 1 where anything was lost.
 *
 *   --seed N           another run; one of the same seed tries the same
 *   --only F4,F5       these alone
 *   --trial N          of those the trial of that number alone, to try it again
 *   --short            a fiftieth of the trials, of each part two at least
 *   --trials-share S   such a share of the trials, as 0.1
 *   --report FILE      the same as JSON
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { release, type as systemName } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { findBrowser } from '../../electron/launch/findBrowser.ts';
import { root } from '../support/tracked.ts';
import { migrationLine } from './migrationLine.ts';
import { runPart, type Part } from './part.ts';
import { parts } from './parts.ts';
import { headlineOf, lineOf, notTried, tableOf, type Line, type Report } from './table.ts';

interface Asked {
  seed: number;
  only: readonly string[] | null;
  trial: number | null;
  share: number;
  report: string | null;
}

const say = (text: string): void => void process.stdout.write(`${text}\n`);
const progress = (text: string): void => void process.stderr.write(`${text}\n`);

class UsageError extends Error {
  override readonly name = 'UsageError';
}

function numberOf(
  text: string,
  { name, least, whole = true }: { name: string; least: number; whole?: boolean },
): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isFinite(value) && value >= least && (!whole || Number.isInteger(value)))
    return value;
  throw new UsageError(`--${name} takes a ${whole ? 'whole ' : ''}number from ${least} on, not "${text}".`);
}

function asked(args: string[]): Asked {
  const text = { type: 'string' } as const;
  const options = {
    ...{ seed: text, only: text, trial: text, 'trials-share': text, report: text },
    short: { type: 'boolean' },
  } as const;
  const { values } = parse(args, options);
  const only = values.only?.split(',').map((one) => one.trim().toUpperCase()) ?? null;
  const unknown = only?.find((one) => one !== 'F2' && !parts.some(({ of }) => of === one));
  if (unknown !== undefined) throw new UsageError(`--only takes F1 to F16, as F4,F5; there is no "${unknown}".`);
  const share = values['trials-share'];
  return {
    seed: values.seed === undefined ? 4711 : numberOf(values.seed, { name: 'seed', least: 0 }),
    only,
    trial: values.trial === undefined ? null : numberOf(values.trial, { name: 'trial', least: 0 }),
    share:
      values.short === true
        ? 0.02
        : share === undefined
          ? 1
          : Math.min(1, numberOf(share, { name: 'trials-share', least: 0, whole: false })),
    report: values.report ?? null,
  };
}

function parse<O extends NonNullable<NonNullable<Parameters<typeof parseArgs>[0]>['options']>>(
  args: string[],
  options: O,
) {
  try {
    return parseArgs({ args, options, strict: true, allowPositionals: false });
  } catch (cause) {
    throw new UsageError(cause instanceof Error ? cause.message : String(cause));
  }
}

function versions(): Record<string, string> {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
  const browser = findBrowser();
  const said = browser === null ? '' : spawnSync(browser, ['--version'], { encoding: 'utf8' }).stdout;
  const chromium = /\d+(?:\.\d+)+/.exec(said)?.[0] ?? 'none';
  return { bagwright: version, node: process.versions.node, chromium, system: `${systemName()} ${release()}` };
}

async function tried(part: Part, { seed, trial, share }: Asked): Promise<Line | null> {
  if (trial !== null && trial >= part.trials) return null;
  const notHere = part.notHere?.() ?? null;
  if (notHere !== null) return notTried(part, notHere);
  const trials = trial === null ? Math.max(Math.min(2, part.trials), Math.round(part.trials * share)) : 1;
  progress(`${part.of} ${part.fault}: ${trials} …`);
  const line = lineOf(part, await runPart(part, { seed, trials, from: trial ?? 0 }));
  progress(`${part.of} ${line.survived} of ${line.trials} survived in ${Math.ceil(line.seconds)} s`);
  for (const failure of line.failures) progress(`  trial ${failure.trial}, ${failure.kind}: ${failure.message}`);
  return line;
}

async function run(given: Asked): Promise<Report> {
  const wanted = (of: string): boolean => given.only === null || given.only.includes(of);
  const lines: Line[] = [];
  let isMigrated = !wanted('F2');
  for (const part of parts) {
    if (!isMigrated && part.of !== 'F1') {
      lines.push(await migrationLine(given.seed, given.share, progress));
      isMigrated = true;
    }
    const line = wanted(part.of) ? await tried(part, given) : null;
    if (line !== null) lines.push(line);
  }
  return { headline: headlineOf(lines), seed: given.seed, versions: versions(), lines };
}

try {
  const given = asked(process.argv.slice(2));
  const report = await run(given);
  const said = Object.entries(report.versions).map(([name, version]) => `${name} ${version}`);
  say(tableOf(report.lines));
  say(`\n${report.headline}\nSeed ${report.seed}; ${said.join(', ')}.`);
  if (given.report !== null) writeFileSync(given.report, `${JSON.stringify(report, null, 2)}\n`);
  // A browser that a part left behind keeps nobody waiting.
  process.exit(report.lines.every(({ failures }) => failures.length === 0) ? 0 : 1);
} catch (error) {
  if (!(error instanceof UsageError)) throw error;
  progress(error.message);
  process.exit(2);
}
