import { changeOf, type Mutation } from './mutations.ts';

/** A mutant that no test can tell from the engine as it is, with the reason. */
export interface Survivor {
  file: string;
  /** The line it stands in, without the blanks around it. */
  line: string;
  /** What stands there, and what would instead: `a < b → a <= b`. */
  change: string;
  reason: string;
}

export const survivors: readonly Survivor[] = [];

/** Why a mutant may survive; undefined where nobody has said. */
export function reasonFor(mutation: Mutation): string | undefined {
  const change = changeOf(mutation);
  return survivors.find(
    ({ file, line, change: known }) => file === mutation.file && line === mutation.lineText && known === change,
  )?.reason;
}
