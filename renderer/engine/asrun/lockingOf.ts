import type { FindingSource } from '../../../shared-types/judged.ts';
import type { Callout } from '../callout/index.ts';
import type { LockingLimits } from '../locking/index.ts';

/** A limit and who sets it. */
export interface SetLimit {
  nm: number;
  /** Who sets it, for a sentence: "the callout", "ISO 2320". */
  by: string;
  source: FindingSource;
}

/** The least breakaway torque of one cycle. */
export interface BreakawayMinimum {
  /** Under it is too little, whatever is doubtful. */
  certain: SetLimit | null;
  /** Under it is doubtful; the same as the certain one where nothing is. */
  asked: SetLimit | null;
}

/** What a callout's running and breakaway torques are held against. */
export interface CalloutLocking {
  runningMax: SetLimit | null;
  breakawayMinAt: (cycle: number) => BreakawayMinimum;
  /** Least torque of a nut used again, by a document that prints no breakaway torque. */
  reusedMin: SetLimit | null;
  /** The document that the callout names, where it is held for the thread. */
  document: string | null;
  /** Why the document that the callout names says nothing; null where it does or none is named. */
  notHeld: string | null;
}

const own = 'The callout’s own limit.';
/** Removals between which a document with a first and a fifth prints nothing. */
const [firstOff, fifthOff] = [1, 5];

/**
 * Running and breakaway limits of a callout: its own and those of the document it names; where both set one, the stricter.
 *
 * A document may print a least torque for the first removal and a lower one for the fifth (ISO 2320). The first holds at cycle 1, the
 * second from cycle 5 on; in between a torque under the second is too little, and one between the two is doubtful, for nothing is
 * printed. A document that prints one least breakaway torque means it at every cycle.
 *
 * @returns the limits, each with who sets it
 */
export function lockingOf(callout: Callout): CalloutLocking {
  const { held, reason } =
    callout.locking === null ? { held: null, reason: null } : callout.thread.locking(callout.locking);
  const ownMin = ownLimit(callout.breakawayMinNm);
  const first = documentLimit(held, held?.breakawayMinNm ?? null);
  const reused = documentLimit(held, held?.reusedMinNm ?? null);
  const later = first === null ? null : (reused ?? first);
  const [atFirst, atFifth] = [stricter(ownMin, first, 'most'), stricter(ownMin, later, 'most')];
  return {
    runningMax: stricter(ownLimit(callout.runningMaxNm), documentLimit(held, held?.runningMaxNm ?? null), 'least'),
    breakawayMinAt: (cycle) => {
      if (cycle <= firstOff) return { certain: atFirst, asked: atFirst };
      return { certain: atFifth, asked: cycle < fifthOff ? atFirst : atFifth };
    },
    reusedMin: first === null ? reused : null,
    document: held?.source.number ?? null,
    notHeld: reason,
  };
}

function ownLimit(nm: number | null): SetLimit | null {
  return nm === null ? null : { nm, by: 'the callout', source: own };
}

function documentLimit(held: LockingLimits | null, nm: number | null): SetLimit | null {
  return held === null || nm === null ? null : { nm, by: held.source.number, source: held.source };
}

/** The document where both are the same. */
function stricter(ours: SetLimit | null, document: SetLimit | null, which: 'most' | 'least'): SetLimit | null {
  if (ours === null || document === null) return ours ?? document;
  const isOurs = which === 'most' ? ours.nm > document.nm : ours.nm < document.nm;
  return isOurs ? ours : document;
}
