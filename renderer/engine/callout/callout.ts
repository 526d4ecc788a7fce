import type { HeadForm } from '../../../shared-types/plan.ts';
import type { BandNm } from '../plan/resolved.ts';
import type { Tightening } from '../preload/resolvedJoint.ts';
import type { Strength } from '../strength/index.ts';
import type { Unit } from '../units/index.ts';
import type { ThreadFacts } from './heldFacts.ts';
import type { Wrench } from './wrench.ts';

/** One end of a band in the second unit: its number as printed, and one unit of its last printed digit. */
export interface PrintedEnd {
  value: number;
  lastDigit: number;
  /** As printed. */
  digits: string;
  unit: Unit;
  nm: number;
}

/** A callout as read: quantities in N, mm, MPa and N·m, null where nothing is said. */
export interface Callout {
  id: string;
  /** The file's line. */
  row: number;
  thread: ThreadFacts;
  /** As called out: the least may be above the greatest, which is for a rule to say. */
  band: BandNm;
  /** The unit the band is written in, for messages. */
  unit: Unit;
  alternative: { min: PrintedEnd; max: PrintedEnd } | null;
  strength: Strength | null;
  head: HeadForm | null;
  wrench: Wrench | null;
  /** The document that rules the locking feature. */
  locking: string | null;
  runningMinNm: number | null;
  runningMaxNm: number | null;
  breakawayMinNm: number | null;
  runningIncluded: boolean | null;
  lubrication: string | null;
  tightening: Tightening | null;
  scatter: number | null;
  engagementMm: number | null;
  internalUltimateMPa: number | null;
  preloadMinN: number | null;
  preloadMaxN: number | null;
  toolAccuracy: number | null;
  passes: BandNm[];
  angleDeg: { min: number; max: number } | null;
  otherColumns: Record<string, string> | null;
}
