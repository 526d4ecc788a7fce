/** A solver of its own program, asked over files: Debian's `coinor-cbc`, or `glpk-utils` where that is missing. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { lpText } from './program.ts';
import type { LinearProgram } from './program.ts';

/** Values by column; null where the program has no solution. */
export type Solved = number[] | null;

export interface Solver {
  name: string;
  solve: (program: LinearProgram) => Solved;
}

const patienceMs = 120_000;

function run(command: string, given: string[]): string {
  const { status, stdout, stderr, error } = spawnSync(command, given, { encoding: 'utf8', timeout: patienceMs });
  if (error !== undefined || status !== 0) throw new Error(`${command} failed: ${error?.message ?? stderr}${stdout}`);
  return stdout;
}

const hasCommand = (command: string, given: string[]): boolean => spawnSync(command, given).error === undefined;

function inFolder<T>(work: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'bagwright-solver-'));
  try {
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function askCbc(program: LinearProgram): Solved {
  return inFolder((folder) => {
    const [model, answer] = [join(folder, 'plan.lp'), join(folder, 'answer.txt')];
    writeFileSync(model, lpText(program));
    run('cbc', [
      model,
      'ratioGap',
      '0',
      'allowableGap',
      '0',
      'primalT',
      '1e-9',
      'integerT',
      '1e-9',
      'solve',
      'solution',
      answer,
    ]);
    const [status = '', ...lines] = readFileSync(answer, 'utf8').split('\n');
    if (/infeasible/i.test(status)) return null;
    if (!status.startsWith('Optimal')) throw new Error(`cbc says: ${status}`);
    const values = program.columns.map(() => 0);
    for (const line of lines) {
      const [, , name, value] = /^(\*\*)?\s*\d+\s+c(\d+)\s+(\S+)/.exec(line) ?? [];
      if (name !== undefined) values[Number(name)] = Number(value);
    }
    return values;
  });
}

function askGlpk(program: LinearProgram): Solved {
  return inFolder((folder) => {
    const [model, answer] = [join(folder, 'plan.lp'), join(folder, 'answer.txt')];
    writeFileSync(model, lpText(program));
    const said = run('glpsol', ['--lp', model, '--write', answer, '--mipgap', '0']);
    if (/NO (PRIMAL|INTEGER) FEASIBLE|NO FEASIBLE/i.test(said)) return null;
    const values: number[] = program.columns.map(() => 0);
    for (const line of readFileSync(answer, 'utf8').split('\n')) {
      const [kind, column, value] = line.split(' ');
      if (kind === 's' && !/^s (mip|bas) \d+ \d+ (o|f f)/.test(line)) throw new Error(`glpsol says: ${line}`);
      if (kind === 'j') values[Number(column) - 1] = Number(value);
    }
    return values;
  });
}

/** The first of the two that this machine has. */
export function findSolver(): Solver | null {
  if (hasCommand('cbc', ['-stop'])) return { name: 'cbc', solve: askCbc };
  if (hasCommand('glpsol', ['--version'])) return { name: 'glpsol', solve: askGlpk };
  return null;
}

export const notRunHere = 'not run here: neither cbc (coinor-cbc) nor glpsol (glpk-utils) is installed';
