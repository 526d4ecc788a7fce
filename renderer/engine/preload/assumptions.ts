import type { JointInput } from '../../../shared-types/joint.ts';
import type { Thread } from '../thread/index.ts';
import type { ResolvedJoint } from './resolvedJoint.ts';

/** Everything about a joint that was not said and is assumed, and every choice of a formula that was not asked for by name. */
export function assumptionsOf(x: { input: JointInput; thread: Thread | null; joint: ResolvedJoint }): string[] {
  return [...ofScrew(x), ...ofTightening(x.input), ...ofRange(x.input), ...ofStress(x), ...ofWork(x)];
}

function ofScrew({ input, thread }: { input: JointInput; thread: Thread | null }): string[] {
  if (thread !== null) {
    return [
      'The screw has one start: its lead is the pitch.',
      ...(input.friction === undefined
        ? ['The nut factor counts on the basic major diameter.']
        : ['The mean thread diameter dm is the basic pitch diameter d2.', 'The half angle of the thread is 30°.']),
      // Of the threads read, UNJ alone has no root.
      ...(thread.rootDiameterMm === null
        ? ['Basic diameters and stress area are those of the UN thread: no dimensions of UNJ threads are held.']
        : []),
    ];
  }
  if (typeof input.thread === 'string' || input.thread.rootDiameterMm === undefined) {
    return ['No section of this screw is known: no stress is computed.'];
  }
  return [
    'Stresses and shares count on the root diameter, d0 = rootDiameterMm: no stress area is published for this screw.',
  ];
}

function ofTightening({ friction, form, yieldShare, nutFactor }: JointInput): string[] {
  if (friction !== undefined) {
    return [
      ...(yieldShare !== undefined && form === undefined
        ? ['Linear form (VDI 2230), in which a share of yield is computed.']
        : []),
      ...(yieldShare === undefined && form === undefined ? ['Screw equation: no "form" is given.'] : []),
      'Static friction, for loosening, is the friction given for tightening.',
      ...(form === 'linear' || yieldShare !== undefined
        ? ['Release torque and self-locking by the screw equation: the linear form is for tightening.']
        : []),
    ];
  }
  const { min, max } = nutFactor ?? {};
  if ((min === undefined) === (max === undefined)) return [];
  return [
    `The ${min === undefined ? 'least' : 'greatest'} nut factor is the nominal one: only the other end is given.`,
  ];
}

function ofRange(input: JointInput): string[] {
  const { nutFactor, scatter, scatterOf, relaxation, thermalN, running, torque, boltsSharing } = input;
  const hasRange = nutFactor?.min !== undefined || nutFactor?.max !== undefined;
  return [
    ...(scatter === undefined && !hasRange ? ['Scatter of the preload is taken as 0: none is given.'] : []),
    ...(hasRange && torque === undefined
      ? ['The preload is the one asked for: the range of the nut factor widens the torque that gives it.']
      : []),
    ...(scatter !== undefined && scatterOf === undefined && torque !== undefined
      ? ['The scatter is of the band: it is counted at both ends of the torque.']
      : []),
    ...(scatterOf === 'nominal'
      ? ['The scatter is of the nominal preload: the torque band is left out of the preload range.']
      : []),
    ...(boltsSharing !== undefined && boltsSharing > 1
      ? [`The least preload is the mean of ${boltsSharing} bolts, whose scatter is u/√n (NASA-STD-5020, from memory).`]
      : []),
    ...(relaxation === undefined ? ['Settling is taken as 0: none is given.'] : []),
    ...(thermalN === undefined ? ['Gain and loss of preload from temperature are taken as 0: none are given.'] : []),
    ...(running === undefined ? ['Running torque is taken as 0: none is given.'] : []),
  ];
}

function ofStress({ input, joint }: { input: JointInput; joint: ResolvedJoint }): string[] {
  if (joint.screw.stressAreaMm2 === null) return [];
  if (input.friction === undefined) {
    return ['A nut factor does not say the torque in the shank: no shear and no equivalent stress.'];
  }
  return [
    ...(input.torsion === undefined
      ? [
          `Torsion is ${joint.torsion}${joint.torsion === 'plastic' ? ', as a share of yield is computed' : ''}: none is asked for.`,
        ]
      : []),
    'At the greatest preload, torsion grows in the same measure as tension.',
  ];
}

function ofWork({ input }: { input: JointInput }): string[] {
  return [
    ...(input.service === undefined
      ? []
      : ['The bolt has the section As over the whole grip; the joint stays closed.']),
    ...(input.stop === undefined
      ? []
      : ['The shank carries the whole loosening torque, counted on the root diameter.']),
  ];
}
