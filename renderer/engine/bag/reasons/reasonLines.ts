import type { BagReasons } from '../../../../shared-types/bagReasons.ts';
import { limitReasonText, limitsTogetherText, toleranceText, withoutText } from './reasonText.ts';

/** One finding for reading or for a row. */
export interface ReasonLine {
  kind: 'without' | 'tolerance' | 'limit' | 'conflict' | 'loss';
  outing: string | null;
  step: string | null;
  item: string | null;
  bag: string | null;
  pieces: number | null;
  says: string;
}

const nowhere = { outing: null, step: null, item: null, bag: null, pieces: null };

/**
 * Every finding as a line, in the order in which a reader wants them.
 *
 * @param total - the answer's objective, in its own unit; null where there is none
 */
export function reasonLines(reasons: BagReasons, total: number | null): ReasonLine[] {
  return [
    ...reasons.losses.map(({ outing, step, lost, reason }): ReasonLine => {
      const what = 'piece' in lost ? { item: lost.piece } : { bag: lost.bag };
      return { ...nowhere, kind: 'loss', outing, step, ...what, says: reason };
    }),
    ...reasons.conflicts.map(({ outing, reason }): ReasonLine => {
      return { ...nowhere, kind: 'conflict', outing, says: reason };
    }),
    ...reasons.without.map((found): ReasonLine => {
      const { outing, id, packed, left } = found;
      return { ...nowhere, kind: 'without', outing, item: id, pieces: packed - left, says: withoutText(found) };
    }),
    ...reasons.tolerance.map((point): ReasonLine => {
      return { ...nowhere, kind: 'tolerance', says: toleranceText(point) };
    }),
    ...(total === null ? [] : limitLines(reasons, total)),
  ];
}

function limitLines({ limits, limitsTogether }: BagReasons, total: number): ReasonLine[] {
  return [
    ...limits.map((found): ReasonLine => {
      const { outing, limit } = found;
      const of = 'bag' in limit ? { bag: limit.bag } : 'id' in limit ? { item: limit.id } : {};
      return { ...nowhere, kind: 'limit', outing, ...of, says: limitReasonText(found, total) };
    }),
    ...limitsTogether.map((found): ReasonLine => {
      return { ...nowhere, kind: 'limit', outing: found.outing, says: limitsTogetherText(found, total) };
    }),
  ];
}

/** Headings under which the lines are read. */
export const reasonHeadings: Record<ReasonLine['kind'], string> = {
  loss: 'Losses that a step does not survive',
  conflict: 'Steps that do not go together',
  without: 'What happens without each item',
  tolerance: 'What it costs that something may be lost',
  limit: 'Which limits bind',
};
