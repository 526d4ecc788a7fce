import type { Finding } from '../../../shared-types/judged.ts';
import type { Callout } from '../callout/callout.ts';
import type { Moment } from './moment.ts';

/** One row of what was recorded, read: torques in N·m, null where nothing is recorded. */
export interface AsRunRecord {
  /** The file's line. */
  row: number;
  /** Callout, position, cycle and pass. */
  id: string;
  callout: Callout;
  position: string;
  cycle: number;
  pass: string | null;
  /** The pass as a number, where it is one. */
  passNumber: number | null;
  runningNm: number | null;
  breakawayNm: number | null;
  finalNm: number;
  /** The turn after the snug torque. */
  angleDeg: number | null;
  method: 'set' | 'read' | null;
  turns: number | null;
  tool: string | null;
  serial: string | null;
  /** As typed; `celsius` is null where it has no unit. */
  temperature: { text: string; celsius: number | null } | null;
  /** As typed; `moment` is null where it is none that is understood. */
  time: { text: string; moment: Moment | null } | null;
  /** What nothing reads, kept as it stands. */
  otherColumns: Record<string, string> | null;
}

/** Findings on records, by record: what several rows say together is found on one of them. */
export type Found = (record: AsRunRecord, finding: Finding) => void;
