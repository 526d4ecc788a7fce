import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { proofLoadN, readStrength, shearStrengthMPa, ultimateLoadN } from '../../../renderer/engine/strength/index.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';

function read(input: unknown, designation: string | null = 'M10') {
  return readStrength(input, { thread: designation === null ? null : readThread(designation), field: 'strength' });
}

function refusal(input: unknown, designation: string | null = 'M10', field = 'strength') {
  try {
    readStrength(input, { thread: designation === null ? null : readThread(designation), field });
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('a name', () => {
  it.each([
    ['8.8', 'M10', 'ISO 898-1 class 8.8'],
    ['  8.8 ', 'M10', 'ISO 898-1 class 8.8'],
    ['class 10.9', 'M10', 'ISO 898-1 class 10.9'],
    ['Property Class 10.9', 'M10', 'ISO 898-1 class 10.9'],
    ['iso 898-1 12.9', 'M10', 'ISO 898-1 class 12.9'],
    ['ISO898‑1 class 12.9', 'M10', 'ISO 898-1 class 12.9'],
    ['SAE J429 grade 5', '1/2-13', 'SAE J429 grade 5'],
    ['sae  j429 GRADE5', '1/2-13', 'SAE J429 grade 5'],
    ['J429 gr. 5.2', '1/2-13', 'SAE J429 grade 5.2'],
    ['SAE grade 8', '1/2-13', 'SAE J429 grade 8'],
    ['SAE J429-8', '1/2-13', 'SAE J429 grade 8'],
    ['a2-70', 'M10', 'ISO 3506-1 A2-70'],
    ['A2 – 70', 'M10', 'ISO 3506-1 A2-70'],
    ['ISO 3506-1 A4-80', 'M10', 'ISO 3506-1 A4-80'],
    ['Class 100', 'M10', 'ISO 3506-1 class 100'],
    ['a449', '1/2-13', 'ASTM A449'],
    ['ASTM A354 BD', '1/2-13', 'ASTM A354 grade BD'],
    ['a325 type 1', '1/2-13', 'ASTM A325 type 1'],
    ['A286', null, 'NASA TM-106943 A-286 (annealed/aged as used in TM tables)'],
    ['mil-b-7838c', null, 'NASA TM-106943 alloy steel bolt, MIL-B-7838C'],
  ])('%j on %s is %s', (typed, designation, name) => {
    expect(read(typed, designation).name).toBe(name);
  });

  it.each([
    '',
    ' ',
    '8,8',
    '-8.8',
    '88',
    '8.8.',
    '7.8',
    '14.9',
    'grade 5',
    'A325',
    'A2-80',
    'A2',
    'A4-100',
    '8.8 or so',
    'toString',
  ])('%j is refused, and what is held is named', (typed) => {
    const found = refusal(typed);
    expect(found).toMatchObject({ code: 'not-held', field: 'strength', value: typed });
    expect(found.message).toMatch(/ISO 898-1 3\.6, 4\.6.*12\.9; SAE J429 grade 1, 2, .*ISO 3506-1 A2-50/);
  });

  it('of any length is refused, and never repeated whole', () => {
    const found = refusal('8'.repeat(5000));
    expect(found.code).toBe('not-held');
    expect(String(found.value).length).toBeLessThan(100);
    expect(found.message.length).toBeLessThan(1000);
  });

  it('is repeated as it was typed up to 80 characters, and of a longer one its beginning', () => {
    expect(refusal('8'.repeat(80)).value).toBe('8'.repeat(80));
    expect(refusal('8'.repeat(81)).value).toBe(`${'8'.repeat(80)}…`);
  });

  it('that is anything at all is read or refused, never thrown about', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.anything()), (input) => {
        try {
          read(input);
        } catch (error) {
          expect(error).toBeInstanceOf(RefusedError);
        }
      }),
    );
  });
});

describe('a size outside the range', () => {
  it.each([
    ['9.8', 'M20', /M1\.6 to M16.*ISO 898-1 \(1999\).*M20x2\.5 is outside/],
    ['8.8', 'M42', /to M39.*M42x4\.5 is outside/],
    ['8.8', '1/2-13', /holds for metric threads.*1\/2-13 UNC is an inch thread/],
    ['A2-70', '1/4-20', /holds for metric threads/],
    ['SAE J429 grade 5', '10-32', /1\/4 to 1 in, and 1-1\/8 to 1-1\/2 in.*SAE J429/],
    ['SAE J429 grade 5', 'M10', /holds for inch threads.*M10x1\.5 is a metric thread/],
    ['SAE J429 grade 5.2', '1-1/8-7', /1\/4 to 1 in/],
    ['8.8', null, /no thread designation/],
  ])('%s on %s names range and source', (typed, designation, words) => {
    const found = refusal(typed, designation);
    expect(found).toMatchObject({ code: 'out-of-range', field: 'strength', value: typed });
    expect(found.message).toMatch(words);
  });
});

describe('strengths as typed', () => {
  it('are taken as they are, on any thread or none', () => {
    const given = { proofMPa: 600, yieldMPa: 660, ultimateMPa: 830 };
    for (const designation of ['M10', '1/4-28', null]) {
      expect(read(given, designation)).toEqual({ name: 'as given', ...given, sources: [] });
    }
    expect(read({ ultimateMPa: 500 })).toEqual({
      name: 'as given',
      proofMPa: null,
      yieldMPa: null,
      ultimateMPa: 500,
      sources: [],
    });
    expect(read({ proofMPa: 600, yieldMPa: 600, ultimateMPa: 600 }).yieldMPa).toBe(600);
  });

  it.each([
    [{}, 'missing-field', 'joint.strength', /at least one/],
    [
      { proofMPa: 700, yieldMPa: 600 },
      'contradiction',
      'joint.strength.yieldMPa',
      /proofMPa 700 is more than yieldMPa 600/,
    ],
    [{ proofMPa: 900, ultimateMPa: 800 }, 'contradiction', 'joint.strength.ultimateMPa', /proofMPa 900/],
    [{ yieldMPa: 900, ultimateMPa: 800 }, 'contradiction', 'joint.strength.ultimateMPa', /yieldMPa 900/],
    [{ yieldMPa: 0 }, 'out-of-range', 'joint.strength.yieldMPa', /more than 0/],
    [{ yieldMPa: -5 }, 'out-of-range', 'joint.strength.yieldMPa', /more than 0/],
    [{ yieldMPa: 0.05 }, 'out-of-range', 'joint.strength.yieldMPa', /no material has 0\.05 MPa: 0\.1 to 100000/],
    [{ yieldMPa: 100_000.5 }, 'out-of-range', 'joint.strength.yieldMPa', /no material has 100000\.5/],
    [{ yieldMPa: Number.NaN }, 'not-finite', 'joint.strength.yieldMPa', /NaN/],
    [{ yieldMPa: Infinity }, 'not-finite', 'joint.strength.yieldMPa', /Infinity/],
    [{ ultimateMPa: 1e300 }, 'out-of-range', 'joint.strength.ultimateMPa', /no material/],
    [{ yieldMPa: '640' }, 'wrong-shape', 'joint.strength.yieldMPa', /number of MPa/],
    [{ yieldMPa: null }, 'wrong-shape', 'joint.strength.yieldMPa', /number of MPa/],
    [{ yieldMPa: 640, tensileMPa: 800 }, 'wrong-shape', 'joint.strength.tensileMPa', /known are proofMPa/],
    [8.8, 'wrong-shape', 'joint.strength', /as "8\.8"/],
    [null, 'wrong-shape', 'joint.strength', /must be the name/],
    [['8.8'], 'wrong-shape', 'joint.strength', /must be the name/],
  ])('%j is refused as %s of %s', (input, code, field, words) => {
    const found = refusal(input, 'M10', 'joint.strength');
    expect(found).toMatchObject({ code, field });
    expect(found.message).toMatch(words);
  });
});

describe('the value of a refusal', () => {
  it.each([
    [8.8, 8.8],
    [true, true],
    [{ yieldMPa: '640' }, '640'],
    [{ yieldMPa: -5 }, -5],
    [{ tensileMPa: 800 }, 800],
  ])('of %j is %j', (input, value) => {
    expect(refusal(input).value).toBe(value);
  });

  it.each([null, undefined, [['8.8']], {}, { yieldMPa: { least: 640 } }, { other: [1] }])(
    'is not there for %j, which is no one value',
    (input) => {
      expect(refusal(input)).not.toHaveProperty('value');
    },
  );
});

it('strengths of 0.1 to 100 000 MPa are taken, both ends included', () => {
  expect(read({ proofMPa: 0.1, ultimateMPa: 100_000 })).toMatchObject({ proofMPa: 0.1, ultimateMPa: 100_000 });
});

it('what is returned is the caller’s own: changing it changes no other answer', () => {
  const first = read('8.8');
  first.sources.length = 0;
  expect(read('8.8').sources).toHaveLength(2);
});

it('an unknown material has no shear strength, and is named by its first 80 characters', () => {
  const valueOf = (material: string) => {
    try {
      return shearStrengthMPa(material);
    } catch (error) {
      return error instanceof RefusedError ? error.refusal.value : error;
    }
  };
  expect(valueOf('inconel 718')).toBe('inconel 718');
  expect(valueOf('ab'.repeat(60))).toBe('ab'.repeat(40));
  expect(() => shearStrengthMPa('inconel 718')).toThrow(/No shear strength of "inconel 718" is held.*A-286/);
});

it('loads grow with strength and area, and the proof load stays below the ultimate one', () => {
  fc.assert(
    fc.property(
      fc.constantFrom('4.6', '4.8', '5.6', '5.8', '6.8', '8.8', '10.9', '12.9'),
      fc.constantFrom('M5', 'M16', 'M18', 'M36'),
      (name, thread) => {
        const strength = read(name, thread);
        const { stressAreaMm2 } = readThread(thread);
        const proof = proofLoadN({ proofMPa: strength.proofMPa ?? 0, stressAreaMm2 });
        expect(proof).toBeGreaterThan(0);
        expect(proof).toBeLessThan(ultimateLoadN({ ultimateMPa: strength.ultimateMPa ?? 0, stressAreaMm2 }));
        expect(proofLoadN({ proofMPa: strength.proofMPa ?? 0, stressAreaMm2: 2 * stressAreaMm2 })).toBe(2 * proof);
      },
    ),
  );
});
