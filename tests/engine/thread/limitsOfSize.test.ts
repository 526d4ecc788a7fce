import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import {
  limitsOfSize,
  readThread,
  type ExternalClass,
  type InternalClass,
} from '../../../renderer/engine/thread/index.ts';
import { minorToleranceIn, pitchTolerance2AIn, tolerancesIn } from '../../../renderer/engine/thread/limitTolerances.ts';

const size = fc.constantFrom(
  '#0-80',
  '#2-56',
  '#10-32',
  '1/4-20',
  '1/4-28',
  '1/2-13',
  '1-8',
  '1-1/2-6',
  '1-1/4-16',
  '5/8-24',
);
const external = fc.constantFrom<ExternalClass>('2A', '3A');
const internal = fc.constantFrom<InternalClass>('2B', '3B');

describe('limits of size', () => {
  it('lie on the material’s side of the basic profile, in their order', () => {
    fc.assert(
      fc.property(size, external, internal, (name, externalClass, internalClass) => {
        const thread = readThread(name);
        const limits = limitsOfSize({ thread, externalClass, internalClass });
        expect(limits.majorExternalMinMm).toBeLessThan(thread.majorMm);
        expect(limits.pitchExternalMinMm).toBeLessThan(thread.pitchDiameterMm);
        expect(limits.minorInternalMaxMm).toBeGreaterThan(thread.minorDiameterMm);
        expect(limits.pitchInternalMaxMm).toBeGreaterThan(thread.pitchDiameterMm);
        expect(limits.minorInternalMaxMm).toBeLessThan(limits.pitchInternalMaxMm);
        expect(limits.pitchExternalMinMm).toBeLessThan(limits.majorExternalMinMm);
      }),
    );
  });

  it('are closer in class 3 than in class 2', () => {
    fc.assert(
      fc.property(size, (name) => {
        const thread = readThread(name);
        const two = limitsOfSize({ thread, externalClass: '2A', internalClass: '2B' });
        const three = limitsOfSize({ thread, externalClass: '3A', internalClass: '3B' });
        expect(three.majorExternalMinMm).toBeGreaterThan(two.majorExternalMinMm);
        expect(three.pitchExternalMinMm).toBeGreaterThan(two.pitchExternalMinMm);
        expect(three.pitchInternalMaxMm).toBeLessThan(two.pitchInternalMaxMm);
        expect(three.minorInternalMaxMm).toBeLessThanOrEqual(two.minorInternalMaxMm);
      }),
    );
  });

  it('of UN threads that are neither coarse nor fine take nine pitches as engagement', () => {
    const P = 25.4 / 8;
    const eightUn = limitsOfSize({ thread: readThread('1-3/8-8 UN'), externalClass: '3A', internalClass: '3B' });
    const Td2 = 25.4 * pitchTolerance2AIn({ majorIn: 1.375, threadsPerInch: 8, engagementIn: 9 / 8 });
    expect(eightUn.pitchExternalMinMm).toBeCloseTo(1.375 * 25.4 - 0.64951905 * P - 0.75 * Td2, 12);
    const coarse = limitsOfSize({ thread: readThread('1-3/8-6'), externalClass: '3A', internalClass: '3B' });
    const coarseTd2 = 25.4 * pitchTolerance2AIn({ majorIn: 1.375, threadsPerInch: 6, engagementIn: 1.375 });
    expect(coarse.pitchInternalMaxMm).toBeCloseTo(1.375 * 25.4 - (0.64951905 * 25.4) / 6 + 0.975 * coarseTd2, 12);
  });

  it.each([
    ['M10', /No published value held.*none for metric threads/],
    ['1/4-28 UNJF', /No published value held.*none for UNJ threads/],
    ['5/8-24 UNJ', /none for UNJ threads/],
  ])('of %s are not held', (name, words) => {
    const run = () => limitsOfSize({ thread: readThread(name), externalClass: '3A', internalClass: '3B' });
    expect(run).toThrow(RefusedError);
    expect(run).toThrow(words);
  });
});

describe('tolerances of ASME B1.1, evaluated by hand from the formulas', () => {
  it('Td2 of 1/2-13, class 2A', () => {
    // 0.0015·0.793701 + 0.0015·0.707107 + 0.015·0.180871
    expect(pitchTolerance2AIn({ majorIn: 0.5, threadsPerInch: 13, engagementIn: 0.5 })).toBeCloseTo(0.004964, 6);
  });

  it.each([
    ['3A has no allowance', '3A', '2B', 'allowance', 0],
    ['2A: 0.3 Td2', '2A', '2B', 'allowance', 0.3],
    ['2A', '2A', '2B', 'pitchExternal', 1],
    ['3A: 0.75 Td2', '3A', '2B', 'pitchExternal', 0.75],
    ['2B: 1.3 Td2', '2A', '2B', 'pitchInternal', 1.3],
    ['3B: 0.975 Td2', '2A', '3B', 'pitchInternal', 0.975],
  ] as const)('%s', (_, externalClass, internalClass, which, factor) => {
    const basic = { majorIn: 0.5, threadsPerInch: 13, engagementIn: 0.5 };
    const tolerances = tolerancesIn({ ...basic, externalClass, internalClass });
    expect(tolerances[which]).toBeCloseTo(factor * pitchTolerance2AIn(basic), 15);
    expect(tolerances.majorExternal).toBeCloseTo(0.06 * 13 ** (-2 / 3), 15);
  });

  it.each([
    ['2B from 1/4 in up', '2B', 0.25, 20, 0.0115],
    ['2B at 1/4 in itself, however coarse', '2B', 0.25, 6, 0.25 / 6 - 0.4 / 36],
    ['2B below 4 threads an inch', '2B', 4, 3.5, 0.15 / 3.5],
    ['2B above 4 threads an inch', '2B', 2, 4.5, 0.25 / 4.5 - 0.4 / 4.5 ** 2],
    ['2B at 4 threads an inch', '2B', 4, 4, 0.25 / 4 - 0.4 / 16],
    ['2B below 1/4 in, #10-32', '2B', 0.19, 32, 0.007895],
    ['2B below 1/4 in, its own: #10-24', '2B', 0.19, 24, 0.010588],
    ['2B below 1/4 in, at least 0.25 P − 0.4 P²', '2B', 0.24, 20, 0.25 / 20 - 0.4 / 400],
    ['2B and 3B, at most 0.394 P: #0-80', '2B', 0.06, 80, 0.394 / 80],
    ['3B, at most 0.394 P: #0-80', '3B', 0.06, 80, 0.394 / 80],
    ['3B, at least 0.23 P − 1.5 P²: 5/8-18', '3B', 0.625, 18, 0.23 / 18 - 1.5 / 324],
    ['3B, its own: #10-32', '3B', 0.19, 32, 0.007895],
    ['3B, its own: 1/2-13', '3B', 0.5, 13, 0.011659],
    ['3B at 13 threads an inch, at least 0.23 P − 1.5 P²', '3B', 4, 13, 0.23 / 13 - 1.5 / 169],
    ['3B below 13 threads an inch, at least 0.12 P', '3B', 4, 12, 0.12 / 12],
    ['3B, at least 0.12 P: 1-8', '3B', 1, 8, 0.12 / 8],
  ] as const)('minor diameter: %s', (_, internalClass, majorIn, threadsPerInch, inches) => {
    expect(minorToleranceIn({ majorIn, threadsPerInch, internalClass })).toBeCloseTo(inches, 6);
  });
});
