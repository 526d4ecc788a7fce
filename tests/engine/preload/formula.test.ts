import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  assemblyArmMm,
  bearingArmMm,
  boltStiffnessNPerMm,
  effectiveNutFactor,
  elongationMm,
  equivalentMPa,
  flankFriction,
  greatestPreloadN,
  installationOf,
  jointConstant,
  jointStiffnessNPerMm,
  leastPreloadN,
  linearThreadArmMm,
  nasaJointStiffnessNPerMm,
  nutFactorPreloadN,
  nutFactorTorqueNm,
  scatterOfSeveral,
  screwEfficiency,
  screwThreadArmMm,
  seatingOfWrench,
  serviceStressMPa,
  stressDiameterMm,
  stressSharePreloadN,
  tanLeadAngle,
  tensionMPa,
  thermalLoadN,
  torsionMPa,
  yieldSharePreloadN,
} from '../../../renderer/engine/preload/formula/index.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const relative = (a: number, b: number): number => Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b));

/** Screws as they are made: lead angles up to 25°, any half angle up to 30°. */
const screws = fc
  .record({
    meanDiameterMm: between(1, 100),
    angleDeg: between(0.5, 25),
    halfAngleDeg: between(0, 30),
    friction: between(0.01, 0.5),
  })
  .map(({ angleDeg, ...screw }) => ({
    ...screw,
    leadMm: Math.PI * screw.meanDiameterMm * Math.tan((angleDeg * Math.PI) / 180),
  }));

describe('nut factor', () => {
  const joints = fc.record({ nutFactor: between(0.05, 1), diameterMm: between(1, 100), preloadN: between(1, 1e6) });

  it('torque and preload are each other’s inverse', () => {
    fc.assert(
      fc.property(joints, (x) => {
        const torqueNm = nutFactorTorqueNm(x);
        expect(relative(nutFactorPreloadN({ ...x, torqueNm }), x.preloadN)).toBeLessThanOrEqual(1e-12);
        expect(relative(effectiveNutFactor({ ...x, torqueNm }), x.nutFactor)).toBeLessThanOrEqual(1e-12);
      }),
    );
  });

  it('lengths in another unit change the torque in that measure alone', () => {
    fc.assert(
      fc.property(joints, between(0.1, 10), (x, scale) => {
        const scaled = nutFactorTorqueNm({ ...x, diameterMm: x.diameterMm * scale });
        expect(relative(scaled, nutFactorTorqueNm(x) * scale)).toBeLessThanOrEqual(1e-12);
      }),
    );
  });
});

describe('screw equation', () => {
  it('grows with friction, with the half angle and with the lead', () => {
    fc.assert(
      fc.property(screws, between(1.01, 1.2), (x, more) => {
        const armMm = screwThreadArmMm(x);
        expect(screwThreadArmMm({ ...x, friction: x.friction * more })).toBeGreaterThan(armMm);
        expect(screwThreadArmMm({ ...x, leadMm: x.leadMm * more })).toBeGreaterThan(armMm);
        expect(screwThreadArmMm({ ...x, halfAngleDeg: x.halfAngleDeg + 5 })).toBeGreaterThan(armMm);
      }),
    );
  });

  it('is a length: the screw twice as large has twice the arm', () => {
    fc.assert(
      fc.property(screws, between(0.1, 10), (x, scale) => {
        const large = { ...x, meanDiameterMm: x.meanDiameterMm * scale, leadMm: x.leadMm * scale };
        expect(relative(screwThreadArmMm(large), screwThreadArmMm(x) * scale)).toBeLessThanOrEqual(1e-12);
      }),
    );
  });

  it('is the tangent of lead angle and friction angle together', () => {
    fc.assert(
      fc.property(screws, (x) => {
        const both = Math.atan(tanLeadAngle(x)) + Math.atan(flankFriction(x));
        expect(relative(screwThreadArmMm(x), (x.meanDiameterMm / 2) * Math.tan(both))).toBeLessThanOrEqual(1e-11);
      }),
    );
  });

  it('is met by the linear form where friction times lead angle is small', () => {
    fc.assert(
      fc.property(between(3, 60), between(0.5, 4), between(0.04, 0.2), (d2, angleDeg, friction) => {
        const leadMm = Math.PI * d2 * Math.tan((angleDeg * Math.PI) / 180);
        const exact = screwThreadArmMm({ meanDiameterMm: d2, leadMm, halfAngleDeg: 30, friction });
        const linear = linearThreadArmMm({ pitchMm: leadMm, pitchDiameterMm: d2, friction });
        const product = (friction / Math.cos(Math.PI / 6)) * Math.tan((angleDeg * Math.PI) / 180);
        // Exactly the denominator apart, but for the five digits of the form's constants.
        expect(relative(linear, exact * (1 - product))).toBeLessThanOrEqual(4e-5);
        expect(linear).toBeLessThan(exact * (1 + 4e-5));
      }),
    );
  });

  it('takes any starts by their lead', () => {
    const one = { meanDiameterMm: 20, leadMm: 4, halfAngleDeg: 0, friction: 0.1 };
    expect(tanLeadAngle({ ...one, leadMm: 8 })).toBe(2 * tanLeadAngle(one));
  });

  it('the assembly stress of VDI 2230 holds the same arm within five digits', () => {
    const x = { pitchMm: 1.5, pitchDiameterMm: 9.0257, friction: 0.12 };
    expect(relative(assemblyArmMm(x), linearThreadArmMm(x))).toBeLessThanOrEqual(1e-5);
  });
});

describe('share of yield', () => {
  it.each(['elastic', 'plastic'] as const)('%s: tension and torsion at the preload are that share again', (torsion) => {
    const joints = fc.record({
      share: between(0.05, 1),
      yieldMPa: between(100, 1500),
      stressAreaMm2: between(1, 5000),
      pitchMm: between(0.2, 6),
      friction: between(0.02, 0.5),
    });
    fc.assert(
      fc.property(joints, (x) => {
        const stressDiameter = stressDiameterMm(x);
        const joint = { ...x, pitchDiameterMm: stressDiameter + 0.29 * x.pitchMm, torsion };
        const preloadN = yieldSharePreloadN(joint);
        const shearMPa = torsionMPa({
          threadTorqueNm: (preloadN * assemblyArmMm(joint)) / 1000,
          stressDiameterMm: stressDiameter,
          torsion,
        });
        const equivalent = equivalentMPa({ tensionMPa: tensionMPa({ preloadN, ...x }), shearMPa });
        expect(relative(equivalent / x.yieldMPa, x.share)).toBeLessThanOrEqual(1e-12);
        expect(preloadN).toBeLessThan(stressSharePreloadN(x));
      }),
    );
  });

  it('elastic torsion leaves less preload than plastic', () => {
    const x = { share: 0.9, yieldMPa: 640, stressAreaMm2: 58, pitchDiameterMm: 9.026, pitchMm: 1.5, friction: 0.12 };
    expect(yieldSharePreloadN({ ...x, torsion: 'elastic' })).toBeLessThan(
      yieldSharePreloadN({ ...x, torsion: 'plastic' }),
    );
  });
});

describe('preload range', () => {
  it('the two forms of settling differ by s² of the preload', () => {
    fc.assert(
      fc.property(between(1, 1e6), between(0, 0.9), between(0, 0.5), (preloadN, scatter, relaxation) => {
        const x = { preloadN, scatter, lossN: 0, relaxation };
        const divided = leastPreloadN({ ...x, form: 'divide' });
        const multiplied = leastPreloadN({ ...x, form: 'multiply' });
        expect(divided).toBeGreaterThanOrEqual(multiplied * (1 - 1e-12));
        expect(divided * (1 - relaxation ** 2)).toBeCloseTo(multiplied, 6);
      }),
    );
  });

  it('a thermal loss is divided with the rest, or taken off at the end', () => {
    const x = { preloadN: 1000, scatter: 0.2, lossN: 100, relaxation: 0.25 };
    expect(leastPreloadN({ ...x, form: 'divide' })).toBe(560);
    expect(leastPreloadN({ ...x, form: 'multiply' })).toBe(500);
    expect(greatestPreloadN({ preloadN: 1000, scatter: 0.2, gainN: 100 })).toBe(1300);
  });

  it('a least preload below 0 is told as it is', () => {
    expect(leastPreloadN({ preloadN: 1000, scatter: 0.5, lossN: 800, relaxation: 0, form: 'multiply' })).toBe(-300);
  });
});

describe('running torque', () => {
  it('leaves the wrench’s least torque its greatest, and the other way round', () => {
    const seating = seatingOfWrench({ wrench: { minNm: 20, maxNm: 24 }, running: { minNm: 1, maxNm: 3 } });
    expect(seating).toEqual({ minNm: 17, maxNm: 23 });
    expect(installationOf({ seating, running: { minNm: 1, maxNm: 3 } })).toEqual({ minNm: 18, maxNm: 26 });
  });

  it.each([20, 20.000_000_000_000_004, 25])('of %d N·m leaves nothing of 20 N·m', (maxNm) => {
    expect(() => seatingOfWrench({ wrench: { minNm: 20, maxNm: 24 }, running: { minNm: 0, maxNm } })).toThrow(
      /seating minimum must be above 0/,
    );
  });
});

describe('stiffness', () => {
  const grip = { gripMm: 40, diameterMm: 10, modulusMPa: 205_000 };

  it('two frusta are half as stiff as the one the memorandum prints', () => {
    expect(jointStiffnessNPerMm({ ...grip, coneDeg: 45 })).toBe(nasaJointStiffnessNPerMm(grip) / 2);
    expect(jointStiffnessNPerMm({ ...grip, coneDeg: 30 })).toBeLessThan(jointStiffnessNPerMm({ ...grip, coneDeg: 45 }));
  });

  it('a longer grip is softer, in bolt and in parts', () => {
    const longer = { ...grip, gripMm: 60 };
    expect(jointStiffnessNPerMm({ ...longer, coneDeg: 30 })).toBeLessThan(
      jointStiffnessNPerMm({ ...grip, coneDeg: 30 }),
    );
    expect(boltStiffnessNPerMm({ ...longer, areaMm2: 58 })).toBeLessThan(boltStiffnessNPerMm({ ...grip, areaMm2: 58 }));
  });

  it('a stretched bolt is a spring', () => {
    const bolt = { areaMm2: 58, modulusMPa: 205_000 };
    const stretched = elongationMm({ preloadN: 29_600, lengthMm: 40, ...bolt });
    expect(stretched * boltStiffnessNPerMm({ gripMm: 40, ...bolt })).toBeCloseTo(29_600, 8);
  });
});

const sound = {
  screw: { meanDiameterMm: 9, leadMm: 1.5, halfAngleDeg: 30, friction: 0.12 },
  linear: { pitchMm: 1.5, pitchDiameterMm: 9, friction: 0.12 },
  share: { share: 0.9, yieldMPa: 640, stressAreaMm2: 58, pitchDiameterMm: 9, pitchMm: 1.5, friction: 0.12 },
  nut: { nutFactor: 0.2, diameterMm: 10, preloadN: 1000 },
  least: { preloadN: 1000, scatter: 0.2, lossN: 0, relaxation: 0.05 },
  grip: { gripMm: 40, diameterMm: 10, modulusMPa: 205_000 },
  springs: { boltStiffnessNPerMm: 1, jointStiffnessNPerMm: 2 },
  stretch: { preloadN: 1000, lengthMm: 40, areaMm2: 58, modulusMPa: 205_000 },
};

/** Every formula, and what it is not valid for: all of these, NaN and infinity are refused. */
const limits: [string, (bad: number) => unknown, number[]][] = [
  ['mean diameter', (meanDiameterMm) => screwThreadArmMm({ ...sound.screw, meanDiameterMm }), [0, -1]],
  ['lead', (leadMm) => screwThreadArmMm({ ...sound.screw, leadMm }), [0, -1, 1000]],
  ['half angle', (halfAngleDeg) => screwThreadArmMm({ ...sound.screw, halfAngleDeg }), [-1, 90, 120]],
  ['friction', (friction) => screwThreadArmMm({ ...sound.screw, friction }), [0, 1, -0.1, 1.5]],
  ['bearing friction', (friction) => bearingArmMm({ friction, bearingDiameterMm: 13 }), [1, -0.1]],
  ['bearing diameter', (bearingDiameterMm) => bearingArmMm({ friction: 0.1, bearingDiameterMm }), [-1]],
  ['linear pitch', (pitchMm) => linearThreadArmMm({ ...sound.linear, pitchMm }), [0, -1]],
  ['linear diameter', (pitchDiameterMm) => linearThreadArmMm({ ...sound.linear, pitchDiameterMm }), [0, -1]],
  ['linear friction', (friction) => linearThreadArmMm({ ...sound.linear, friction }), [0, 1]],
  ['assembly pitch', (pitchMm) => assemblyArmMm({ ...sound.linear, pitchMm }), [0]],
  ['assembly diameter', (pitchDiameterMm) => assemblyArmMm({ ...sound.linear, pitchDiameterMm }), [0]],
  ['assembly friction', (friction) => assemblyArmMm({ ...sound.linear, friction }), [0, 1]],
  ['nut factor', (nutFactor) => nutFactorTorqueNm({ ...sound.nut, nutFactor }), [0, -0.2]],
  ['nut factor diameter', (diameterMm) => nutFactorTorqueNm({ ...sound.nut, diameterMm }), [0, -1]],
  ['preload', (preloadN) => nutFactorTorqueNm({ ...sound.nut, preloadN }), [-1]],
  ['torque', (torqueNm) => nutFactorPreloadN({ ...sound.nut, torqueNm }), [-1]],
  ['effective preload', (preloadN) => effectiveNutFactor({ torqueNm: 1, diameterMm: 10, preloadN }), [0, -1]],
  ['effective diameter', (diameterMm) => effectiveNutFactor({ torqueNm: 1, diameterMm, preloadN: 1 }), [0]],
  ['share', (share) => yieldSharePreloadN({ ...sound.share, torsion: 'plastic', share }), [0, 1.01, -0.5]],
  ['yield', (yieldMPa) => yieldSharePreloadN({ ...sound.share, torsion: 'plastic', yieldMPa }), [0, -1]],
  ['area', (stressAreaMm2) => yieldSharePreloadN({ ...sound.share, torsion: 'plastic', stressAreaMm2 }), [0, -1]],
  ['d2', (pitchDiameterMm) => yieldSharePreloadN({ ...sound.share, torsion: 'plastic', pitchDiameterMm }), [0]],
  ['pitch', (pitchMm) => yieldSharePreloadN({ ...sound.share, torsion: 'plastic', pitchMm }), [0]],
  ['μ', (friction) => yieldSharePreloadN({ ...sound.share, torsion: 'plastic', friction }), [0, 1]],
  ['stress share', (share) => stressSharePreloadN({ ...sound.share, share }), [0, 1.01]],
  ['stress yield', (yieldMPa) => stressSharePreloadN({ ...sound.share, yieldMPa }), [0]],
  ['stress area', (stressAreaMm2) => stressSharePreloadN({ ...sound.share, stressAreaMm2 }), [0]],
  ['tension area', (stressAreaMm2) => tensionMPa({ preloadN: 1, stressAreaMm2 }), [0, -1]],
  [
    'd0',
    (stressDiameter) => torsionMPa({ threadTorqueNm: 1, stressDiameterMm: stressDiameter, torsion: 'elastic' }),
    [0],
  ],
  ['d0 area', (stressAreaMm2) => stressDiameterMm({ stressAreaMm2 }), [0, -1]],
  ['scatter', (scatter) => leastPreloadN({ ...sound.least, form: 'divide', scatter }), [-0.1, 1]],
  ['least of', (preloadN) => leastPreloadN({ ...sound.least, form: 'divide', preloadN }), [-1]],
  ['loss', (lossN) => leastPreloadN({ ...sound.least, form: 'divide', lossN }), [-1]],
  ['settling', (relaxation) => leastPreloadN({ ...sound.least, form: 'divide', relaxation }), [-0.1, 1]],
  ['gain', (gainN) => greatestPreloadN({ preloadN: 1, scatter: 0, gainN }), [-1]],
  ['greatest of', (preloadN) => greatestPreloadN({ preloadN, scatter: 0, gainN: 0 }), [-1]],
  ['greatest scatter', (scatter) => greatestPreloadN({ preloadN: 1, scatter, gainN: 0 }), [-0.1, 1]],
  ['bolts', (bolts) => scatterOfSeveral({ scatter: 0.25, bolts }), [0, -1, 1.5]],
  ['scatter of several', (scatter) => scatterOfSeveral({ scatter, bolts: 2 }), [-0.1, 1]],
  ['efficiency torque', (torqueNm) => screwEfficiency({ preloadN: 1, leadMm: 1, torqueNm }), [0, -1]],
  ['efficiency lead', (leadMm) => screwEfficiency({ preloadN: 1, leadMm, torqueNm: 1 }), [0]],
  ['length', (lengthMm) => elongationMm({ ...sound.stretch, lengthMm }), [-1]],
  ['section', (areaMm2) => elongationMm({ ...sound.stretch, areaMm2 }), [0]],
  ['modulus', (modulusMPa) => elongationMm({ ...sound.stretch, modulusMPa }), [0]],
  ['bolt section', (areaMm2) => boltStiffnessNPerMm({ ...sound.grip, areaMm2 }), [0]],
  ['bolt modulus', (modulusMPa) => boltStiffnessNPerMm({ gripMm: 1, areaMm2: 1, modulusMPa }), [0]],
  ['bolt grip', (gripMm) => boltStiffnessNPerMm({ gripMm, areaMm2: 1, modulusMPa: 1 }), [0]],
  ['grip', (gripMm) => jointStiffnessNPerMm({ ...sound.grip, coneDeg: 30, gripMm }), [0, -1]],
  ['joint diameter', (diameterMm) => nasaJointStiffnessNPerMm({ ...sound.grip, diameterMm }), [0]],
  ['joint modulus', (modulusMPa) => nasaJointStiffnessNPerMm({ ...sound.grip, modulusMPa }), [0]],
  ['Kb', (boltStiffness) => jointConstant({ ...sound.springs, boltStiffnessNPerMm: boltStiffness }), [0, -1]],
  ['Kj', (jointStiffness) => jointConstant({ ...sound.springs, jointStiffnessNPerMm: jointStiffness }), [0, -1]],
  ['thermal Kb', (k) => thermalLoadN({ ...sound.springs, boltStiffnessNPerMm: k, gripMm: 1, thermalStrain: 0 }), [0]],
  ['thermal Kj', (k) => thermalLoadN({ ...sound.springs, jointStiffnessNPerMm: k, gripMm: 1, thermalStrain: 0 }), [0]],
  ['thermal grip', (gripMm) => thermalLoadN({ ...sound.springs, gripMm, thermalStrain: 0 }), [0]],
  ['strain', (thermalStrain) => thermalLoadN({ ...sound.springs, gripMm: 1, thermalStrain }), [1, -1]],
  [
    'C',
    (constant) => serviceStressMPa({ jointConstant: constant, loadN: 1, preloadN: 1, stressAreaMm2: 1 }),
    [-0.1, 1.1],
  ],
  ['At', (stressAreaMm2) => serviceStressMPa({ jointConstant: 0.3, loadN: 1, preloadN: 1, stressAreaMm2 }), [0]],
];

describe('every formula refuses what it is not valid for', () => {
  it.each(limits)('%s', (_name, run, bad) => {
    for (const value of [...bad, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => run(value), String(value)).toThrow(RefusedError);
    }
  });
});
