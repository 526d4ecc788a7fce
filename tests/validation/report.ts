/**
 * What the program was held against, document by document: `npm run evidence`. Runs the tests against print and counts each
 * comparison they make; a value that two tests check counts twice. A failing test is told, and the exit status says so.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { roundNominal } from '../../renderer/engine/units/index.ts';
import { binOf } from '../support/installed.ts';
import { root } from '../support/tracked.ts';
import { comparedFileVariable, type Compared } from './values/compared.ts';

/** Share of its tolerance that a comparison used up. */
const used = ({ off, tolerance }: Compared): number => (tolerance === 0 ? (off === 0 ? 0 : Infinity) : off / tolerance);

function summary(table: string, all: readonly Compared[]): string {
  const exact = all.filter(({ miss }) => miss === undefined);
  const misses = all.length - exact.length;
  const [worst] = exact.toSorted((a, b) => used(b) - used(a));
  const lines = [`  ${table}: ${all.length} printed values`];
  if (worst !== undefined) {
    const share = Number.isFinite(used(worst)) ? `${roundNominal(100 * used(worst), 1)} %` : 'more than all';
    lines.push(
      `    largest deviation ${share} of its tolerance: computed ${worst.computed}, printed ${worst.printed}`,
      `    in ${worst.where}`,
    );
  }
  if (misses > 0) lines.push(`    ${misses} prints miss their own formula, each named with its reason`);
  return lines.join('\n');
}

function grouped(all: readonly Compared[], of: (one: Compared) => string): [string, Compared[]][] {
  const groups = new Map<string, Compared[]>();
  for (const one of all) groups.set(of(one), [...(groups.get(of(one)) ?? []), one]);
  return [...groups].toSorted(([a], [b]) => (a < b ? -1 : 1));
}

const say = (text: string): void => void process.stdout.write(`${text}\n`);

const folder = mkdtempSync(join(tmpdir(), 'bagwright-evidence-'));
const path = join(folder, 'compared.jsonl');
try {
  const ran = spawnSync(
    process.execPath,
    [binOf('vitest'), '--config', 'tests/vitest.config.ts', 'run', '--project', 'validation', ...process.argv.slice(2)],
    { cwd: root, encoding: 'utf8', maxBuffer: 2 ** 28, env: { ...process.env, [comparedFileVariable]: path } },
  );
  const all = existsSync(path)
    ? readFileSync(path, 'utf8')
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line) as Compared)
    : [];
  for (const [document, compared] of grouped(all, (one) => one.document)) {
    say(document);
    for (const [table, rows] of grouped(compared, (one) => one.table)) say(summary(table, rows));
  }
  const documents = new Set(all.map(({ document }) => document)).size;
  say(`\n${all.length} printed values of ${documents} documents`);
  say(ran.status === 0 ? 'every test against print passes' : `tests against print FAIL:\n${ran.stdout}${ran.stderr}`);
  process.exitCode = ran.status === 0 && all.length > 0 ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
