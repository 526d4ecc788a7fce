import type { AsRunLine } from '../../../shared-types/inspection.ts';
import { lineStateWords } from '../judged/stateWords.tsx';

export type MarkedRecord = Pick<AsRunLine, 'state' | 'reopened' | 'open' | 'accepted'>;

/** What a record is decided to be; that its tool was found out comes beside what is worse, and before what is not. */
export function recordStateWords({ state, reopened, open, accepted }: MarkedRecord): string {
  if (reopened) return state === 'nonconforming' ? `${lineStateWords[state]}, re-opened` : 'Re-opened';
  const taken = accepted === 0 ? '' : open === 0 ? ', accepted' : ', accepted in part';
  return `${lineStateWords[state]}${taken}`;
}
