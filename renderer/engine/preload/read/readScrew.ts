import type { JointInput } from '../../../../shared-types/joint.ts';
import { RefusedError } from '../../errors.ts';
import { readStrength, type Strength } from '../../strength/index.ts';
import { readThread, type Thread } from '../../thread/index.ts';
import { atLeast, atMost } from '../../tolerance.ts';
import type { JointReading } from './readingJoint.ts';
import type { ResolvedScrew } from '../resolvedJoint.ts';

/** α of every designated thread: half of 60°. */
const fastenerHalfAngleDeg = 30;

const standIn: ResolvedScrew = {
  meanDiameterMm: 9,
  leadMm: 1,
  halfAngleDeg: fastenerHalfAngleDeg,
  nominalDiameterMm: 10,
  rootDiameterMm: null,
  stressAreaMm2: null,
};

/** The screw of a joint; `thread` is null where no designation names it. */
export function readScrew(r: JointReading, input: JointInput): { screw: ResolvedScrew; thread: Thread | null } {
  const { thread: given } = input;
  if (typeof given === 'string') {
    const thread = r.refusals.attempt<Thread | null>('thread', given, null, () => readThread(given));
    return thread === null ? { screw: standIn, thread } : { screw: screwOf(thread), thread };
  }
  const { meanDiameterMm, leadMm, halfAngleDeg, rootDiameterMm } = given;
  if (rootDiameterMm !== undefined && atLeast(rootDiameterMm, meanDiameterMm)) {
    r.refuse(
      'thread.rootDiameterMm',
      'contradiction',
      `must be below the mean diameter, ${meanDiameterMm} mm`,
      rootDiameterMm,
    );
  }
  return {
    screw: {
      meanDiameterMm,
      leadMm,
      halfAngleDeg,
      nominalDiameterMm: null,
      rootDiameterMm: rootDiameterMm ?? null,
      // No stress area is published for such a screw: its textbook counts stresses on the root.
      stressAreaMm2: rootDiameterMm === undefined ? null : (Math.PI / 4) * rootDiameterMm ** 2,
    },
    thread: null,
  };
}

/** A designated fastener has one start, so that its lead is its pitch. */
export function screwOf(thread: Thread): ResolvedScrew {
  return {
    meanDiameterMm: thread.pitchDiameterMm,
    leadMm: thread.pitchMm,
    halfAngleDeg: fastenerHalfAngleDeg,
    nominalDiameterMm: thread.majorMm,
    rootDiameterMm: thread.rootDiameterMm,
    stressAreaMm2: thread.stressAreaMm2,
  };
}

/**
 * The strength where one is given. The size of a thread that could not be read judges no grade.
 *
 * @returns the strength; null where none is given or it is refused
 * @throws only what is no refusal: those are gathered
 */
export function readStrengthOf(r: JointReading, input: JointInput, thread: Thread | null): Strength | null {
  const { strength } = input;
  if (strength === undefined || (thread === null && typeof input.thread === 'string')) return null;
  try {
    return readStrength(strength, { thread, field: 'strength' });
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    const { field = 'strength', message, ...refusal } = error.refusal;
    // A refusal that names its field already has it in front of its words.
    r.refusals.add(field, { ...refusal, message: message.replace(`${field}: `, '') });
    return null;
  }
}

/**
 * D of the nut factor: a designation's own, which a given one may repeat but not contradict.
 *
 * @param r - gathers what is refused: nothing is thrown here
 * @param given - nutFactor.diameterMm [mm], where it is given
 * @param thread - the designated thread, null for another screw
 * @returns D [mm]
 * @throws nothing
 * @source definition of the nut factor, as nutFactorTorqueNm
 * @validity designated threads by their basic major diameter; another screw by what is given
 * @example M10, none given: 10
 */
export function nutFactorDiameterMm(r: JointReading, given: number | undefined, thread: Thread | null): number {
  if (thread === null) return given ?? 1;
  if (given !== undefined && !(atLeast(given, thread.majorMm) && atMost(given, thread.majorMm))) {
    r.refuse(
      'nutFactor.diameterMm',
      'contradiction',
      `is not the diameter of ${thread.designation}, ${thread.majorMm} mm; it is for a screw without designation`,
      given,
    );
  }
  return thread.majorMm;
}
