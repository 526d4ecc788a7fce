import { RefusedError } from '../../engine/errors.ts';
import { plausibilityText, torquePlausibility } from '../../engine/plausibility/index.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';

export interface CalloutQuery {
  /** "doubt" asks; "not-held" says that nothing could be compared. */
  kind: 'doubt' | 'not-held';
  words: string;
}

/** What to ask of a callout as it is typed; null while it cannot be read, for the fields say that themselves. */
export function calloutQuery(callout: TaskStep['callout'], thread: string | undefined): CalloutQuery | null {
  if (callout === undefined || thread === undefined) return null;
  // One end alone is asked about too: the hand may stop there to look.
  const min = callout.min || callout.max;
  const max = callout.max || callout.min;
  if (!min || !max) return null;
  try {
    const torque = { min, max };
    const found = torquePlausibility({ thread, torque });
    const words = plausibilityText(found, { thread, torque, units: 'both' });
    return words === null ? null : { kind: found.verdict === 'not-held' ? 'not-held' : 'doubt', words };
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}
