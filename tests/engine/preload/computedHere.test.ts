/**
 * Evaluations of the formulas made elsewhere, by hand and calculator, that no document prints. They hold the program to its formulas; they
 * do not say that the formulas are right: that is what tests/validation is for.
 */
import { describe, expect, it } from 'vitest';
import { releaseTorqueNm } from '../../../renderer/engine/loosening/releaseTorque.ts';
import {
  bearingArmMm,
  boltStiffnessNPerMm,
  effectiveNutFactor,
  elongationMm,
  greatestPreloadN,
  leastPreloadN,
  nasaJointStiffnessNPerMm,
  scatterOfSeveral,
  screwThreadArmMm,
  tanLeadAngle,
  thermalLoadN,
} from '../../../renderer/engine/preload/formula/index.ts';
import { jointTask } from '../../../renderer/engine/preload/index.ts';

describe('long form of the nut factor, in inches', () => {
  it.each([
    {
      d: 0.5,
      n: 13,
      rootArea: 0.1257,
      preload: 12_000,
      f: 0.15,
      torque: 1182.94,
      K: 0.19716,
      dm: 0.450_03,
      lead: 3.1143,
    },
    {
      d: 0.375,
      n: 24,
      rootArea: 0.0809,
      preload: 4851,
      f: 0.1,
      torque: 243.89,
      K: 0.134_07,
      dm: 0.347_97,
      lead: 2.1828,
    },
  ])('$d in, $n threads an inch', ({ d, n, rootArea, preload, f, torque, K, dm, lead }) => {
    const meanDiameterMm = (d + Math.sqrt((4 * rootArea) / Math.PI)) / 2;
    const screw = { meanDiameterMm, leadMm: 1 / n, halfAngleDeg: 30, friction: f };
    expect(meanDiameterMm).toBeCloseTo(dm, 5);
    expect((Math.atan(tanLeadAngle(screw)) * 180) / Math.PI).toBeCloseTo(lead, 3);
    const arm = screwThreadArmMm(screw) + bearingArmMm({ friction: f, bearingDiameterMm: 1.25 * d });
    expect(preload * arm).toBeCloseTo(torque, 1);
    expect(effectiveNutFactor({ torqueNm: (preload * arm) / 1000, diameterMm: d, preloadN: preload })).toBeCloseTo(
      K,
      5,
    );
  });
});

it('elongation of 40 mm at 29 600 N', () => {
  expect(elongationMm({ preloadN: 29_600, lengthMm: 40, areaMm2: 58, modulusMPa: 205_000 })).toBeCloseTo(0.099_58, 5);
});

describe('preload range', () => {
  const x = { preloadN: 2011, scatter: 0.25, lossN: 0, relaxation: 0.05 };

  it('NASA TM-106943', () => {
    expect(greatestPreloadN({ ...x, gainN: 0 })).toBeCloseTo(2513.75, 2);
    expect(leastPreloadN({ ...x, form: 'divide' })).toBeCloseTo(1436.43, 2);
  });

  it('NASA-STD-5020, one bolt and four', () => {
    expect(leastPreloadN({ ...x, form: 'multiply' })).toBeCloseTo(1432.84, 2);
    const scatter = scatterOfSeveral({ scatter: 0.25, bolts: 4 });
    expect(leastPreloadN({ ...x, scatter, form: 'multiply' })).toBeCloseTo(1671.64, 2);
  });

  it('thermal load of a steel bolt in aluminium, in pounds and inches', () => {
    const stiffness = {
      boltStiffnessNPerMm: boltStiffnessNPerMm({ areaMm2: 0.0364, modulusMPa: 29e6, gripMm: 1 }),
      jointStiffnessNPerMm: nasaJointStiffnessNPerMm({ gripMm: 1, diameterMm: 0.25, modulusMPa: 1e7 }),
    };
    expect(stiffness.boltStiffnessNPerMm).toBeCloseTo(1_055_600, 3);
    expect(stiffness.jointStiffnessNPerMm).toBeCloseTo(6_325_118, 0);
    const loadN = thermalLoadN({ ...stiffness, gripMm: 1, thermalStrain: 100 * (1.3e-5 - 6.5e-6) });
    expect(loadN).toBeCloseTo(588.01, 2);
  });
});

describe('tension with torsion', () => {
  it.each([
    { thread: 'M10x1.5', preload: '29600 N', tension: 510.44, elastic: [205.31, 622.1], plastic: [153.98, 575.91] },
    { thread: 'M8x1', preload: '20200 N', tension: 515.74, elastic: [195.26, 616.74], plastic: [146.45, 574.74] },
  ])('$thread at $preload', ({ thread, preload, tension, ...ways }) => {
    for (const torsion of ['elastic', 'plastic'] as const) {
      const { stressMPa } = jointTask({
        thread,
        friction: { thread: 0.12, bearing: 0.12, bearingDiameterMm: 13 },
        form: 'linear',
        preload,
        torsion,
      });
      const [shear = 0, equivalent = 0] = ways[torsion];
      // Evaluated with three digits of the linear form's constants.
      expect(stressMPa?.tension).toBeCloseTo(tension, 1);
      expect((stressMPa?.shear ?? 0) / shear).toBeCloseTo(1, 3);
      expect((stressMPa?.equivalent ?? 0) / equivalent).toBeCloseTo(1, 3);
    }
  });
});

describe('loosening', () => {
  it.each([
    { name: 'M10x1.5', d: 10, P: 1.5, F: 29_600, f: 0.12, dc: 13, tight: 48.853, loose: 34.448 },
    { name: '1/2-13 in mm', d: 12.7, P: 1.953_846, F: 40_000, f: 0.15, dc: 16.5, tight: 102.032, loose: 76.406 },
  ])('$name', ({ d, P, F, f, dc, tight, loose }) => {
    const screw = { meanDiameterMm: d - 0.649_519_05 * P, leadMm: P, halfAngleDeg: 30, friction: f };
    const bearing = { friction: f, bearingDiameterMm: dc };
    expect((F * (screwThreadArmMm(screw) + bearingArmMm(bearing))) / 1000).toBeCloseTo(tight, 2);
    expect(releaseTorqueNm({ preloadN: F, screw, bearing, runningNm: 0 })).toBeCloseTo(loose, 2);
  });
});
