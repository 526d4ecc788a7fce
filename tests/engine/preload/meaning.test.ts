/** What the fields of a joint mean, sentence by sentence of the headless contract. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jointTask } from '../../../renderer/engine/preload/index.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';

/** K·D = 0.2 · 10 mm: 1 N·m for 500 N. */
const m10 = { thread: 'M10', nutFactor: { nominal: 0.2 } };
const greased = { thread: 0.12, bearing: 0.1, bearingDiameterMm: 13 };
const nm = (min: number, max: number) => ({ min: `${min} N·m`, max: `${max} N·m` });
const ranged = { nominal: 0.2, min: 0.16, max: 0.25 };

describe('running torque', () => {
  it('on the wrench: seating is [min − running max, max − running min], installation the torque itself', () => {
    const { torqueNm, preloadN } = jointTask({ ...m10, torque: nm(40, 50), running: nm(2, 6), torqueIs: 'wrench' });
    expect(torqueNm).toEqual({ seating: { nominal: 41, min: 34, max: 48 }, installation: { min: 40, max: 50 } });
    expect(preloadN).toEqual({ nominal: 20_500, min: 17_000, max: 24_000 });
  });

  it('beside a seating torque: installation adds it', () => {
    const { torqueNm, preloadN } = jointTask({ ...m10, torque: nm(40, 50), running: nm(2, 6), torqueIs: 'seating' });
    expect(torqueNm).toEqual({ seating: { nominal: 45, min: 40, max: 50 }, installation: { min: 42, max: 56 } });
    expect(preloadN.nominal).toBe(22_500);
  });

  it('beside a preload: installation adds it, and nothing need be said of the torque', () => {
    const { torqueNm } = jointTask({ ...m10, preload: '20 kN', running: nm(2, 6) });
    expect(torqueNm).toEqual({ seating: { nominal: 40, min: 40, max: 40 }, installation: { min: 42, max: 46 } });
  });

  it('absent: wrench and seating are the same, whichever the torque is called', () => {
    const plain = jointTask({ ...m10, torque: nm(40, 50) });
    for (const torqueIs of ['wrench', 'seating']) {
      expect(jointTask({ ...m10, torque: nm(40, 50), torqueIs }).torqueNm).toEqual(plain.torqueNm);
    }
    expect(plain.assumptions).toContain('Running torque is taken as 0: none is given.');
  });

  it('is in no release torque', () => {
    const joint = { thread: 'M10', friction: greased, preload: '20 kN' };
    expect(jointTask({ ...joint, running: nm(2, 6) }).releaseTorqueNm).toBe(jointTask(joint).releaseTorqueNm);
  });
});

describe('scatter', () => {
  it('of the band, where nothing else is said: counted at both ends, and listed as assumed', () => {
    const { preloadN, assumptions } = jointTask({ ...m10, torque: nm(40, 50), scatter: 0.25 });
    expect(preloadN).toEqual({ nominal: 22_500, min: 15_000, max: 31_250 });
    expect(assumptions.join(' ')).toMatch(/scatter is of the band/);
    expect(jointTask({ ...m10, torque: nm(40, 50), scatter: 0.25, scatterOf: 'band' }).preloadN).toEqual(preloadN);
  });

  it('of the nominal preload: the torque band is left out', () => {
    const { preloadN, torqueNm } = jointTask({ ...m10, torque: nm(40, 50), scatter: 0.2, scatterOf: 'nominal' });
    expect(preloadN).toEqual({ nominal: 22_500, min: 18_000, max: 27_000 });
    expect(torqueNm.seating).toEqual({ nominal: 45, min: 40, max: 50 });
  });

  it('of a preload that is asked for: about it', () => {
    const { preloadN, torqueNm } = jointTask({ ...m10, preload: '20 kN', scatter: 0.25 });
    expect(preloadN).toEqual({ nominal: 20_000, min: 15_000, max: 25_000 });
    expect(torqueNm.seating).toEqual({ nominal: 40, min: 40, max: 40 });
  });

  it('of several bolts that share the load is u/√n, for the least preload alone', () => {
    const { preloadN, assumptions } = jointTask({ ...m10, preload: '20 kN', scatter: 0.2, boltsSharing: 4 });
    expect(preloadN).toEqual({ nominal: 20_000, min: 18_000, max: 24_000 });
    expect(assumptions.join(' ')).toMatch(/mean of 4 bolts/);
  });
});

describe('range of the nut factor', () => {
  it('with a torque: the least preload is of the greatest nut factor, and the other way round', () => {
    const { preloadN } = jointTask({ thread: 'M10', nutFactor: ranged, torque: nm(40, 50) });
    expect(preloadN).toEqual({ nominal: 22_500, min: 16_000, max: 31_250 });
  });

  it('with a preload: it widens the seating torque and leaves the preload', () => {
    const { preloadN, torqueNm, assumptions } = jointTask({ thread: 'M10', nutFactor: ranged, preload: '20 kN' });
    expect(assumptions.join(' ')).toMatch(/range of the nut factor widens the torque/);
    expect(torqueNm.seating).toEqual({ nominal: 40, min: 32, max: 50 });
    expect(preloadN).toEqual({ nominal: 20_000, min: 20_000, max: 20_000 });
  });

  it('with one end alone: the other is the nominal, and listed as assumed', () => {
    const one = { thread: 'M10', nutFactor: { nominal: 0.2, max: 0.25 }, torque: nm(40, 40) };
    const { preloadN, assumptions } = jointTask(one);
    expect(preloadN).toEqual({ nominal: 20_000, min: 16_000, max: 20_000 });
    expect(assumptions).toContain('The least nut factor is the nominal one: only the other end is given.');
  });
});

describe('losses', () => {
  const spread = { ...m10, preload: '20 kN', scatter: 0.25 };

  it.each([
    ['divide', (0.75 * 20_000 - 500) / 1.05],
    ['multiply', 0.75 * 20_000 * 0.95 - 500],
  ])('%s', (form, min) => {
    const { preloadN } = jointTask({
      ...spread,
      relaxation: { share: 0.05, form },
      thermalN: { gain: 300, loss: 500 },
    });
    expect(preloadN.min).toBeCloseTo(min, 9);
    expect(preloadN.max).toBe(25_300);
    expect(preloadN.nominal).toBe(20_000);
  });

  it('one number of temperature is for both ways', () => {
    expect(jointTask({ ...spread, thermalN: 400 })).toEqual(
      jointTask({ ...spread, thermalN: { gain: 400, loss: 400 } }),
    );
  });

  it('that exceed the preload leave a least preload below 0, told as it is', () => {
    expect(jointTask({ ...spread, thermalN: 16_000 }).preloadN.min).toBe(-1000);
  });
});

describe('stress', () => {
  const area = readThread('M10').stressAreaMm2;
  const strong = { thread: 'M10', strength: { proofMPa: 580, yieldMPa: 640 } };

  it('is at nominal preload, on the stress area and on d0 = √(4·As/π)', () => {
    const joint = { ...strong, friction: greased, form: 'linear', preload: '29.6 kN', scatter: 0.25 };
    const { stressMPa, torsion, proofShare, yieldShare } = jointTask(joint);
    const d0 = Math.sqrt((4 * area) / Math.PI);
    const mt = 29_600 * (0.159_15 * 1.5 + 0.577_35 * 0.12 * readThread('M10').pitchDiameterMm);
    const tension = 29_600 / area;
    const shear = (16 * mt) / (Math.PI * d0 ** 3);
    const equivalent = Math.sqrt(tension ** 2 + 3 * shear ** 2);
    expect(torsion).toBe('elastic');
    expect(stressMPa?.tension).toBeCloseTo(tension, 9);
    expect(stressMPa?.shear).toBeCloseTo(shear, 9);
    expect(stressMPa?.equivalent).toBeCloseTo(equivalent, 9);
    expect(proofShare?.nominal).toBeCloseTo(tension / 580, 12);
    expect(proofShare?.max).toBeCloseTo((1.25 * tension) / 580, 12);
    expect(yieldShare?.nominal).toBeCloseTo(equivalent / 640, 12);
    expect(yieldShare?.max).toBeCloseTo((1.25 * equivalent) / 640, 12);
  });

  it('plastic torsion has three quarters of the elastic shear', () => {
    const shear = (torsion: string) =>
      jointTask({ ...strong, friction: greased, preload: '20 kN', torsion }).stressMPa?.shear ?? 0;
    expect(shear('plastic') / shear('elastic')).toBeCloseTo(0.75, 12);
  });

  it('without friction: no shear, no equivalent stress, no share of yield, no release torque', () => {
    const told = jointTask({ ...strong, nutFactor: { nominal: 0.2 }, preload: '20 kN' });
    expect(told.stressMPa).toEqual({
      tension: expect.closeTo(20_000 / area, 9) as number,
      shear: null,
      equivalent: null,
    });
    expect(told).toMatchObject({ yieldShare: null, releaseTorqueNm: null, selfLocking: null });
    expect(told.proofShare?.nominal).toBeCloseTo(20_000 / area / 580, 12);
  });

  it('without strength: no shares', () => {
    expect(jointTask({ thread: 'M10', friction: greased, preload: '20 kN' })).toMatchObject({
      proofShare: null,
      yieldShare: null,
    });
  });
});

describe('a share of yield', () => {
  it.each([undefined, 'plastic', 'elastic'] as const)('torsion %s: comes back as the same share', (torsion) => {
    const told = jointTask({
      thread: 'M12x1.25',
      strength: '10.9',
      friction: greased,
      form: 'linear',
      yieldShare: 0.85,
      ...(torsion === undefined ? {} : { torsion }),
    });
    expect(told.torsion).toBe(torsion ?? 'plastic');
    expect(told.yieldShare?.nominal).toBeCloseTo(0.85, 13);
    const { nominal, min, max } = told.torqueNm.seating;
    expect([min, max]).toEqual([nominal, nominal]);
  });

  it('is computed in the linear form though none is asked for, and says so', () => {
    const joint = { thread: 'M10', strength: '8.8', friction: greased, yieldShare: 0.9 };
    const told = jointTask(joint);
    expect(told.torqueNm).toEqual(jointTask({ ...joint, form: 'linear' }).torqueNm);
    expect(told.assumptions.join(' ')).toMatch(/Linear form \(VDI 2230\)/);
  });

  it('of tension alone counts on the stress area', () => {
    const told = jointTask({ thread: 'M10', strength: '8.8', nutFactor: { nominal: 0.2 }, stressShare: 0.65 });
    expect(told.preloadN.nominal).toBeCloseTo(0.65 * 640 * readThread('M10').stressAreaMm2, 8);
    expect(told.torsion).toBe('elastic');
  });
});

describe('forms', () => {
  const joint = { thread: 'M10', friction: greased, preload: '20 kN' };

  it('screw is the default, exact the same', () => {
    const { assumptions: _assumptions, ...plain } = jointTask(joint);
    for (const form of ['screw', 'exact']) expect(jointTask({ ...joint, form })).toMatchObject(plain);
  });

  it('linear lies a little below', () => {
    const torque = (form: string) => jointTask({ ...joint, form }).torqueNm.seating.nominal;
    expect(torque('linear')).toBeLessThan(torque('screw'));
    expect(torque('linear') / torque('screw')).toBeGreaterThan(0.99);
  });

  it('the release torque is of the screw equation in both', () => {
    expect(jointTask({ ...joint, form: 'linear' }).releaseTorqueNm).toBe(jointTask(joint).releaseTorqueNm);
  });
});

describe('any other screw', () => {
  const square = { meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 0 };
  const friction = { thread: 0.08, bearing: 0.05, bearingDiameterMm: 40 };

  it('without a root has no stress and no share; without a diameter no nut factor', () => {
    const told = jointTask({ thread: square, strength: { yieldMPa: 300, proofMPa: 250 }, friction, preload: '6 kN' });
    expect(told).toMatchObject({ stressMPa: null, proofShare: null, yieldShare: null, nutFactorEffective: null });
    expect(told.selfLocking).toBe(true);
  });

  it('with a root counts stresses on it, and says so', () => {
    const told = jointTask({ thread: { ...square, rootDiameterMm: 20 }, friction, preload: '6 kN' });
    expect(told.stressMPa?.tension).toBeCloseTo(6000 / (100 * Math.PI), 12);
    expect(told.assumptions.join(' ')).toMatch(/count on the root diameter/);
  });

  it('takes a nut factor with its diameter', () => {
    const told = jointTask({ thread: square, nutFactor: { nominal: 0.2, diameterMm: 25 }, preload: '6 kN' });
    expect(told.torqueNm.seating.nominal).toBe(30);
    expect(told.nutFactorEffective).toBeCloseTo(0.2, 12);
    expect(told.efficiency).toBeCloseTo((6 * 5) / (2 * Math.PI * 30), 12);
  });

  it('of 60° and one start is the designated thread', () => {
    const { pitchDiameterMm, pitchMm } = readThread('M10');
    const other = { meanDiameterMm: pitchDiameterMm, leadMm: pitchMm, halfAngleDeg: 30 };
    for (const form of ['screw', 'linear']) {
      const joint = { friction: greased, preload: '20 kN', form };
      const [a, b] = [jointTask({ ...joint, thread: other }), jointTask({ ...joint, thread: 'M10' })];
      expect(a.torqueNm).toEqual(b.torqueNm);
      expect(a.releaseTorqueNm).toBe(b.releaseTorqueNm);
    }
  });

  it.each([{ bearingDiameterMm: 0 }, { bearing: 0 }, { bearing: 0, bearingDiameterMm: 0 }])(
    'may have no bearing face: %o',
    (none) => {
      const told = jointTask({ thread: square, friction: { ...friction, ...none }, preload: '6 kN' });
      expect(told.torqueNm.seating.nominal).toBeCloseTo(10.233, 3);
      expect(told.releaseTorqueNm).toBeCloseTo(0.622, 3);
    },
  );
});

describe('there and back', () => {
  const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const tightening = fc.oneof(
    between(0.05, 0.5).map((nominal) => ({ nutFactor: { nominal } })),
    fc
      .record({ thread: between(0.02, 0.5), bearing: between(0.02, 0.5), bearingDiameterMm: between(5, 100) })
      .chain((friction) => fc.constantFrom('screw', 'linear').map((form) => ({ friction, form }))),
  );
  const thread = fc.constantFrom('M6', 'M10x1.25', 'M36', '1/4-28 UNJF-3A', '10-32', '1-1/8-12 UNF');

  it('a preload’s torque gives that preload', () => {
    fc.assert(
      fc.property(thread, tightening, between(10, 1e6), (designation, how, preloadN) => {
        const there = jointTask({ thread: designation, ...how, preload: `${preloadN} N` });
        const torque = `${there.torqueNm.seating.nominal} N·m`;
        const back = jointTask({ thread: designation, ...how, torque: { min: torque, max: torque } });
        expect(Math.abs(back.preloadN.nominal / preloadN - 1)).toBeLessThanOrEqual(1e-12);
        expect(Math.abs((back.nutFactorEffective ?? 0) / (there.nutFactorEffective ?? 0) - 1)).toBeLessThanOrEqual(
          1e-12,
        );
      }),
      { numRuns: 200 },
    );
  });

  it('more torque is more preload, and least ≤ nominal ≤ greatest', () => {
    fc.assert(
      fc.property(thread, tightening, between(1, 500), between(1.001, 2), (designation, how, torqueNm, more) => {
        const at = (value: number) =>
          jointTask({ thread: designation, ...how, torque: nm(value, value * 1.1), scatter: 0.1 }).preloadN;
        const [less, greater] = [at(torqueNm), at(torqueNm * more)];
        expect(greater.nominal).toBeGreaterThan(less.nominal);
        expect(less.min).toBeLessThan(less.nominal);
        expect(less.nominal).toBeLessThan(less.max);
      }),
      { numRuns: 200 },
    );
  });

  it('a nut factor is its own effective one, and the efficiency of a screw is below 1', () => {
    fc.assert(
      fc.property(thread, tightening, (designation, how) => {
        const told = jointTask({ thread: designation, ...how, preload: '1 kN' });
        if ('nutFactor' in how) expect(told.nutFactorEffective).toBeCloseTo(how.nutFactor.nominal, 12);
        else expect(told.efficiency).toBeLessThan(1);
        expect(told.efficiency).toBeGreaterThan(0);
      }),
    );
  });
});

describe('what it says of itself', () => {
  it('lists what a joint with friction assumes', () => {
    const { assumptions } = jointTask({ thread: 'M10', friction: greased, preload: '20 kN' });
    for (const words of [
      'dm is the basic pitch diameter',
      '30°',
      'Static friction',
      'Screw equation: no "form"',
      'Torsion is elastic',
      'Scatter of the preload is taken as 0',
      'Settling is taken as 0',
      'temperature are taken as 0',
      'Running torque is taken as 0',
    ])
      expect(assumptions.join(' ')).toContain(words);
  });

  it.each([
    ['7/16-20 UNJF', true],
    ['7/16-20 UNF', false],
    ['M10', false],
  ])('of %s says whether the sizes are those of another profile', (thread, isSaid) => {
    const { assumptions } = jointTask({ thread, friction: greased, preload: '20 kN' });
    expect(assumptions.some((line) => line.includes('no dimensions of UNJ threads'))).toBe(isSaid);
  });

  it('lists nothing as assumed that is given', () => {
    const { assumptions } = jointTask({
      thread: 'M10',
      friction: greased,
      form: 'screw',
      torque: nm(40, 50),
      running: nm(0, 1),
      torqueIs: 'wrench',
      scatter: 0.1,
      scatterOf: 'band',
      relaxation: { share: 0.05, form: 'divide' },
      thermalN: 0,
      torsion: 'elastic',
    });
    expect(assumptions.join(' ')).not.toMatch(/none (?:is|are) given|no "form"|none is asked for|scatter is of/);
  });

  it.each([
    [{ nutFactor: { nominal: 0.2 }, preload: '1 kN' }, /T = K·D·F/],
    [{ friction: greased, preload: '1 kN' }, /screw equation/],
    [{ friction: greased, form: 'linear', preload: '1 kN' }, /VDI 2230/],
    [{ nutFactor: { nominal: 0.2 }, preload: '1 kN', relaxation: { share: 0.05, form: 'divide' } }, /TM-106943/],
    [
      { nutFactor: { nominal: 0.2 }, preload: '1 kN', relaxation: { share: 0.05, form: 'multiply' } },
      /NASA-STD-5020.*from memory/,
    ],
    [{ nutFactor: { nominal: 0.2 }, strength: '8.8', stressShare: 0.5 }, /ISO 898-1/],
  ])('%j names its documents', (asked, words) => {
    const { sources } = jointTask({ thread: 'M10', ...asked });
    expect(sources.map((source) => Object.values(source).join(' ')).join('; ')).toMatch(words);
    for (const source of sources)
      expect(source).toMatchObject({
        title: expect.any(String) as string,
        edition: expect.any(String) as string,
        obtained: expect.stringMatching(/^(?:text found|from memory|common practice)$/) as string,
      });
  });

  it('carries the caution', () => {
    expect(jointTask({ ...m10, preload: '1 kN' }).caution).toMatch(/Verify before use/);
  });
});
