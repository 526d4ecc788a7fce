/** What a joint may be asked beyond torque and preload: the stop limit when it will not loosen, and loads in service. */
import { describe, expect, it } from 'vitest';
import { jointTask } from '../../../renderer/engine/preload/index.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';

const friction = { thread: 0.12, bearing: 0.12, bearingDiameterMm: 13 };
const m10 = { thread: 'M10', strength: { yieldMPa: 640 }, friction, preload: '20 kN' };
const stop = {
  driver: { name: 'breaker bar', max: '300 N·m' },
  parts: [
    { name: 'extension', ratedTorque: '120 N·m' },
    { name: 'socket', ratedTorque: '150 N·m' },
  ],
};

describe('stop limit', () => {
  it('is the root while seated, the weakest part once unseated', () => {
    const { stopLimit } = jointTask({ ...m10, stop });
    const d3 = readThread('M10').rootDiameterMm ?? 0;
    const carried = (Math.PI / 4) * d3 ** 2 * 640;
    const shear = ((Math.PI / 16) * d3 ** 3 * (640 / Math.sqrt(3)) * Math.sqrt(1 - (20_000 / carried) ** 2)) / 1000;
    expect(stopLimit?.rootShearNm).toBeCloseTo(shear, 10);
    expect(stopLimit?.seated).toEqual({ torqueNm: stopLimit?.rootShearNm, setBy: 'root of the thread', reason: null });
    expect(stopLimit?.unseated).toEqual({ torqueNm: 120, setBy: 'extension', reason: null });
  });

  it('falls with the greatest preload, scatter and all', () => {
    const seated = (joint: object) => jointTask({ ...m10, stop, ...joint }).stopLimit?.seated.torqueNm ?? 0;
    expect(seated({ scatter: 0.25 })).toBeLessThan(seated({}));
    expect(seated({ thermalN: { gain: 5000, loss: 0 } })).toBe(seated({ scatter: 0.25 }));
  });

  it.each([
    ['a thread whose root is not held', { thread: '1/4-28 UNJF-3A' }, /no root diameter is held/],
    ['no strength', { strength: undefined }, /no yield strength/],
    ['a preload that yields the root', { preload: '40 kN' }, /yields the root without any torque/],
  ])('%s: none while seated, and why', (_what, joint, why) => {
    const { stopLimit } = jointTask({ ...m10, stop, ...joint });
    expect(stopLimit?.seated).toMatchObject({ torqueNm: null, setBy: null });
    expect(stopLimit?.seated.reason).toMatch(why);
    expect(stopLimit?.rootShearNm).toBeNull();
    expect(stopLimit?.unseated.torqueNm).toBe(120);
  });

  it('a rating that is not held: none at all, and whose', () => {
    const parts = [...stop.parts, { name: 'adapter' }];
    const { stopLimit } = jointTask({ ...m10, stop: { ...stop, parts } });
    expect(stopLimit?.seated).toEqual({
      torqueNm: null,
      setBy: null,
      reason: 'no stop limit: no torque is held for adapter',
    });
    expect(stopLimit?.unseated.torqueNm).toBeNull();
  });

  it('is not told where it is not asked for', () => {
    expect(jointTask(m10)).not.toHaveProperty('stopLimit');
  });
});

describe('service', () => {
  const service = { grip: '40 mm', boltModulus: '205 GPa', jointModulus: '70 GPa' };

  it('tells stiffness and elongation, for both cones', () => {
    const { service: told } = jointTask({ ...m10, service });
    const area = readThread('M10').stressAreaMm2;
    expect(told?.boltStiffnessNPerMm).toBeCloseTo((area * 205_000) / 40, 6);
    expect(told?.elongationMm).toBeCloseTo((20_000 * 40) / (area * 205_000), 12);
    expect(told?.cone45.jointStiffnessNPerMm).toBeCloseTo((Math.PI * 70_000 * 10) / (2 * Math.log((5 * 45) / 65)), 4);
    expect(told?.cone30).toMatchObject({ tensionMPa: null, thermalLoadN: null });
    expect(told?.cone30.jointConstant).toBeGreaterThan(told?.cone45.jointConstant ?? 1);
  });

  it('a load in service adds its share; warmer parts that grow more add preload, cooler ones take it', () => {
    const at = (thermalStrain: number) =>
      jointTask({ ...m10, service: { ...service, load: '5 kN', thermalStrain } }).service?.cone30;
    const warm = at(6e-4);
    const area = readThread('M10').stressAreaMm2;
    expect(warm?.tensionMPa).toBeCloseTo((20_000 + (warm?.jointConstant ?? 0) * 5000) / area, 9);
    expect(warm?.thermalLoadN).toBeGreaterThan(0);
    expect(at(-6e-4)?.thermalLoadN).toBe(-(warm?.thermalLoadN ?? 0));
  });

  it('is refused for a screw without designation', () => {
    const thread = { meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 0 };
    expect(() => jointTask({ ...m10, thread, service })).toThrow(/service: needs the section and the diameter/);
  });
});
