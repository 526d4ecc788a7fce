import { judgeEngagement } from '../engagement/index.ts';
import { RefusedError } from '../errors.ts';
import type { ExternalClass, InternalClass } from '../thread/index.ts';
import type { Callout } from './callout.ts';
import type { CalloutEngagement } from './calloutCase.ts';

/** The classes of fit where the designation says nothing, and where it says 3. */
const usual = { externalClass: '2A', internalClass: '2B' } as const;
const close = { externalClass: '3A', internalClass: '3B' } as const;

/**
 * What fails first over the callout's engagement.
 *
 * @returns null where none is given; the reason where the thread's limits of size are not held
 * @throws only what is no refusal
 */
export function engagementOfCallout(callout: Callout): CalloutEngagement | { reason: string } | null {
  const { engagementMm, thread: facts, strength, internalUltimateMPa } = callout;
  if (engagementMm === null) return null;
  const classes = classesOf(facts.thread.class);
  if (classes === null)
    return {
      reason: `limits of size of class ${facts.thread.class ?? ''} are not held; those of 2A, 2B, 3A and 3B are`,
    };
  const limits = facts.limitsOfSize(classes);
  if (limits.held === null) return { reason: limits.reason };
  try {
    return judgeEngagement({
      thread: facts.thread,
      engagementMm,
      externalUltimateMPa: strength?.ultimateMPa ?? null,
      internalUltimateMPa,
      limits: classes,
    });
  } catch (error) {
    if (error instanceof RefusedError) return { reason: error.refusal.message };
    throw error;
  }
}

function classesOf(designated: string | null): { externalClass: ExternalClass; internalClass: InternalClass } | null {
  if (designated === null || designated.startsWith('2')) return usual;
  if (designated.startsWith('3')) return close;
  return designated.startsWith('1') ? null : usual;
}
