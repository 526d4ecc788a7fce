/** A test that did not run, and why. */
export interface Skipped {
  test: string;
  reason: string;
}

/** What one stage of the run came to. */
export interface Result {
  passed: number;
  failed: number;
  skipped: readonly Skipped[];
  /** A few words on what was looked at: "231 modules". */
  detail: string;
  /** All there is to read where something failed, '' otherwise. */
  text: string;
}

/** A stage that is one check: it counts as one. */
export const checked = (passed: boolean, detail: string, text: string): Result => ({
  passed: passed ? 1 : 0,
  failed: passed ? 0 : 1,
  skipped: [],
  detail,
  text: passed ? '' : text,
});
