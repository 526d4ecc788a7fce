/**
 * The program's factors against two programs that were written without it: mathjs, and GNU units where it is installed. Each brings
 * its own definitions of inch, pound and standard gravity.
 */
import { spawnSync } from 'node:child_process';
import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { allUnits, convertValue, kindOf, unitsOf, type Unit } from '../../renderer/engine/units/index.ts';

/** Our units in mathjs's words; it has no kgf, and its kip and psi are rounded. */
const inMathjs: Partial<Record<Unit, string>> = {
  N·m: 'N m',
  mN·m: 'mN m',
  cN·m: 'cN m',
  dN·m: 'dN m',
  kN·m: 'kN m',
  MN·m: 'MN m',
  lbf·ft: 'lbf ft',
  lbf·in: 'lbf in',
  N: 'N',
  kN: 'kN',
  lbf: 'lbf',
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  in: 'in',
  ft: 'ft',
  g: 'g',
  kg: 'kg',
  lb: 'lbm',
  oz: 'oz',
  mm2: 'mm^2',
  cm2: 'cm^2',
  in2: 'in^2',
  L: 'L',
  mL: 'mL',
  cm3: 'cm^3',
  in3: 'in^3',
  MPa: 'MPa',
  'N/mm2': 'N/mm^2',
  GPa: 'GPa',
  Pa: 'Pa',
  deg: 'deg',
  rad: 'rad',
  rev: 'cycle',
};

/** Our units in GNU units' words. */
const inGnuUnits: Record<Unit, string> = {
  N·m: 'N m',
  mN·m: 'mN m',
  cN·m: 'cN m',
  dN·m: 'dN m',
  kN·m: 'kN m',
  MN·m: 'MN m',
  lbf·ft: 'lbf ft',
  lbf·in: 'lbf inch',
  ozf·in: 'oz force inch',
  kgf·m: 'kgf m',
  kgf·cm: 'kgf cm',
  gf·cm: 'g force cm',
  N: 'N',
  kN: 'kN',
  lbf: 'lbf',
  kip: 'kip',
  kgf: 'kgf',
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  in: 'inch',
  ft: 'ft',
  g: 'g',
  kg: 'kg',
  lb: 'lb',
  oz: 'oz',
  mm2: 'mm^2',
  cm2: 'cm^2',
  in2: 'inch^2',
  L: 'L',
  mL: 'mL',
  cm3: 'cm^3',
  in3: 'inch^3',
  MPa: 'MPa',
  'N/mm2': 'N/mm^2',
  GPa: 'GPa',
  Pa: 'Pa',
  psi: 'psi',
  ksi: 'ksi',
  deg: 'degree',
  rad: 'radian',
  rev: 'revolution',
};

const pairs = allUnits.flatMap((from) =>
  unitsOf(kindOf(from))
    .filter((to) => to !== from)
    .map((to) => ({ from, to })),
);

function relativeTo(from: Unit, to: Unit, other: number): number {
  return Math.abs(convertValue(1, from, to) / other - 1);
}

describe('mathjs', () => {
  const shared = pairs.filter(({ from, to }) => inMathjs[from] !== undefined && inMathjs[to] !== undefined);

  it.each(shared)('agrees on $from → $to', ({ from, to }) => {
    expect(relativeTo(from, to, unit(1, inMathjs[from] ?? '').toNumber(inMathjs[to] ?? ''))).toBeLessThanOrEqual(2e-15);
  });

  it.each([
    ['psi', 'Pa', 'psi', 'Pa', 'lbf/in^2', 1],
    ['kip', 'lbf', 'kip', 'lbf', 'lbf', 1000],
  ] as const)('has a rounded %s, which is no reason to round ours', (from, to, named, target, spelledOut, count) => {
    const off = relativeTo(from, to, unit(1, named).toNumber(target));
    expect(off).toBeGreaterThan(1e-12);
    expect(off).toBeLessThan(1e-8);
    expect(relativeTo(from, to, unit(count, spelledOut).toNumber(target))).toBeLessThanOrEqual(2e-15);
  });
});

describe('GNU units', () => {
  const found = spawnSync('units', ['--version'], { encoding: 'utf8' });
  const isHere = found.error === undefined && /GNU Units/i.test(found.stdout);

  it('agrees on every pair of units to 14 digits', (context) => {
    if (!isHere) context.skip('not run here: GNU units is not installed');
    // All pairs in one go: a line to convert from, a line to convert to.
    const asked = pairs.map(({ from, to }) => `${inGnuUnits[from]}\n${inGnuUnits[to]}\n`).join('');
    const { stdout } = spawnSync('units', ['--quiet', '--terse', '--output-format', '%.17g'], {
      input: asked,
      encoding: 'utf8',
      env: { ...process.env, LC_ALL: 'C.UTF-8' },
    });
    const answers = stdout.trimEnd().split('\n');
    expect(answers).toHaveLength(pairs.length);
    for (const [at, { from, to }] of pairs.entries())
      expect([from, to, relativeTo(from, to, Number(answers[at])) <= 1e-14]).toEqual([from, to, true]);
  });
});
