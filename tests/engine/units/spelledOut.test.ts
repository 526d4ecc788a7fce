/** The contract's paragraph on unit spellings, spelled out: every separator, every word, either order. */
import { expect, it } from 'vitest';
import { readUnit, type Kind, type Unit } from '../../../renderer/engine/units/index.ts';

const separators = ['·', '.', '*', '-', ' ', ''];

interface Torque {
  unit: Unit;
  forces: string[];
  lengths: string[];
  /** Whether the trade writes the length first too. */
  either: boolean;
}

const inches = ['in', 'inch'];
const torques: Torque[] = [
  ...(['N·m', 'cN·m', 'dN·m', 'kN·m', 'mN·m', 'MN·m'] as const).map((unit) => ({
    unit,
    forces: [unit.replace('·m', '')],
    lengths: ['m'],
    either: false,
  })),
  { unit: 'lbf·ft', forces: ['lbf', 'lb', 'lbs'], lengths: ['ft'], either: true },
  { unit: 'lbf·in', forces: ['lbf', 'lb', 'lbs'], lengths: inches, either: true },
  { unit: 'ozf·in', forces: ['ozf', 'oz'], lengths: inches, either: true },
  { unit: 'kgf·m', forces: ['kgf'], lengths: ['m'], either: true },
  { unit: 'kgf·cm', forces: ['kgf'], lengths: ['cm'], either: true },
  { unit: 'gf·cm', forces: ['gf'], lengths: ['cm'], either: true },
];

const spelled = torques.flatMap(({ unit, forces, lengths, either }) =>
  forces.flatMap((force) =>
    lengths.flatMap((length) =>
      separators.flatMap((between): [string, Unit][] => [
        [`${force}${between}${length}`, unit],
        ...(either ? [[`${length}${between}${force}`, unit] satisfies [string, Unit]] : []),
      ]),
    ),
  ),
);

it('there are many ways to write a torque', () => {
  expect(spelled.length).toBeGreaterThan(200);
});

it('every one of them names its unit', () => {
  const read = spelled.map(([text]): [string, Unit | string] => {
    try {
      return [text, readUnit(text, 'torque').unit];
    } catch (error) {
      return [text, String(error)];
    }
  });
  expect(read).toEqual(spelled);
});

it('inch-pound units are read in any case; SI symbols keep theirs', () => {
  const inchPound = spelled.filter(([, unit]) => /^(?:lbf|ozf)/.test(unit));
  expect(inchPound.map(([text]) => readUnit(text.toUpperCase()).unit)).toEqual(inchPound.map(([, unit]) => unit));
  expect(readUnit('mNm').unit).toBe('mN·m');
  expect(readUnit('MNm').unit).toBe('MN·m');
  for (const text of ['MNM', 'mnm', 'Mn·m', 'KN·m', 'nm', 'NM']) expect(() => readUnit(text)).toThrowError(/"/);
});

it('the units of every other kind are named as the contract writes them', () => {
  const others: [Kind, string[]][] = [
    ['force', ['N', 'kN', 'lbf', 'kip', 'kgf']],
    ['length', ['mm', 'cm', 'm', 'in', '"', 'inch', 'ft']],
    ['mass', ['g', 'kg', 'lb', 'oz']],
    ['area', ['mm2', 'cm2', 'in2']],
    ['volume', ['L', 'mL', 'cm3', 'in3']],
    ['stress', ['MPa', 'N/mm2', 'GPa', 'Pa', 'psi', 'ksi']],
    ['angle', ['rad', 'deg', 'rev']],
  ];
  for (const [kind, units] of others) {
    expect(units.map((unit) => readUnit(unit).kind)).toEqual(units.map(() => kind));
  }
});
