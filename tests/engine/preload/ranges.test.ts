/** The ends of each formula's range, from inside and from outside, as its own comment states them. */
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { rootShearTorqueNm } from '../../../renderer/engine/loosening/rootShear.ts';
import * as formulas from '../../../renderer/engine/preload/formula/index.ts';

type Numbers = Record<string, number | string>;

/** Above 0, at 0, or up to an end: what a field takes and what it refuses. */
interface Range {
  takes: number[];
  refuses: number[];
}

const above0: Range = { takes: [1e-9, 0.5, 0.99], refuses: [0, -0.5] };
const from0: Range = { takes: [0, 0.5], refuses: [-0.5] };
const friction: Range = { takes: [1e-9, 0.5, 0.99], refuses: [0, 1, 1.5, -0.1] };
const below1: Range = { takes: [0, 0.5, 0.99], refuses: [1, 1.5, -0.1] };
const shareTo1: Range = { takes: [0.01, 1], refuses: [0, 1.001, -0.1] };

const pull = { takes: [0, 1, 1000], refuses: [-1] };

const cases: { name: string; run: (x: never) => number; good: Numbers; ranges: Record<string, Range> }[] = [
  {
    name: 'linearThreadArmMm',
    run: formulas.linearThreadArmMm,
    good: { pitchMm: 1.5, pitchDiameterMm: 9, friction: 0.12 },
    ranges: { pitchMm: above0, pitchDiameterMm: above0, friction },
  },
  {
    name: 'assemblyArmMm',
    run: formulas.assemblyArmMm,
    good: { pitchMm: 1.5, pitchDiameterMm: 9, friction: 0.12 },
    ranges: { pitchMm: above0, pitchDiameterMm: above0, friction },
  },
  {
    name: 'nutFactorTorqueNm',
    run: formulas.nutFactorTorqueNm,
    good: { nutFactor: 0.2, diameterMm: 10, preloadN: 1000 },
    ranges: { nutFactor: above0, diameterMm: above0, preloadN: from0 },
  },
  {
    name: 'nutFactorPreloadN',
    run: formulas.nutFactorPreloadN,
    good: { nutFactor: 0.2, diameterMm: 10, torqueNm: 2 },
    ranges: { nutFactor: above0, diameterMm: above0, torqueNm: from0 },
  },
  {
    name: 'effectiveNutFactor',
    run: formulas.effectiveNutFactor,
    good: { torqueNm: 2, diameterMm: 10, preloadN: 1000 },
    ranges: { diameterMm: above0, preloadN: above0 },
  },
  {
    name: 'leastPreloadN',
    run: formulas.leastPreloadN,
    good: { preloadN: 1000, scatter: 0.25, lossN: 10, relaxation: 0.05, form: 'divide' },
    ranges: { preloadN: from0, scatter: below1, lossN: from0, relaxation: below1 },
  },
  {
    name: 'greatestPreloadN',
    run: formulas.greatestPreloadN,
    good: { preloadN: 1000, scatter: 0.25, gainN: 10 },
    ranges: { preloadN: from0, scatter: below1, gainN: from0 },
  },
  {
    name: 'scatterOfSeveral',
    run: formulas.scatterOfSeveral,
    good: { scatter: 0.25, bolts: 4 },
    ranges: { scatter: below1, bolts: { takes: [1, 2], refuses: [0, -1, 1.5] } },
  },
  {
    name: 'tanLeadAngle',
    run: formulas.tanLeadAngle,
    good: { meanDiameterMm: 9, leadMm: 1.5 },
    ranges: { meanDiameterMm: above0, leadMm: above0 },
  },
  {
    name: 'flankFriction',
    run: formulas.flankFriction,
    good: { halfAngleDeg: 30, friction: 0.12 },
    ranges: { halfAngleDeg: { takes: [0, 89.9], refuses: [-1, 90, 90.5] }, friction },
  },
  {
    name: 'bearingArmMm',
    run: formulas.bearingArmMm,
    good: { friction: 0.12, bearingDiameterMm: 13 },
    ranges: { friction: below1, bearingDiameterMm: from0 },
  },
  {
    name: 'thermalLoadN',
    run: formulas.thermalLoadN,
    good: { boltStiffnessNPerMm: 2e5, jointStiffnessNPerMm: 8e5, gripMm: 30, thermalStrain: 1e-4 },
    ranges: {
      boltStiffnessNPerMm: above0,
      jointStiffnessNPerMm: above0,
      gripMm: above0,
      thermalStrain: { takes: [0, -0.5, 0.99], refuses: [1, -1] },
    },
  },
  {
    name: 'jointConstant',
    run: formulas.jointConstant,
    good: { boltStiffnessNPerMm: 2e5, jointStiffnessNPerMm: 8e5 },
    ranges: { boltStiffnessNPerMm: above0, jointStiffnessNPerMm: above0 },
  },
  {
    name: 'serviceStressMPa',
    run: formulas.serviceStressMPa,
    good: { jointConstant: 0.2, loadN: 1000, preloadN: 1000, stressAreaMm2: 58 },
    ranges: { jointConstant: { takes: [0, 1], refuses: [-0.1, 1.1] }, stressAreaMm2: above0 },
  },
  {
    name: 'yieldSharePreloadN',
    run: formulas.yieldSharePreloadN,
    good: {
      share: 0.9,
      yieldMPa: 640,
      stressAreaMm2: 58,
      pitchDiameterMm: 9,
      pitchMm: 1.5,
      friction: 0.12,
      torsion: 'plastic',
    },
    ranges: {
      share: shareTo1,
      yieldMPa: above0,
      stressAreaMm2: above0,
      pitchDiameterMm: above0,
      pitchMm: above0,
      friction,
    },
  },
  {
    name: 'stressSharePreloadN',
    run: formulas.stressSharePreloadN,
    good: { share: 0.65, yieldMPa: 640, stressAreaMm2: 58 },
    ranges: { share: shareTo1, yieldMPa: above0, stressAreaMm2: above0 },
  },
  {
    name: 'boltStiffnessNPerMm',
    run: formulas.boltStiffnessNPerMm,
    good: { areaMm2: 58, modulusMPa: 205000, gripMm: 30 },
    ranges: { areaMm2: above0, modulusMPa: above0, gripMm: above0 },
  },
  {
    name: 'nasaJointStiffnessNPerMm',
    run: formulas.nasaJointStiffnessNPerMm,
    good: { gripMm: 30, diameterMm: 10, modulusMPa: 205000 },
    ranges: { gripMm: above0, diameterMm: above0, modulusMPa: above0 },
  },
  {
    name: 'tensionMPa',
    run: formulas.tensionMPa,
    good: { preloadN: 1000, stressAreaMm2: 58 },
    ranges: { stressAreaMm2: above0 },
  },
  {
    name: 'stressDiameterMm',
    run: formulas.stressDiameterMm,
    good: { stressAreaMm2: 58 },
    ranges: { stressAreaMm2: above0 },
  },
  {
    name: 'torsionMPa',
    run: formulas.torsionMPa,
    good: { threadTorqueNm: 25, stressDiameterMm: 8.6, torsion: 'elastic' },
    ranges: { stressDiameterMm: above0 },
  },
  {
    name: 'screwEfficiency',
    run: formulas.screwEfficiency,
    good: { preloadN: 1000, leadMm: 5, torqueNm: 10 },
    ranges: { leadMm: above0, torqueNm: above0 },
  },
  {
    name: 'elongationMm',
    run: formulas.elongationMm,
    good: { preloadN: 1000, lengthMm: 40, areaMm2: 58, modulusMPa: 205000 },
    ranges: { lengthMm: from0, areaMm2: above0, modulusMPa: above0 },
  },
  {
    name: 'rootShearTorqueNm',
    run: rootShearTorqueNm,
    good: { rootDiameterMm: 8.16, yieldMPa: 640, preloadN: 0 },
    ranges: { rootDiameterMm: above0, yieldMPa: above0, preloadN: pull },
  },
];

describe.each(cases)('$name', ({ run, good, ranges }) => {
  const of = (field: string, value: number): number => run({ ...good, [field]: value } as never);

  it.each(Object.entries(ranges))('%s', (field, { takes, refuses }) => {
    for (const value of takes) expect(of(field, value), `${field} ${value}`).not.toBeNaN();
    for (const value of refuses) expect(() => of(field, value), `${field} ${value}`).toThrow(RefusedError);
    for (const value of [Number.NaN, Infinity, -Infinity]) {
      expect(() => of(field, value), `${field} ${value}`).toThrow(RefusedError);
    }
  });
});

describe('the screw equation', () => {
  it('has no answer once the thread’s friction meets the helix', () => {
    // Square thread: tan λ = lead/(π·dm); at f·tan λ = 1 the denominator is 0.
    const steep = { meanDiameterMm: 10, halfAngleDeg: 0, friction: 0.5 };
    const leadAtMm = (tan: number): number => tan * Math.PI * 10;
    expect(formulas.screwThreadArmMm({ ...steep, leadMm: leadAtMm(1.99) })).toBeGreaterThan(0);
    expect(() => formulas.screwThreadArmMm({ ...steep, leadMm: leadAtMm(2.01) })).toThrow(/screw equation/);
  });

  it('turns on a cone of 30° or 45°, by their own constants', () => {
    const joint = { gripMm: 30, diameterMm: 10, modulusMPa: 205000 };
    // 9th ed., eq. 8-22 for 30°: 0.5774·π·E·d/(2·ln(5·(0.5774·l + 0.5·d)/(0.5774·l + 2.5·d))).
    const cone30 = (0.5774 * Math.PI * 205000 * 10) / (2 * Math.log((5 * (17.322 + 5)) / (17.322 + 25)));
    const cone45 = (Math.PI * 205000 * 10) / (2 * Math.log((5 * (30 + 5)) / (30 + 25)));
    expect(formulas.jointStiffnessNPerMm({ ...joint, coneDeg: 30 }) / cone30).toBeCloseTo(1, 12);
    expect(formulas.jointStiffnessNPerMm({ ...joint, coneDeg: 45 }) / cone45).toBeCloseTo(1, 12);
  });

  it('torsion is 16 or 12 parts in π·d0³', () => {
    const shank = { threadTorqueNm: 1, stressDiameterMm: 10 };
    expect(formulas.torsionMPa({ ...shank, torsion: 'elastic' })).toBeCloseTo(16 / Math.PI, 12);
    expect(formulas.torsionMPa({ ...shank, torsion: 'plastic' })).toBeCloseTo(12 / Math.PI, 12);
  });

  it('preload at a share of yield counts torsion 2 or 1.5 times', () => {
    const joint = { share: 0.9, yieldMPa: 640, stressAreaMm2: 58, pitchDiameterMm: 9, pitchMm: 1.5, friction: 0.12 };
    const d0 = Math.sqrt((4 * 58) / Math.PI);
    const expected = (c: number): number =>
      (58 * 0.9 * 640) / Math.sqrt(1 + 3 * (c * (9 / d0) * (1.5 / (Math.PI * 9) + 1.1547 * 0.12)) ** 2);
    expect(formulas.yieldSharePreloadN({ ...joint, torsion: 'elastic' }) / expected(2)).toBeCloseTo(1, 12);
    expect(formulas.yieldSharePreloadN({ ...joint, torsion: 'plastic' }) / expected(1.5)).toBeCloseTo(1, 12);
  });

  it('a thermal load is the two stiffnesses in a row, over the grip', () => {
    const load = { boltStiffnessNPerMm: 2e5, jointStiffnessNPerMm: 8e5, gripMm: 30, thermalStrain: 1e-4 };
    expect(formulas.thermalLoadN(load)).toBeCloseTo(((2e5 * 8e5) / 1e6) * 30 * 1e-4, 9);
  });
});
