import type { Engagement, FailsFirst } from '../../../shared-types/engagement.ts';
import { RefusedError } from '../errors.ts';
import { ultimateLoadN } from '../strength/index.ts';
import {
  limitsOfSize,
  type ExternalClass,
  type InternalClass,
  type LimitsOfSize,
  type Thread,
} from '../thread/index.ts';
import { atMost } from '../tolerance.ts';
import { checkLimits } from './checkLimits.ts';
import { insertShearAreasMm2, lockNutStrengthN, pullOutLoadN } from './inserts.ts';
import { engagementForBoltBreakMm, shearAreaExternalMm2, shearAreaInternalMm2, strengthRatioJ } from './shearAreas.ts';
import { insertFormulas, limitFormulas, strippingFormulas } from './sources.ts';

/** The limits themselves, or the classes they follow from. */
export type LimitsAsked = { given: LimitsOfSize } | { externalClass: ExternalClass; internalClass: InternalClass };

export interface EngagementAsked {
  thread: Thread;
  engagementMm: number;
  /** Tensile strength of the bolt; null where it is not known. */
  externalUltimateMPa: number | null;
  /** Tensile strength of the nut or the tapped part; null where it is not known. */
  internalUltimateMPa: number | null;
  limits: LimitsAsked;
}

/** Above ten diameters no engagement is meant: common practice, no source. Published tolerances end at 1.5 diameters. */
const longestShare = 10;

/**
 * What fails first where a bolt is engaged over a length of thread, and the length that makes it the bolt.
 *
 *   bolt Rm,ext·At; external thread Rm,ext/2·ASs; internal thread Rm,int/2·ASn: the least of the three fails first
 *   required Le = 2·At/(ASs per length), times J where J > 1
 *
 * @param x.thread - unified, or metric with its limits given
 * @param x.engagementMm - Le, length of full threads engaged [mm], > 0, at most 10 D
 * @param x.externalUltimateMPa - Rm,ext [MPa], > 0, or null
 * @param x.internalUltimateMPa - Rm,int [MPa], > 0, or null
 * @param x.limits - the four limits of size, or the classes to compute them from
 * @returns areas, required length, what fails first; loads that are equal (1e-9) count for the bolt, then for the external thread
 * @throws RefusedError out-of-range, not-held (limits of metric and UNJ threads), contradiction (impossible limits); with `field`
 * @source FED-STD-H28/2B; ASME B1.1 for the limits (memory); NASA TM-106943 for inserts and nuts
 * @validity shear strength half the tensile strength; loads along the axis, evenly shared by all threads
 * @example judgeEngagement({ thread: readThread('1/2-13'), engagementMm: 12.7, externalUltimateMPa: 830, internalUltimateMPa: 830,
 *   limits: { externalClass: '2A', internalClass: '2B' } }).failsFirst // 'bolt'
 */
export function judgeEngagement(x: EngagementAsked): Engagement {
  const { thread, engagementMm, externalUltimateMPa: external, internalUltimateMPa: internal } = x;
  refuseLength(x);
  const isGiven = 'given' in x.limits;
  const limits = limitsOf(x);
  const sheared = { pitchMm: thread.pitchMm, engagementMm, limits };
  const ASs = shearAreaExternalMm2(sheared);
  const ASn = shearAreaInternalMm2(sheared);
  const bare = engagementForBoltBreakMm({ ...sheared, stressAreaMm2: thread.stressAreaMm2 });
  // With neither strength given both parts count as one material, of which any strength gives the same J.
  const strengths =
    external !== null && internal !== null
      ? { externalUltimateMPa: external, internalUltimateMPa: internal }
      : external === null && internal === null
        ? { externalUltimateMPa: 1, internalUltimateMPa: 1 }
        : null;
  const J =
    strengths === null ? null : strengthRatioJ({ shearAreaExternalMm2: ASs, shearAreaInternalMm2: ASn, ...strengths });
  const loadsN = {
    bolt: external === null ? null : ultimateLoadN({ ultimateMPa: external, stressAreaMm2: thread.stressAreaMm2 }),
    externalThread: stripping(ASs, external),
    internalThread: stripping(ASn, internal),
  };
  const insert = insertShearAreasMm2({ thread, engagementMm });
  const nut = lockNutStrengthN({ thread });
  return {
    shearAreaExternalMm2: ASs,
    shearAreaInternalMm2: ASn,
    requiredEngagementMm: J === null ? null : bare * Math.max(1, J),
    ...verdict(loadsN, atMost(bare, engagementMm)),
    strengthRatio: J,
    limits: { ...limits },
    loadsN,
    insertShearAreaMm2: insert,
    lockNutAxialStrengthN: nut?.axialN ?? null,
    assumptions: assumptionsOf(x),
    sources: [
      strippingFormulas,
      ...(isGiven ? [] : [limitFormulas]),
      ...(insert === null ? [] : [insertFormulas]),
      ...(nut === null ? [] : [nut.source]),
    ],
  };
}

function limitsOf({ thread, limits: asked }: EngagementAsked): LimitsOfSize {
  if ('given' in asked) {
    checkLimits({ thread, limits: asked.given });
    return asked.given;
  }
  const limits = limitsOfSize({ thread, ...asked });
  try {
    checkLimits({ thread, limits });
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    throw new RefusedError({
      code: 'out-of-range',
      message: `thread: ${thread.designation} is so fine on its diameter that the tolerances of ASME B1.1 leave no thread: ${error.message}`,
      field: 'thread',
      value: thread.designation,
    });
  }
  return limits;
}

/** Shear strength is half the tensile strength. */
function stripping(shearAreaMm2: number, ultimateMPa: number | null): number | null {
  return ultimateMPa === null ? null : pullOutLoadN({ shearAreaMm2, shearStrengthMPa: ultimateMPa / 2 });
}

/**
 * What fails first by the loads at which each part gives way.
 *
 * @param loadsN - loads of bolt and threads; null where a strength is not known
 * @param externalHolds - whether the engagement is long enough for the bolt to break before its own thread strips
 * @returns the part that fails first; equal loads count for the bolt, then for the external thread
 * @throws nothing
 * @source FED-STD-H28/2B
 * @validity as judgeEngagement
 * @example verdict({ bolt: 10, externalThread: 12, internalThread: 9 }, true).failsFirst // 'internal thread'
 */
export function verdict(
  loadsN: Engagement['loadsN'],
  externalHolds: boolean,
): { failsFirst: FailsFirst | null; threadFailsBeforeBolt: boolean | null } {
  const { bolt, externalThread, internalThread } = loadsN;
  if (bolt === null || internalThread === null || externalThread === null) {
    // Bolt and external thread are one material: too short an engagement shows without any strength.
    return { failsFirst: null, threadFailsBeforeBolt: externalHolds ? null : true };
  }
  if (atMost(bolt, externalThread) && atMost(bolt, internalThread)) {
    return { failsFirst: 'bolt', threadFailsBeforeBolt: false };
  }
  const failsFirst = atMost(externalThread, internalThread) ? 'external thread' : 'internal thread';
  return { failsFirst, threadFailsBeforeBolt: true };
}

function refuseLength({ thread, engagementMm }: EngagementAsked): void {
  const most = longestShare * thread.majorMm;
  if (engagementMm > 0 && atMost(engagementMm, most)) return;
  throw new RefusedError({
    code: 'out-of-range',
    message:
      engagementMm > 0
        ? `engagement: ${short(engagementMm)} mm is longer than can be: at most ${longestShare} diameters are taken, ${short(most)} mm for ` +
          `${thread.designation} (common practice, no source)`
        : `engagement: must be more than 0; it is ${engagementMm} mm`,
    field: 'engagement',
    value: engagementMm,
  });
}

function assumptionsOf(x: EngagementAsked): string[] {
  const { thread, engagementMm } = x;
  const isTabled = thread.series === 'UNC' || thread.series === 'UNF';
  const assumptions = [
    'The shear strength of each part is half its tensile strength (FED-STD-H28/2B).',
    'The engagement is of full threads; chamfers and incomplete threads are not counted.',
  ];
  if (x.externalUltimateMPa === null && x.internalUltimateMPa === null) {
    assumptions.push('Neither strength is given: the required engagement is for both parts of one material.');
  }
  if ('given' in x.limits) {
    assumptions.push('The limits of size are taken as given; thread classes are not used.');
    return assumptions;
  }
  const { externalClass, internalClass } = x.limits;
  assumptions.push(
    `Limits of size of ${externalClass} and ${internalClass} by the formulas of ASME B1.1, from memory, with a length of engagement of ` +
      `${isTabled ? 'one diameter' : 'nine pitches'}; not rounded.`,
  );
  const reach = isTabled ? 1.5 * thread.majorMm : 15 * thread.pitchMm;
  if (!atMost(engagementMm, reach)) {
    assumptions.push(
      `The tolerances of ASME B1.1 are for engagements up to ${isTabled ? '1.5 diameters' : '15 pitches'} (memory); this one is longer.`,
    );
  }
  return assumptions;
}

function short(mm: number): number {
  return Number(mm.toPrecision(7));
}
