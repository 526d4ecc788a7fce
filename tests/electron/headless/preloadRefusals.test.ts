import { describe, expect, it } from 'vitest';
import { refusalFrom } from './inProcess.ts';

const friction = { thread: 0.12, bearing: 0.1, bearingDiameterMm: 13 };
const nutFactor = { nominal: 0.2 };
const band = { min: '40 N·m', max: '50 N·m' };
const other = { meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 14.5 };

describe('preload: what cannot be is refused by the field', () => {
  const m10 = { thread: 'M10', nutFactor, preload: '20 kN' };
  const rubbing = { thread: 'M10', friction, preload: '20 kN' };
  const torqued = { thread: 'M10', nutFactor, torque: band };
  const without = (joint: object, ...fields: string[]) =>
    Object.fromEntries(Object.entries(joint).filter(([field]) => !fields.includes(field)));

  it.each<[string, Record<string, unknown>, string, string]>([
    ['no thread', without(m10, 'thread'), 'missing-field', 'thread'],
    ['an unreadable thread', { ...m10, thread: 'M10x' }, 'unreadable-thread', 'thread'],
    ['a thread of another kind', { ...m10, thread: 10 }, 'wrong-shape', 'thread'],
    ['an unknown field', { ...m10, lubrication: 'dry' }, 'wrong-shape', 'lubrication'],
    [
      'an unknown field of the nut factor',
      { ...m10, nutFactor: { nominal: 0.2, mean: 1 } },
      'wrong-shape',
      'nutFactor.mean',
    ],
    [
      'an unknown field of the friction',
      { ...rubbing, friction: { ...friction, head: 1 } },
      'wrong-shape',
      'friction.head',
    ],
    ['an unknown field of the screw', { ...rubbing, thread: { ...other, starts: 2 } }, 'wrong-shape', 'thread.starts'],
    ['neither nut factor nor friction', without(m10, 'nutFactor'), 'missing-field', 'nutFactor'],
    ['nut factor and friction', { ...m10, friction }, 'contradiction', 'friction'],
    ['no target', without(m10, 'preload'), 'missing-field', 'torque'],
    ['two targets', { ...m10, torque: band }, 'contradiction', 'preload'],
    [
      'two shares',
      { ...rubbing, preload: undefined, strength: '8.8', yieldShare: 0.9, stressShare: 0.5 },
      'contradiction',
      'stressShare',
    ],
    ['a bare torque', { ...torqued, torque: { min: 40, max: '50 N·m' } }, 'ambiguous-quantity', 'torque.min'],
    ['a bare preload', { ...m10, preload: 20_000 }, 'ambiguous-quantity', 'preload'],
    ['a preload in N·m', { ...m10, preload: '20 N·m' }, 'wrong-kind', 'preload'],
    ['a torque in N', { ...torqued, torque: { min: '40 N', max: '50 N·m' } }, 'wrong-kind', 'torque.min'],
    [
      'an ambiguous torque',
      { ...torqued, torque: { min: '1,200 lbf·in', max: '500 N·m' } },
      'ambiguous-quantity',
      'torque.min',
    ],
    ['a torque with one end', { ...torqued, torque: { min: '40 N·m' } }, 'missing-field', 'torque.max'],
    ['a torque upside down', { ...torqued, torque: { min: '50 N·m', max: '40 N·m' } }, 'contradiction', 'torque.min'],
    ['a torque of 0', { ...torqued, torque: { min: '0 N·m', max: '40 N·m' } }, 'out-of-range', 'torque.min'],
    ['a torque below 0', { ...torqued, torque: { min: '-5 N·m', max: '40 N·m' } }, 'out-of-range', 'torque.min'],
    ['a preload of 0', { ...m10, preload: '0 N' }, 'out-of-range', 'preload'],
    ['a preload below 0', { ...m10, preload: '-20 kN' }, 'out-of-range', 'preload'],
    ['a nut factor of 0', { ...m10, nutFactor: { nominal: 0 } }, 'out-of-range', 'nutFactor.nominal'],
    ['no nominal nut factor', { ...m10, nutFactor: { min: 0.1, max: 0.2 } }, 'missing-field', 'nutFactor.nominal'],
    [
      'a least nut factor above the nominal',
      { ...m10, nutFactor: { nominal: 0.2, min: 0.21 } },
      'contradiction',
      'nutFactor.min',
    ],
    ['a greatest below it', { ...m10, nutFactor: { nominal: 0.2, max: 0.19 } }, 'contradiction', 'nutFactor.max'],
    [
      'a range with scatter',
      { ...m10, nutFactor: { nominal: 0.2, min: 0.1, max: 0.3 }, scatter: 0.25 },
      'contradiction',
      'scatter',
    ],
    ['one end with scatter', { ...m10, nutFactor: { nominal: 0.2, max: 0.3 }, scatter: 0 }, 'contradiction', 'scatter'],
    [
      'another diameter than the thread’s',
      { ...m10, nutFactor: { nominal: 0.2, diameterMm: 12 } },
      'contradiction',
      'nutFactor.diameterMm',
    ],
    ['no diameter of another screw', { ...m10, thread: other }, 'missing-field', 'nutFactor.diameterMm'],
    ['a linear form of a nut factor', { ...m10, form: 'linear' }, 'contradiction', 'form'],
    ['an unknown form', { ...rubbing, form: 'long' }, 'wrong-shape', 'form'],
    ['no friction', { ...rubbing, friction: { ...friction, thread: 0 } }, 'out-of-range', 'friction.thread'],
    [
      'a fastener with no friction under its head',
      { ...rubbing, friction: { ...friction, bearing: 0 } },
      'out-of-range',
      'friction.bearing',
    ],
    ['friction of 1', { ...rubbing, friction: { ...friction, bearing: 1 } }, 'out-of-range', 'friction.bearing'],
    ['friction below 0', { ...rubbing, friction: { ...friction, bearing: -0.1 } }, 'out-of-range', 'friction.bearing'],
    [
      'no bearing diameter',
      { ...rubbing, friction: { thread: 0.1, bearing: 0.1 } },
      'missing-field',
      'friction.bearingDiameterMm',
    ],
    [
      'a bearing diameter of 0',
      { ...rubbing, friction: { ...friction, bearingDiameterMm: 0 } },
      'out-of-range',
      'friction.bearingDiameterMm',
    ],
    [
      'a bearing diameter below 0',
      { ...rubbing, friction: { ...friction, bearingDiameterMm: -1 } },
      'out-of-range',
      'friction.bearingDiameterMm',
    ],
    [
      'more friction than can be turned',
      {
        ...rubbing,
        thread: { meanDiameterMm: 3, leadMm: 20, halfAngleDeg: 0 },
        friction: { ...friction, thread: 0.6 },
      },
      'out-of-range',
      'friction.thread',
    ],
    [
      'a screw without lead',
      { ...rubbing, thread: { meanDiameterMm: 20, halfAngleDeg: 0 } },
      'missing-field',
      'thread.leadMm',
    ],
    ['a lead of 0', { ...rubbing, thread: { ...other, leadMm: 0 } }, 'out-of-range', 'thread.leadMm'],
    [
      'a half angle of 90',
      { ...rubbing, thread: { ...other, halfAngleDeg: 90 } },
      'out-of-range',
      'thread.halfAngleDeg',
    ],
    [
      'a mean diameter in words',
      { ...rubbing, thread: { ...other, meanDiameterMm: '20' } },
      'wrong-shape',
      'thread.meanDiameterMm',
    ],
    [
      'a root above the mean',
      { ...rubbing, thread: { ...other, rootDiameterMm: 23 } },
      'contradiction',
      'thread.rootDiameterMm',
    ],
    [
      'the linear form of an Acme thread',
      { ...rubbing, thread: other, form: 'linear' },
      'out-of-range',
      'thread.halfAngleDeg',
    ],
    [
      'a class on a screw without designation',
      { ...rubbing, thread: other, strength: '8.8' },
      'out-of-range',
      'strength',
    ],
    ['an unknown class', { ...m10, strength: '7.7' }, 'not-held', 'strength'],
    ['a size outside the grade', { ...m10, thread: 'M42', strength: '8.8' }, 'out-of-range', 'strength'],
    ['an unknown field of the strength', { ...m10, strength: { yield: 640 } }, 'wrong-shape', 'strength.yield'],
    ['a share of yield without strength', { thread: 'M10', friction, yieldShare: 0.9 }, 'missing-field', 'strength'],
    [
      'a share of a strength without yield',
      { thread: 'M10', nutFactor, stressShare: 0.5, strength: { proofMPa: 600 } },
      'missing-field',
      'strength',
    ],
    [
      'a share of yield without friction',
      { thread: 'M10', nutFactor, strength: '8.8', yieldShare: 0.9 },
      'missing-field',
      'friction',
    ],
    [
      'a share of yield in the screw form',
      { thread: 'M10', friction, strength: '8.8', yieldShare: 0.9, form: 'screw' },
      'contradiction',
      'form',
    ],
    [
      'a share of yield above 1',
      { thread: 'M10', friction, strength: '8.8', yieldShare: 1.1 },
      'out-of-range',
      'yieldShare',
    ],
    [
      'a share of yield of 0',
      { thread: 'M10', friction, strength: '8.8', yieldShare: 0 },
      'out-of-range',
      'yieldShare',
    ],
    [
      'a stress share above 1',
      { thread: 'M10', nutFactor, strength: '8.8', stressShare: 1.01 },
      'out-of-range',
      'stressShare',
    ],
    [
      'a stress share without area',
      { thread: other, friction, strength: { yieldMPa: 640 }, stressShare: 0.5 },
      'missing-field',
      'thread.rootDiameterMm',
    ],
    ['running torque of what', { ...torqued, running: { min: '1 N·m', max: '2 N·m' } }, 'missing-field', 'torqueIs'],
    ['an unknown torqueIs', { ...torqued, torqueIs: 'bolt' }, 'wrong-shape', 'torqueIs'],
    [
      'running torque below 0',
      { ...torqued, torqueIs: 'seating', running: { min: '-1 N·m', max: '2 N·m' } },
      'out-of-range',
      'running.min',
    ],
    [
      'running torque upside down',
      { ...torqued, torqueIs: 'seating', running: { min: '3 N·m', max: '2 N·m' } },
      'contradiction',
      'running.min',
    ],
    [
      'running torque above the wrench’s',
      { ...torqued, torqueIs: 'wrench', running: { min: '3 N·m', max: '45 N·m' } },
      'contradiction',
      'running.max',
    ],
    [
      'running torque that leaves 0',
      { ...torqued, torqueIs: 'wrench', running: { min: '3 N·m', max: '40 N·m' } },
      'contradiction',
      'running.max',
    ],
    ['scatter of 1', { ...m10, scatter: 1 }, 'out-of-range', 'scatter'],
    ['scatter below 0', { ...m10, scatter: -0.1 }, 'out-of-range', 'scatter'],
    ['scatter in words', { ...m10, scatter: '25 %' }, 'wrong-shape', 'scatter'],
    ['an unknown scatterOf', { ...m10, scatter: 0.1, scatterOf: 'both' }, 'wrong-shape', 'scatterOf'],
    ['a scatterOf of no scatter', { ...torqued, scatterOf: 'nominal' }, 'contradiction', 'scatterOf'],
    ['settling of 1', { ...m10, relaxation: { share: 1, form: 'divide' } }, 'out-of-range', 'relaxation.share'],
    ['settling without form', { ...m10, relaxation: { share: 0.05 } }, 'missing-field', 'relaxation.form'],
    [
      'an unknown form of settling',
      { ...m10, relaxation: { share: 0.05, form: 'add' } },
      'wrong-shape',
      'relaxation.form',
    ],
    ['heat below 0', { ...m10, thermalN: -1 }, 'out-of-range', 'thermalN'],
    ['a loss below 0', { ...m10, thermalN: { gain: 1, loss: -1 } }, 'out-of-range', 'thermalN.loss'],
    ['a gain without loss', { ...m10, thermalN: { gain: 1 } }, 'missing-field', 'thermalN.loss'],
    ['an unknown torsion', { ...m10, torsion: 'both' }, 'wrong-shape', 'torsion'],
    ['half a bolt', { ...m10, boltsSharing: 1.5 }, 'wrong-shape', 'boltsSharing'],
    [
      'a driver of 0 N·m',
      { ...m10, stop: { driver: { name: 'bar', max: '0 N·m' }, parts: [] } },
      'out-of-range',
      'stop.driver.max',
    ],
    [
      'a rating in N',
      { ...m10, stop: { driver: { name: 'bar' }, parts: [{ name: 'socket', ratedTorque: '5 N' }] } },
      'wrong-kind',
      'stop.parts[0].ratedTorque',
    ],
    [
      'a modulus in N',
      { ...m10, service: { grip: '20 mm', boltModulus: '200 N', jointModulus: '70 GPa' } },
      'wrong-kind',
      'service.boltModulus',
    ],
    [
      'no grip',
      { ...m10, service: { grip: '0 mm', boltModulus: '200 GPa', jointModulus: '70 GPa' } },
      'out-of-range',
      'service.grip',
    ],
  ])('%s', async (_what, joint, code, field) => {
    const refusal = await refusalFrom('preload', '--file', joint);
    const all = refusal.rows ?? [refusal];
    expect(all).toContainEqual(expect.objectContaining({ code, field }));
    for (const { message } of all) expect(message).toMatch(/\S/);
  });

  it('all at once, the first in front', async () => {
    const refusal = await refusalFrom('preload', { ...m10, thread: 'M10x', preload: '-1 N', scatterOf: 'nominal' });
    expect(refusal.rows?.map(({ field }) => field)).toEqual(['thread', 'scatterOf', 'preload']);
    expect(refusal).toMatchObject({ code: 'unreadable-thread', field: 'thread', value: 'M10x' });
  });

  it('quantities beyond what a number holds', async () => {
    for (const joint of [
      { ...m10, preload: '1e308 N', nutFactor: { nominal: 1e300 } },
      { ...m10, preload: '1e308 N', thermalN: 1e308, scatter: 0.9 },
      { ...m10, preload: '1e-300 N', nutFactor: { nominal: 1e-300 } },
    ]) {
      const { code } = await refusalFrom('preload', joint);
      expect(['not-finite', 'out-of-range']).toContain(code);
    }
  });
});
