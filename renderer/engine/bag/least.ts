import type { Content } from './contents.ts';
import type { FirstAnswer } from './firstAnswer.ts';
import type { Costs } from './model/costs.ts';

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
