import type { JointInput } from '../../../../shared-types/joint.ts';
import { atMost } from '../../tolerance.ts';
import type { JointReading } from './readingJoint.ts';

const targets = ['torque', 'preload', 'yieldShare', 'stressShare'] as const;

/** What two or more fields of a joint may not say together, or not leave out together. Each is refused by its name. */
export function crossRules(r: JointReading, input: JointInput): void {
  exactlyOne(r, input, ['nutFactor', 'friction']);
  exactlyOne(r, input, targets);
  nutFactorRules(r, input);
  formRules(r, input);
  if (input.scatter === undefined && input.scatterOf === 'nominal') {
    r.refuse('scatterOf', 'contradiction', 'says what scatter belongs to, and no "scatter" is given', input.scatterOf);
  }
  if (input.torque !== undefined && input.running !== undefined && input.torqueIs === undefined) {
    r.refuse(
      'torqueIs',
      'missing-field',
      'is missing: with "torque" and "running" it says whether the torque is on the wrench ("wrench", running torque in it) or for seating alone ("seating")',
    );
  }
}

function exactlyOne(r: JointReading, input: JointInput, names: readonly (keyof JointInput)[]): void {
  const given = names.filter((name) => input[name] !== undefined);
  const listed = names.map((name) => `"${name}"`).join(', ');
  const [first, second] = given;
  if (first === undefined) {
    r.refuse(names[0] ?? '', 'missing-field', `is missing: exactly one of ${listed} is asked for`);
  } else if (second !== undefined) {
    r.refuse(
      second,
      'contradiction',
      `is given together with "${given.filter((name) => name !== second).join('", "')}": exactly one of ${listed} is asked for`,
      input[second],
    );
  }
}

function nutFactorRules(r: JointReading, { nutFactor, scatter, thread }: JointInput): void {
  if (nutFactor === undefined) return;
  const { nominal, min, max, diameterMm } = nutFactor;
  if (min !== undefined && !atMost(min, nominal)) {
    r.refuse('nutFactor.min', 'contradiction', `is above the nominal nut factor, ${nominal}`, min);
  }
  if (max !== undefined && !atMost(nominal, max)) {
    r.refuse('nutFactor.max', 'contradiction', `is below the nominal nut factor, ${nominal}`, max);
  }
  if ((min !== undefined || max !== undefined) && scatter !== undefined) {
    r.refuse(
      'scatter',
      'contradiction',
      'is given together with a range of the nut factor: the range stands in place of the scatter',
      scatter,
    );
  }
  if (typeof thread !== 'string' && diameterMm === undefined) {
    r.refuse(
      'nutFactor.diameterMm',
      'missing-field',
      'is missing: a screw without designation does not say the diameter its nut factor is counted on',
    );
  }
}

function formRules(r: JointReading, { form, friction, nutFactor, yieldShare, thread }: JointInput): void {
  if (yieldShare !== undefined) {
    if (friction === undefined) {
      r.refuse(
        'friction',
        'missing-field',
        'is missing: "yieldShare" counts torsion, which needs the friction in the thread',
      );
    }
    if (form === 'screw' || form === 'exact') {
      r.refuse('form', 'contradiction', '"yieldShare" is computed in the linear form (VDI 2230)', form);
    }
  }
  if (form === 'linear' && friction === undefined && nutFactor !== undefined) {
    r.refuse('form', 'contradiction', 'is a form of the friction equation, and "nutFactor" is given', form);
  }
  const isLinear = form === 'linear' || yieldShare !== undefined;
  if (isLinear && typeof thread !== 'string' && !isSixtyDegrees(thread.halfAngleDeg)) {
    r.refuse(
      'thread.halfAngleDeg',
      'out-of-range',
      'must be 30 in the linear form: VDI 2230 is for 60° threads; the screw equation ("form": "screw") takes any',
      thread.halfAngleDeg,
    );
  }
}

function isSixtyDegrees(halfAngleDeg: number): boolean {
  return atMost(halfAngleDeg, 30) && atMost(30, halfAngleDeg);
}
