import { jointSchema, type JointInput } from '../../../../shared-types/joint.ts';
import { refusalFromZod, rowFinder } from '../../json/readJson.ts';
import { RefusedError } from '../../errors.ts';
import { Refusals } from '../../json/refusals.ts';
import type { Strength } from '../../strength/index.ts';
import type { Thread } from '../../thread/index.ts';
import { crossRules } from './crossRules.ts';
import type { Rated } from '../../loosening/stopLimit.ts';
import { screwThreadArmMm } from '../formula/index.ts';
import { readService, type ResolvedService } from '../serviceOfJoint.ts';
import { readStop } from '../stopOfJoint.ts';
import { JointReading } from './readingJoint.ts';
import { nutFactorDiameterMm, readScrew, readStrengthOf } from './readScrew.ts';
import type { ResolvedJoint, ResolvedScrew, Target, Tightening } from '../resolvedJoint.ts';

/** Where a joint was read, for refusals: its file and that file's text. */
export interface JointOrigin {
  file?: string;
  text?: string;
}

/** A joint as read: its numbers, and what the words about it are made from. */
export interface ReadJoint {
  input: JointInput;
  thread: Thread | null;
  strength: Strength | null;
  joint: ResolvedJoint;
  stop: Rated[] | null;
  service: ResolvedService | null;
}

/**
 * A joint out of a JSON document, checked whole and put into the engine's units, with every default filled in.
 *
 * @param given - the input of `preload`, of the headless contract
 * @param origin - the file it stands in, if any
 * @returns the joint in N, mm, MPa and N·m
 * @throws RefusedError naming file, row, field, value and reason; every fault of the joint in `rows`
 * @source the headless contract, command `preload`
 * @validity the ranges of the formulas, refused by field outside them
 * @example readJoint({ thread: 'M10', nutFactor: { nominal: 0.2 }, preload: '20 kN' }).joint.target // 20000 N
 */
export function readJoint(given: unknown, origin: JointOrigin = {}): ReadJoint {
  const parsed = jointSchema.safeParse(given);
  if (!parsed.success) throw refusalFromZod(parsed.error, { ...origin, input: given });
  const input = parsed.data;
  const { text } = origin;
  const refusals = new Refusals(origin.file, text === undefined ? () => undefined : rowFinder(text));
  const r = new JointReading(refusals);
  const { screw, thread } = readScrew(r, input);
  const strength = readStrengthOf(r, input, thread);
  crossRules(r, input);
  const joint = resolveJoint(r, input, { screw, thread, strength });
  needsOfShare(r, input, joint, strength);
  needsOfFriction(r, input, joint);
  const stop = input.stop === undefined ? null : readStop(r, input.stop);
  const service = input.service === undefined ? null : readService(r, input.service, screw);
  refusals.settle();
  return { input, thread, strength, joint, stop, service };
}

function resolveJoint(
  r: JointReading,
  input: JointInput,
  { screw, thread, strength }: { screw: ResolvedScrew; thread: Thread | null; strength: Strength | null },
): ResolvedJoint {
  const { thermalN = 0, running } = input;
  return {
    screw,
    tightening: readTightening(r, input, thread),
    target: readTarget(r, input),
    running: running === undefined ? { minNm: 0, maxNm: 0 } : r.band('running', running, false),
    scatter: input.scatter ?? 0,
    scatterOf: input.scatterOf ?? 'band',
    boltsSharing: input.boltsSharing ?? 1,
    // Without settling both forms are the same.
    relaxation: input.relaxation ?? { share: 0, form: 'divide' },
    thermalGainN: typeof thermalN === 'number' ? thermalN : thermalN.gain,
    thermalLossN: typeof thermalN === 'number' ? thermalN : thermalN.loss,
    torsion: input.torsion ?? (input.yieldShare === undefined ? 'elastic' : 'plastic'),
    proofMPa: strength?.proofMPa ?? null,
    yieldMPa: strength?.yieldMPa ?? null,
  };
}

function readTightening(r: JointReading, input: JointInput, thread: Thread | null): Tightening {
  const { nutFactor, friction, form, yieldShare } = input;
  if (friction === undefined) {
    const { nominal, min = nominal, max = nominal, diameterMm } = nutFactor ?? { nominal: 1 };
    return { by: 'nutFactor', nominal, min, max, diameterMm: nutFactorDiameterMm(r, diameterMm, thread) };
  }
  for (const part of ['bearing', 'bearingDiameterMm'] as const) {
    if (friction[part] !== 0 || typeof input.thread !== 'string') continue;
    r.refuse(
      `friction.${part}`,
      'out-of-range',
      'must be more than 0: a fastener seats on a face; only a screw without designation may have none',
      0,
    );
  }
  return { by: 'friction', form: form === 'linear' || yieldShare !== undefined ? 'linear' : 'screw', ...friction };
}

function readTarget(r: JointReading, input: JointInput): Target {
  const { torque, preload, yieldShare, stressShare } = input;
  if (torque !== undefined) {
    return { to: 'torque', torque: r.band('torque', torque, true), torqueIs: input.torqueIs ?? 'seating' };
  }
  if (preload !== undefined) {
    return { to: 'preload', preloadN: r.amount('preload', preload, { kind: 'force', unit: 'N', aboveZero: true }) };
  }
  if (yieldShare !== undefined) return { to: 'yieldShare', share: yieldShare };
  return { to: 'stressShare', share: stressShare ?? 1 };
}

/** A share of yield counts on an area and a yield strength: both are missed here, with their row. */
function needsOfShare(r: JointReading, input: JointInput, { screw }: ResolvedJoint, strength: Strength | null): void {
  const share = input.yieldShare === undefined ? 'stressShare' : 'yieldShare';
  if (input[share] === undefined) return;
  if (typeof input.thread !== 'string' && screw.stressAreaMm2 === null) {
    r.refuse(
      'thread.rootDiameterMm',
      'missing-field',
      `is missing: "${share}" counts on an area, and a screw without designation has none but that of its root`,
    );
  }
  if (input.strength === undefined) {
    r.refuse('strength', 'missing-field', `is missing: "${share}" is a share of the fastener's yield strength`);
  } else if (strength !== null && strength.yieldMPa === null) {
    r.refuse('strength', 'missing-field', `holds no yield strength, of which "${share}" is a share`);
  }
}

/** Friction and lead so great that no torque turns the screw belong to the field they stand in, with its row. */
function needsOfFriction(r: JointReading, { friction }: JointInput, { screw, tightening }: ResolvedJoint): void {
  if (friction === undefined || tightening.by !== 'friction' || tightening.form !== 'screw') return;
  try {
    screwThreadArmMm({ ...screw, friction: friction.thread });
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    // The value to mend is the friction, not the term of the formula that it makes impossible.
    r.refusals.add('friction.thread', { ...error.refusal, value: friction.thread });
  }
}
