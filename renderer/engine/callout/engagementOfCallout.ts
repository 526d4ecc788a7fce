import { pullOutLoadN } from '../engagement/inserts.ts';
import { verdict } from '../engagement/judgeEngagement.ts';
import {
  engagementForBoltBreakMm,
  shearAreaExternalMm2,
  shearAreaInternalMm2,
  strengthRatioJ,
} from '../engagement/shearAreas.ts';
import { ultimateLoadN } from '../strength/index.ts';
import { atMost } from '../tolerance.ts';
import type { ExternalClass, InternalClass } from '../thread/index.ts';
import type { Callout } from './callout.ts';
import type { CalloutEngagement } from './calloutCase.ts';

/** The classes of fit where the designation says nothing, and where it says 3. */
const usual = { externalClass: '2A', internalClass: '2B' } as const;
const close = { externalClass: '3A', internalClass: '3B' } as const;

/**
 * What fails first over the callout's engagement: what judgeEngagement says, with the limits of size looked up once for each thread.
 *
 * @returns null where none is given; the reason where the thread's limits of size are not held
 */
export function engagementOfCallout(callout: Callout): CalloutEngagement | { reason: string } | null {
  const { engagementMm, thread: facts, strength, internalUltimateMPa } = callout;
  if (engagementMm === null) return null;
  const classes = classesOf(facts.thread.class);
  if (classes === null)
    return {
      reason: `limits of size of class ${facts.thread.class ?? ''} are not held; those of 2A, 2B, 3A and 3B are`,
    };
  const { held: limits, reason } = facts.limitsOfSize(classes);
  if (limits === null) return { reason };
  const { pitchMm, stressAreaMm2 } = facts.thread;
  const sheared = { pitchMm, engagementMm, limits };
  const external = strength?.ultimateMPa ?? null;
  const [ASs, ASn] = [shearAreaExternalMm2(sheared), shearAreaInternalMm2(sheared)];
  const bareMm = engagementForBoltBreakMm({ ...sheared, stressAreaMm2 });
  const loadsN = {
    bolt: external === null ? null : ultimateLoadN({ ultimateMPa: external, stressAreaMm2 }),
    externalThread: stripping(ASs, external),
    internalThread: stripping(ASn, internalUltimateMPa),
  };
  return {
    ...verdict(loadsN, atMost(bareMm, engagementMm)),
    requiredEngagementMm: requiredMm(bareMm, { ASs, ASn, external, internal: internalUltimateMPa }),
    loadsN,
  };
}

/** Shear strength is half the tensile strength. */
function stripping(shearAreaMm2: number, ultimateMPa: number | null): number | null {
  return ultimateMPa === null ? null : pullOutLoadN({ shearAreaMm2, shearStrengthMPa: ultimateMPa / 2 });
}

/** As judgeEngagement has it: null where one strength alone is known. */
function requiredMm(
  bareMm: number,
  x: { ASs: number; ASn: number; external: number | null; internal: number | null },
): number | null {
  if ((x.external === null) !== (x.internal === null)) return null;
  return (
    bareMm *
    Math.max(
      1,
      strengthRatioJ({
        shearAreaExternalMm2: x.ASs,
        shearAreaInternalMm2: x.ASn,
        externalUltimateMPa: x.external ?? 1,
        internalUltimateMPa: x.internal ?? 1,
      }),
    )
  );
}

function classesOf(designated: string | null): { externalClass: ExternalClass; internalClass: InternalClass } | null {
  if (designated === null || designated.startsWith('2')) return usual;
  if (designated.startsWith('3')) return close;
  return designated.startsWith('1') ? null : usual;
}
