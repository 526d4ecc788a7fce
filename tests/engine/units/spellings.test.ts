import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import {
  limitIn,
  quantityIn,
  readQuantity,
  readUnit,
  type Kind,
  type Unit,
} from '../../../renderer/engine/units/index.ts';
import { shareOf } from '../../support/shareOf.ts';

/** Typed text, the number and unit it says. */
const right: [string, number, Unit][] = [
  ['45 N·m', 45, 'N·m'],
  ['45 Nm', 45, 'N·m'],
  ['45Nm', 45, 'N·m'],
  ['45 N.m', 45, 'N·m'],
  ['45 N-m', 45, 'N·m'],
  ['45 N*m', 45, 'N·m'],
  ['45 N m', 45, 'N·m'],
  ['45 N⋅m', 45, 'N·m'],
  ['45 N×m', 45, 'N·m'],
  ['45 N•m', 45, 'N·m'],
  ['45 N · m', 45, 'N·m'],
  ['45 mNm', 45, 'mN·m'],
  ['45 mN·m', 45, 'mN·m'],
  ['45 MN·m', 45, 'MN·m'],
  ['45 MNm', 45, 'MN·m'],
  ['45 cN-m', 45, 'cN·m'],
  ['45 dN.m', 45, 'dN·m'],
  ['45 kN m', 45, 'kN·m'],
  ['45 lbf·ft', 45, 'lbf·ft'],
  ['45 ft·lbf', 45, 'lbf·ft'],
  ['45 ft-lb', 45, 'lbf·ft'],
  ['45 ft-lbs', 45, 'lbf·ft'],
  ['45 ft lbs', 45, 'lbf·ft'],
  ['45 ftlb', 45, 'lbf·ft'],
  ['45 lb-ft', 45, 'lbf·ft'],
  ['45 lbf-ft', 45, 'lbf·ft'],
  ['45 lb.ft', 45, 'lbf·ft'],
  ['45 FT-LB', 45, 'lbf·ft'],
  ['45 ft.-lb.', 45, 'lbf·ft'],
  ['540 lbf·in', 540, 'lbf·in'],
  ['540 in·lbf', 540, 'lbf·in'],
  ['540 in-lb', 540, 'lbf·in'],
  ['540 in-lbs', 540, 'lbf·in'],
  ['540 inlb', 540, 'lbf·in'],
  ['540 lb-in', 540, 'lbf·in'],
  ['540 lbf in', 540, 'lbf·in'],
  ['540 inch-lbs', 540, 'lbf·in'],
  ['540 IN. LBS.', 540, 'lbf·in'],
  ['20 ozf·in', 20, 'ozf·in'],
  ['20 in-oz', 20, 'ozf·in'],
  ['20 oz-in', 20, 'ozf·in'],
  ['20 oz in', 20, 'ozf·in'],
  ['4.6 kgf·m', 4.6, 'kgf·m'],
  ['4.6 kgf-m', 4.6, 'kgf·m'],
  ['460 kgf·cm', 460, 'kgf·cm'],
  ['460 kgfcm', 460, 'kgf·cm'],
  ['12 gf·cm', 12, 'gf·cm'],
  ['100 N', 100, 'N'],
  ['1.5 kN', 1.5, 'kN'],
  ['22.5 lbf', 22.5, 'lbf'],
  ['2 kip', 2, 'kip'],
  ['3 kgf', 3, 'kgf'],
  ['12 mm', 12, 'mm'],
  ['1.2 cm', 1.2, 'cm'],
  ['0.5 m', 0.5, 'm'],
  ['7/16 in', 0.4375, 'in'],
  ['7/16"', 0.4375, 'in'],
  ['7/16 inch', 0.4375, 'in'],
  ['7/16in', 0.4375, 'in'],
  ['1-1/8 in', 1.125, 'in'],
  ['1 1/8 in', 1.125, 'in'],
  ['1\u20101/8 in', 1.125, 'in'],
  ['1\u20111/8 in', 1.125, 'in'],
  ['-1\u20111/8 in', -1.125, 'in'],
  ['4 5/8 in', 4.625, 'in'],
  ['4-5/8"', 4.625, 'in'],
  ['.25 in', 0.25, 'in'],
  ['12 in.', 12, 'in'],
  ['6 ft', 6, 'ft'],
  ['250 g', 250, 'g'],
  ['1.25 kg', 1.25, 'kg'],
  ['3 lb', 3, 'lb'],
  ['3 lbs', 3, 'lb'],
  ['8 oz', 8, 'oz'],
  ['58 mm2', 58, 'mm2'],
  ['58 mm²', 58, 'mm2'],
  ['0.58 cm^2', 0.58, 'cm2'],
  ['0.1419 in2', 0.1419, 'in2'],
  ['2 L', 2, 'L'],
  ['2 l', 2, 'L'],
  ['250 mL', 250, 'mL'],
  ['250 ml', 250, 'mL'],
  ['16 cm3', 16, 'cm3'],
  ['1 in³', 1, 'in3'],
  ['600 MPa', 600, 'MPa'],
  ['600 N/mm2', 600, 'N/mm2'],
  ['600 N/mm²', 600, 'N/mm2'],
  ['205 GPa', 205, 'GPa'],
  ['101325 Pa', 101325, 'Pa'],
  ['85000 psi', 85000, 'psi'],
  ['85 KSI', 85, 'ksi'],
  ['0.5 rad', 0.5, 'rad'],
  ['60 deg', 60, 'deg'],
  ['60°', 60, 'deg'],
  ['1.5 rev', 1.5, 'rev'],
  ['1e3 mm', 1000, 'mm'],
  ['1.5E-3 m', 0.0015, 'm'],
  ['-5 N·m', -5, 'N·m'],
  ['−5 N·m', -5, 'N·m'],
  ['+5 N·m', 5, 'N·m'],
  ['-1-1/8 in', -1.125, 'in'],
  ['  45   N·m  ', 45, 'N·m'],
  ['1.200 lbf·in', 1.2, 'lbf·in'],
];

/** Typed text, the code of its refusal, where reading stopped, and what the message must say. */
const refused: [string, string, number, RegExp][] = [
  ['1,200 lbf·in', 'ambiguous-quantity', 1, /"1200 lbf·in" or "1\.200 lbf·in"/],
  ['1,250', 'ambiguous-quantity', 1, /"1250" or "1\.250"/],
  ['1.250,5 N·m', 'ambiguous-quantity', 5, /"1250\.5 N·m" or "1\.2505 N·m"/],
  ['1,250.5 N·m', 'ambiguous-quantity', 1, /"1250\.5 N·m" or "1\.2505 N·m"/],
  ['2,5 N·m', 'ambiguous-quantity', 1, /"25 N·m" or "2\.5 N·m"/],
  ['1 250 N·m', 'ambiguous-quantity', 1, /"1250 N·m" or "1\.250 N·m"/],
  ['1\u00a0250 N·m', 'ambiguous-quantity', 1, /"1250 N·m"/],
  ['1\u2009250 N·m', 'ambiguous-quantity', 1, /"1250 N·m"/],
  ["1'250 N·m", 'ambiguous-quantity', 1, /"1250 N·m"/],
  ['45', 'ambiguous-quantity', 2, /no unit.*"45 N·m" or "45 lbf·ft"/],
  ['7/16', 'ambiguous-quantity', 4, /no unit/],
  ['45 nm', 'ambiguous-quantity', 3, /nanometre.*newton metre/],
  ['45 NM', 'ambiguous-quantity', 3, /nanometre/],
  ['45 m·N', 'ambiguous-quantity', 3, /millinewton/],
  ['½ in', 'unreadable-quantity', 0, /"1\/2 in" or "0\.5 in"/],
  ['1½ in', 'unreadable-quantity', 1, /"1\/2 in"/],
  ['7⁄16 in', 'unreadable-quantity', 1, /"1\/2 in"/],
  ['', 'unreadable-quantity', 0, /empty/],
  ['   ', 'unreadable-quantity', 0, /empty/],
  ['N·m', 'unreadable-quantity', 0, /no number before its unit/],
  ['"', 'unreadable-quantity', 0, /no number/],
  ['0x10 mm', 'unreadable-quantity', 0, /no decimal number/],
  ['1/0 in', 'unreadable-quantity', 2, /divides by 0/],
  ['1-9/8 in', 'unreadable-quantity', 0, /not below 1/],
  ['1-8/8 in', 'unreadable-quantity', 0, /not below 1/],
  ['1.5/2 in', 'unreadable-quantity', 3, /second number/],
  ['1/2/3 in', 'unreadable-quantity', 3, /second number/],
  ['1.2.3 in', 'unreadable-quantity', 3, /second number/],
  ['40-50 N·m', 'unreadable-quantity', 2, /second number/],
  ['40–50 N·m', 'unreadable-quantity', 2, /second number/],
  ['40\u201150 N·m', 'unreadable-quantity', 2, /second number/],
  ['40 \u2010 50 N·m', 'unreadable-quantity', 3, /second number/],
  ['1\u20131/8 in', 'unreadable-quantity', 1, /second number/],
  ['1\u20121/8 in', 'unreadable-quantity', 1, /second number/],
  ['1 \uff0d 1/8 in', 'unreadable-quantity', 2, /second number/],
  ['1~1/8 in', 'unreadable-quantity', 1, /second number/],
  ['45 N·m 50 N·m', 'unreadable-quantity', 7, /second number/],
  ['45 N·m,  -50', 'unreadable-quantity', 6, /second number/],
  ['45 N·m / 50', 'unreadable-quantity', 7, /second number/],
  ['40 to 50 N·m', 'unreadable-quantity', 3, /"to".*no unit.*second number/],
  ['5\'6"', 'unknown-unit', 1, /no unit known/],
  ['- 5 N·m', 'unreadable-quantity', 1, /begin with a number/],
  ['--5 N·m', 'unreadable-quantity', 1, /begin with a number/],
  ['(5) N·m', 'unreadable-quantity', 0, /begin with a number/],
  ['∞ N·m', 'not-finite', 0, /not a finite/],
  ['-∞ N·m', 'not-finite', 1, /not a finite/],
  ['NaN N·m', 'not-finite', 0, /not a finite/],
  ['Infinity mm', 'not-finite', 0, /not a finite/],
  ['1e999 mm', 'not-finite', 0, /too large/],
  ['1e-999 mm', 'not-finite', 0, /too small/],
  ['-1e-999 mm', 'not-finite', 1, /too small/],
  ['4.9e-324 N', 'not-finite', 0, /too small/],
  ['  2.225e-308 N', 'not-finite', 2, /too small/],
  ['45 kg·m', 'unknown-unit', 3, /"kgf·m"/],
  ['45 g·cm', 'unknown-unit', 3, /"gf·cm"/],
  ['45 mn·m', 'unknown-unit', 3, /"mN·m" or "MN·m"/],
  ['45 lbf/ft', 'unknown-unit', 3, /"lbf\/ft" is no unit/],
  ['45 N·m lbf·ft', 'unknown-unit', 3, /no unit known/],
  ['45 ozf·ft', 'unknown-unit', 3, /no unit known/],
  ['45 mpa', 'unknown-unit', 3, /Did you mean "MPa"/],
  ['45 MM', 'unknown-unit', 3, /Did you mean "mm"/],
  ['45 furlong', 'unknown-unit', 3, /"furlong".*Known units/],
  ['45 %', 'unknown-unit', 3, /"%"/],
  ['45 constructor', 'unknown-unit', 3, /"constructor"/],
  ['1_000 mm', 'ambiguous-quantity', 1, /"1000 mm"/],
  ['٤٥ mm', 'unreadable-quantity', 0, /begin with a number/],
];

function refusalOf(run: () => unknown) {
  try {
    run();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

it('holds at least 60 right spellings and 30 refused ones', () => {
  expect(right.length).toBeGreaterThanOrEqual(60);
  expect(refused.length).toBeGreaterThanOrEqual(30);
});

it.each(right)('%j is read as %d %s', (typed, value, unit) => {
  const { unit: named, kind } = readUnit(unit);
  expect(readQuantity(typed)).toEqual({ value, unit: named, kind, typed });
});

it.each(refused)('%j is refused as %s at %d', (typed, code, position, words) => {
  const refusal = refusalOf(() => readQuantity(typed));
  expect(refusal).toMatchObject({ code, position, value: typed });
  expect(refusal.message).toMatch(words);
});

describe('a unit of another kind is refused and both are named', () => {
  const mixed: [string, Kind, RegExp][] = [
    ['45 mm', 'torque', /"mm" is a unit of length; asked for is a unit of torque/],
    ['45 N·m', 'length', /"N·m" is a unit of torque; asked for is a unit of length/],
    ['3 lb', 'force', /"lb" is a unit of mass; asked for is a unit of force.*Write "lbf"/],
    ['3 kg', 'force', /Write "kgf"/],
    ['3 lbf', 'mass', /"lbf" is a unit of force; asked for is a unit of mass.*Write "lb"/],
    ['3 MPa', 'force', /"MPa" is a unit of stress/],
  ];
  it.each(mixed)('%j for %s', (typed, kind, words) => {
    const refusal = refusalOf(() => readQuantity(typed, kind));
    expect(refusal).toMatchObject({ code: 'wrong-kind', value: typed });
    expect(refusal.message).toMatch(words);
  });

  it('an unknown unit names the kind asked for', () => {
    expect(refusalOf(() => readQuantity('3 furlong', 'length')).message).toMatch(
      /"furlong".*unit of length: mm, cm, m, in, ft/,
    );
  });
});

it('a bare number of a program is refused as one without a unit', () => {
  // @ts-expect-error what a JSON file holds is not known to be a text
  expect(refusalOf(() => readQuantity(45))).toMatchObject({ code: 'ambiguous-quantity', position: 0, value: 45 });
  // @ts-expect-error the same where the place takes one kind
  expect(refusalOf(() => readQuantity(45, 'mass')).message).toMatch(/"45 kg" or "45 lb"/);
  // @ts-expect-error the same for any other value
  expect(refusalOf(() => readQuantity(null))).toMatchObject({ code: 'wrong-shape', position: 0 });
});

it('a text longer than any quantity is refused unread', () => {
  expect(refusalOf(() => readQuantity(`${'1'.repeat(1e6)} mm`)).code).toBe('unreadable-quantity');
  expect(readQuantity(`5${' '.repeat(197)}mm`)).toMatchObject({ value: 5, unit: 'mm' });
  expect(refusalOf(() => readQuantity(`5${' '.repeat(198)}mm`))).toMatchObject({
    code: 'unreadable-quantity',
    position: 200,
    value: `5${' '.repeat(39)}…`,
  });
});

it('a unit that is refused is refused where it begins', () => {
  expect(refusalOf(() => readUnit('  furlong'))).toMatchObject({ code: 'unknown-unit', position: 2 });
  expect(refusalOf(() => readUnit('  mm', 'torque'))).toMatchObject({ code: 'wrong-kind', position: 2 });
});

it('every canonical spelling names itself', async () => {
  const { allUnits } = await import('../../../renderer/engine/units/index.ts');
  expect(allUnits.map((unit) => readUnit(unit).unit)).toEqual(allUnits);
});

it('quantityIn converts while reading', () => {
  expect(quantityIn('1-1/4 in', 'length', 'mm')).toBe(31.75);
  expect(quantityIn('1 kN·m', 'torque', 'N·m')).toBe(1000);
  expect(quantityIn('1 MN·m', 'torque', 'mN·m')).toBe(1e9);
});

it('a mixed number with a hyphen of Unicode is as exact as one with a plain hyphen', () => {
  for (const hyphen of ['\u2010', '\u2011']) {
    expect(limitIn(`1${hyphen}1/3 in`, 'maximum', { unit: 'in', decimals: 4 })).toBe('1.3333');
    expect(limitIn(`-1${hyphen}1/8 in`, 'maximum', { unit: 'in', decimals: 4 })).toBe('-1.1250');
  }
});

it('the smallest number with all its digits is read, and so is 0 however it is written', () => {
  expect(readQuantity('2.2250738585072014e-308 N').value).toBe(2 ** -1022);
  expect(readQuantity('0.000e-999 N').value).toBe(0);
});

it('negative zero is zero', () => {
  expect(Object.is(readQuantity('-0 mm').value, 0)).toBe(true);
});

it('whatever is typed is read as a finite quantity or refused with a position', () => {
  const pieces = fc.constantFrom(
    '1',
    '250',
    '.',
    ',',
    '/',
    '-',
    ' ',
    'e',
    'N',
    'm',
    '·',
    'in',
    '"',
    'ft',
    'lb',
    '½',
    '+',
    '1/2',
    'M',
    'k',
    '²',
  );
  const typed = fc.oneof(
    fc.array(pieces, { maxLength: 8 }).map((parts) => parts.join('')),
    fc.string(),
  );
  fc.assert(
    fc.property(typed, (text) => {
      try {
        const read = readQuantity(text);
        return Number.isFinite(read.value) && read.typed === text;
      } catch (error) {
        return (
          error instanceof RefusedError && typeof error.refusal.position === 'number' && error.refusal.value === text
        );
      }
    }),
    { numRuns: shareOf(20_000), seed: 13 },
  );
});
