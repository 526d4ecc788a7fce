/** Two hundred joints by dice, each computed by the program and by the written formulas with their units. */
import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { jointTask } from '../../renderer/engine/preload/index.ts';
import { readThread } from '../../renderer/engine/thread/index.ts';
import { dice } from './dice.ts';
import { jointByText } from './jointFormulas.ts';

const threads = ['M3', 'M6', 'M8x1', 'M10', 'M12x1.25', 'M20', 'M36', '6-32', '10-32', '1/4-28', '1/2-13 UNC', '1-8'];
const forces = ['N', 'kN', 'lbf'] as const;
/** Spellings that the program and mathjs share, with their exact size. */
const inNewtons = { N: 1, kN: 1000, lbf: 4.4482216152605 };

function randomJoint(seed: number) {
  const { roll, pick } = dice(seed);
  const within = (min: number, max: number): number => min + roll() * (max - min);
  const thread = pick(threads);
  const { majorMm, stressAreaMm2 } = readThread(thread);
  const forceUnit = pick(forces);
  const tensionMPa = within(50, 600);
  return {
    thread,
    force: { value: (tensionMPa * stressAreaMm2) / inNewtons[forceUnit], unit: forceUnit },
    friction: { thread: within(0.04, 0.4), bearing: within(0.04, 0.4), bearingDiameterMm: majorMm * within(1.2, 2) },
    nutFactor: within(0.08, 0.4),
    scatter: within(0, 0.4),
    relaxation: within(0, 0.2),
    gain: within(0, 1000),
    loss: within(0, 1000),
    share: within(0.1, 1),
    yieldMPa: within(150, 1300),
    form: pick(['divide', 'multiply'] as const),
    torsion: pick(['elastic', 'plastic'] as const),
  };
}

/** Off by no more than 1e-12 of the size of what it is made from. */
function expectAgreement(computed: number | null | undefined, reference: number, size = Math.abs(reference)): void {
  expect(Math.abs((computed ?? Number.NaN) - reference) / size).toBeLessThanOrEqual(1e-12);
}

describe.each(Array.from({ length: 200 }, (_, index) => index + 1))('joint %d', (seed) => {
  const joint = randomJoint(seed);
  const { thread, force, friction, relaxation, scatter, torsion } = joint;
  const sizes = readThread(thread);
  const byText = jointByText({
    F: unit(force.value, force.unit),
    dm: unit(sizes.pitchDiameterMm, 'mm'),
    lead: unit(sizes.pitchMm, 'mm'),
    D: unit(sizes.majorMm / 25.4, 'inch'),
    As: unit(sizes.stressAreaMm2, 'mm^2'),
    alpha: unit(30, 'deg'),
    f: friction.thread,
    fc: friction.bearing,
    dc: unit(friction.bearingDiameterMm, 'mm'),
    K: joint.nutFactor,
    u: scatter,
    s: relaxation,
    gain: unit(joint.gain, 'N'),
    loss: unit(joint.loss, 'N'),
    nu: joint.share,
    Rp: unit(joint.yieldMPa, 'MPa'),
  });
  const preloadN = force.value * inNewtons[force.unit];
  const spread = {
    scatter,
    relaxation: { share: relaxation, form: joint.form },
    thermalN: { gain: joint.gain, loss: joint.loss },
  };
  const preload = `${force.value} ${force.unit}`;

  it('screw equation, release, stress and range', () => {
    const told = jointTask({ thread, friction, preload, ...spread, torsion, strength: { yieldMPa: joint.yieldMPa } });
    expectAgreement(told.torqueNm.seating.nominal, byText.screwTorque);
    expectAgreement(told.releaseTorqueNm, byText.release, byText.screwTorque);
    expectAgreement(told.efficiency, byText.screwEfficiency);
    expectAgreement(told.nutFactorEffective, byText.screwNutFactor);
    expect(told.selfLocking).toBe(friction.thread / Math.cos(Math.PI / 6) > byText.tanLead);
    expectAgreement(told.preloadN.min, joint.form === 'divide' ? byText.divided : byText.multiplied, preloadN);
    expectAgreement(told.preloadN.max, byText.greatest);
    expectAgreement(told.stressMPa?.tension, byText.tension);
    expectAgreement(told.stressMPa?.shear, torsion === 'elastic' ? byText.shearElastic : byText.shearPlastic);
    const equivalent = torsion === 'elastic' ? byText.equivalentElastic : byText.equivalentPlastic;
    expectAgreement(told.stressMPa?.equivalent, equivalent);
    expectAgreement(told.yieldShare?.nominal, equivalent / joint.yieldMPa);
  });

  it('linear form, nut factor and shares', () => {
    expectAgreement(
      jointTask({ thread, friction, preload, form: 'linear' }).torqueNm.seating.nominal,
      byText.linearTorque,
    );
    const nutFactor = { nominal: joint.nutFactor };
    expectAgreement(jointTask({ thread, nutFactor, preload }).torqueNm.seating.nominal, byText.nutTorque);
    const torque = `${byText.nutTorque} N·m`;
    expectAgreement(jointTask({ thread, nutFactor, torque: { min: torque, max: torque } }).preloadN.nominal, preloadN);
    const strength = { yieldMPa: joint.yieldMPa };
    const ofYield = jointTask({ thread, friction, strength, form: 'linear', yieldShare: joint.share });
    expectAgreement(ofYield.preloadN.nominal, byText.yieldPreload);
    expectAgreement(
      jointTask({ thread, nutFactor, strength, stressShare: joint.share }).preloadN.nominal,
      byText.stressPreload,
    );
  });
});
