/** Where the answers of a joint change over: the last value that is taken, and the first that is not. */
import { describe, expect, it } from 'vitest';
import { elongationMm, seatingOfWrench, torsionMPa } from '../../../renderer/engine/preload/formula/index.ts';
import { stopLimit } from '../../../renderer/engine/loosening/stopLimit.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { jointTask } from '../../../renderer/engine/preload/index.ts';

const m10RootMm = 10 - 1.22686935 * 1.5;
/** π/4·d3²·Sy: what the root of an M10 of 640 MPa carries. */
const rootCarriesN = (Math.PI / 4) * m10RootMm ** 2 * 640;
const friction = { thread: 0.12, bearing: 0.1, bearingDiameterMm: 13 };
const strength = { yieldMPa: 640 };

describe('the stop limit of a seated fastener', () => {
  const limit = (preloadN: number, more: Record<string, unknown> = {}) =>
    jointTask({
      thread: 'M10',
      strength,
      nutFactor: { nominal: 0.2 },
      preload: `${preloadN} N`,
      stop: { driver: { name: 'bar', max: '60 N·m' }, parts: [{ name: 'socket', ratedTorque: '50 N·m' }] },
      ...more,
    }).stopLimit;

  it('is what shears the root beside its preload, the less the more it is stretched', () => {
    const expected = (share: number): number =>
      ((Math.PI / 16) * m10RootMm ** 3 * (640 / Math.sqrt(3)) * Math.sqrt(1 - share ** 2)) / 1000;
    for (const share of [0.01, 0.5, 0.9, 0.999]) {
      const stop = limit(share * rootCarriesN);
      expect(stop?.rootShearNm, `share ${share}`).toBeCloseTo(expected(share), 9);
      expect(stop?.seated).toEqual({ torqueNm: stop?.rootShearNm, setBy: 'root of the thread', reason: null });
      expect(stop?.unseated).toEqual({ torqueNm: 50, setBy: 'socket', reason: null });
    }
  });

  it('counts on the greatest preload, and there is none once that alone yields the root', () => {
    const gained = limit(0.5 * rootCarriesN, { thermalN: { gain: 0.3 * rootCarriesN, loss: 0 } });
    expect(gained?.rootShearNm).toBeCloseTo(limit(0.8 * rootCarriesN)?.rootShearNm ?? Number.NaN, 9);
    const gone = limit(1.001 * rootCarriesN);
    expect(gone).toMatchObject({ seated: { torqueNm: null, setBy: null }, rootShearNm: null });
    expect(gone?.seated.reason).toMatch(/yields the root without any torque/);
    expect(gone?.unseated.torqueNm, 'unseated, the root bears no preload').toBe(50);
  });

  it('is not there without a yield strength', () => {
    expect(limit(1000, { strength: { proofMPa: 580 } })?.seated.reason).toMatch(/no yield strength/);
  });
});

describe('a screw without designation', () => {
  const screw = { meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 15, rootDiameterMm: 20 };
  const joint = { thread: screw, friction, strength };

  it('takes a share of yield on its root', () => {
    expect(jointTask({ ...joint, stressShare: 0.5 }).preloadN.nominal).toBeCloseTo(0.5 * 640 * (Math.PI / 4) * 400, 6);
  });

  it('has no nominal diameter, on which a clamped part would be counted', () => {
    const service = { grip: '30 mm', boltModulus: '205 GPa', jointModulus: '205 GPa' };
    expect(() => jointTask({ ...joint, preload: '6 kN', service })).toThrow(/service.*designated thread/);
  });
});

describe('the ends of a range', () => {
  it('a torque may be one value', () => {
    const torque = { min: '40 N·m', max: '40 N·m' };
    expect(jointTask({ thread: 'M10', nutFactor: { nominal: 0.2 }, torque }).preloadN).toEqual({
      nominal: 20000,
      min: 20000,
      max: 20000,
    });
    expect(() =>
      jointTask({ thread: 'M10', nutFactor: { nominal: 0.2 }, torque: { ...torque, max: '39.9 N·m' } }),
    ).toThrow(/torque.min.*above the maximum/);
  });

  it('the torque of a watchmaker’s screw seats like every other', () => {
    const wrench = { minNm: 1e-6, maxNm: 2e-6 };
    expect(seatingOfWrench({ wrench, running: { minNm: 0, maxNm: 0 } })).toEqual(wrench);
    expect(() => seatingOfWrench({ wrench, running: { minNm: 0, maxNm: 1e-6 } })).toThrow(/running torque/);
  });

  it('a length of 0 has no elongation, below 0 is none', () => {
    const bolt = { preloadN: 1000, areaMm2: 58, modulusMPa: 205000 };
    expect(elongationMm({ ...bolt, lengthMm: 0 })).toBe(0);
    expect(() => elongationMm({ ...bolt, lengthMm: -1 })).toThrow(/loaded length/);
  });

  it('a thin shank is stressed, one of no thickness is none', () => {
    const shank = { threadTorqueNm: 0.001, torsion: 'elastic' } as const;
    expect(torsionMPa({ ...shank, stressDiameterMm: 0.5 })).toBeCloseTo(16 / (Math.PI * 0.125), 9);
    expect(() => torsionMPa({ ...shank, stressDiameterMm: 0 })).toThrow(/stress diameter/);
  });
});

describe('what a refusal says', () => {
  const refusal = (joint: Record<string, unknown>, text?: string) => {
    try {
      jointTask(joint, text === undefined ? {} : { file: 'joint.json', text });
    } catch (error) {
      if (error instanceof RefusedError) return error.refusal;
    }
    throw new Error('nothing was refused');
  };
  const nut = { thread: 'M10', nutFactor: { nominal: 0.2 } };

  it('names the share that lacks a strength, and what the strength lacks', () => {
    expect(refusal({ thread: 'M10', friction, yieldShare: 0.9 }).message).toMatch(
      /^strength: is missing: "yieldShare"/,
    );
    expect(refusal({ ...nut, stressShare: 0.5 }).message).toMatch(/^strength: is missing: "stressShare"/);
    const proofOnly = { ...nut, stressShare: 0.5, strength: { proofMPa: 580 } };
    expect(refusal(proofOnly).message).toMatch(/^strength: holds no yield strength, of which "stressShare"/);
  });

  it('names the area that a share of another screw lacks, once, and the strength beside it', () => {
    const bare = { thread: { meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 15 }, friction, stressShare: 0.5 };
    expect(refusal({ ...bare, strength }).field).toBe('thread.rootDiameterMm');
    expect(refusal(bare).rows?.map(({ field }) => field)).toEqual(['thread.rootDiameterMm', 'strength']);
  });

  it('names the number that is beyond a double by its whole path', () => {
    const huge = { ...nut, strength: { proofMPa: 580 }, preload: '1e200 N' };
    expect(refusal(huge).message).toMatch(/^The joint's proofShare\.max is beyond/);
  });

  it('carries file, row and value of a field found only while computing, and none that are not there', () => {
    const steep = { thread: { meanDiameterMm: 10, leadMm: 300, halfAngleDeg: 30 }, friction, preload: '1 kN' };
    expect(refusal(steep, JSON.stringify(steep, null, 1))).toMatchObject({
      field: 'friction.thread',
      value: 0.12,
      file: 'joint.json',
      row: expect.any(Number) as number,
    });
    const { file, row } = refusal(steep);
    expect({ file, row }).toEqual({ file: undefined, row: undefined });
  });
});

describe('the linear form', () => {
  it('takes another screw of 60°, and none of another angle', () => {
    const screw = { meanDiameterMm: 9.026, leadMm: 1.5 };
    const joint = { friction, form: 'linear', preload: '20 kN' };
    const asThread = jointTask({ thread: 'M10', ...joint }).torqueNm.seating.nominal;
    const asScrew = jointTask({ thread: { ...screw, halfAngleDeg: 30 }, ...joint }).torqueNm.seating.nominal;
    expect(asScrew / asThread).toBeCloseTo(1, 4);
    expect(() => jointTask({ thread: { ...screw, halfAngleDeg: 29 }, ...joint })).toThrow(/halfAngleDeg.*must be 30/);
  });
});

describe('two bolts that share', () => {
  it('have the scatter of one over √2, and say so', () => {
    const joint = { thread: 'M10', nutFactor: { nominal: 0.2 }, preload: '20 kN', scatter: 0.2 };
    const two = jointTask({ ...joint, boltsSharing: 2 });
    expect(two.preloadN.min).toBeCloseTo(20000 * (1 - 0.2 / Math.SQRT2), 6);
    expect(two.assumptions.join()).toContain('mean of 2 bolts');
    expect(two.sources.map(({ number }) => number)).toContain('NASA-STD-5020');
    expect(jointTask({ ...joint, boltsSharing: 1 }).sources.map(({ number }) => number)).not.toContain('NASA-STD-5020');
  });
});

describe('a string of no parts', () => {
  it('has no stop limit, and says that no rating is held for any; of one part, that part’s', () => {
    expect(stopLimit([])).toEqual({
      torqueNm: null,
      setBy: null,
      reason: 'no stop limit: no torque is held for any part',
    });
    expect(stopLimit([{ name: 'bar', ratedNm: 60 }])).toEqual({ torqueNm: 60, setBy: 'bar', reason: null });
    expect(stopLimit([{ name: 'bar', ratedNm: null }]).reason).toBe('no stop limit: no torque is held for bar');
  });
});
