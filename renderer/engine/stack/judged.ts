import type { CheckName, ClosestFit, Setting, StackIds } from '../../../shared-types/bag.ts';

/** One rule applied to one stack: what it has against what the step needs, with the margin in the check's own unit. */
export interface StackCheck {
  check: CheckName;
  passes: boolean;
  have: string;
  need: string;
  /** "1.66 in over", "short by 0.75 in", "10° over"; empty where the check has no number. */
  margin: string;
}

export interface JudgedStack {
  /** Tool, extensions, socket. */
  stack: StackIds;
  lengthMm: number;
  massKg: number;
  checks: StackCheck[];
  setting: Setting | null;
  /** The setting's applied band, ends in N·m; null when nothing is set. */
  applied: { minNm: number; maxNm: number } | null;
}

/** What can be said of a step from the catalog alone, before any bag is planned. */
export interface StepJudgement {
  step: string;
  state: 'reached' | 'not-reached' | 'by-hand';
  /** The lightest stack that passes; ties by fewer parts, then ids. */
  best: JudgedStack | null;
  /** The lightest second stack, on the part held against turning. */
  hold: JudgedStack | null;
  /** Further stacks that pass, lightest first, at most five. */
  others: JudgedStack[];
  stackCount: number;
  closest: ClosestFit[];
  /** Turns to run the fastener’s `threadRun`, and the whole strokes of the tool for them in the free swing. */
  turns: number | null;
  strokes: number | null;
}
