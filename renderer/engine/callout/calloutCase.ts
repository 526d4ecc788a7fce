import type { FailsFirst } from '../../../shared-types/engagement.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import type { JointNumbers } from '../../../shared-types/joint.ts';
import type { Callout } from './callout.ts';
import type { CalloutTorque } from './torqueOfCallout.ts';

/** What fails first where the callout's thread is engaged over its length. */
export interface CalloutEngagement {
  requiredEngagementMm: number | null;
  failsFirst: FailsFirst | null;
  threadFailsBeforeBolt: boolean | null;
  loadsN: { bolt: number | null; externalThread: number | null; internalThread: number | null };
}

/** A callout with all that is computed of it before any rule looks. */
export interface CalloutCase {
  callout: Callout;
  torque: CalloutTorque;
  joint: JointNumbers | null;
  /** Null where no engagement is given; why not, where it cannot be judged. */
  engagement: CalloutEngagement | { reason: string } | null;
}

/** Looks at one callout and adds what it finds. */
export type CalloutRule = (x: CalloutCase, found: Finding[]) => void;
