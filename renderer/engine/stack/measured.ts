import { atLeast, atMost } from '../tolerance.ts';

/** One rule measured on one stack. */
export interface Measured {
  passes: boolean;
  have: string;
  need: string;
  /** Above 0 to spare, below 0 short; in the check's unit. */
  spare: number;
  /** What is asked, in that unit, so that a shortfall can be said as a share of it; null where a thing is so or not. */
  asked: number | null;
  margin: string;
}

/** How far over or short, in words with a number; empty for what is not measured. */
export function marginText(spare: number, show: (amount: number) => string): string {
  return spare < 0 ? `short by ${show(-spare)}` : `${show(spare)} over`;
}

/** What `value` has beyond `limit`; equal within the tolerance is neither over nor short. */
export function spareOver(value: number, limit: number): number {
  return atLeast(value, limit) && atMost(value, limit) ? 0 : value - limit;
}
