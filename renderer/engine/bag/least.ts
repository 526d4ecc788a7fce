import type { Content, Known } from './contents.ts';
import type { Costs } from './model/costs.ts';
import type { Covering } from './search/covering.ts';

export interface LeastOptions {
  costs: Costs;
  timeLimitS?: number | undefined;
  /** Lets stock and limits be passed, and minimises by how much. */
  elastic?: boolean;
  /** Whether there is an answer is all that is asked. */
  anyAnswer?: boolean;
  /** With more columns of flows than this, the pieces have a program of their own, which is told cuts. */
  flowsMost?: number | undefined;
  /** What is known beforehand. */
  first?: FirstAnswer | undefined;
  onProgress?: ((progress: { best: number | null; bound: number | null }) => void) | undefined;
}

/** What the solver found, in the program's own costs. */
export interface LeastContents {
  status: 'optimal' | 'stopped' | 'infeasible';
  /** Null where none was found. */
  contents: Content[] | null;
  bound: number;
  seconds: number;
}

/** What is known of an outing before any program is solved. */
export interface FirstAnswer {
  cover: Covering;
  /** Whether the pieces have a program of their own, which is told cuts. */
  byCuts: boolean;
  /** A good bag, by the numbers of its pieces; its bags are left to whoever packs it. */
  have: Int32Array | null;
  /** The same packed, where that serves everybody. */
  known: Known | null;
  /** No bag costs less. */
  bound: number;
}
