import type { AsRunLine, LineState } from '../../../shared-types/inspection.ts';
import type { DrawnPosition } from './patternLayout.ts';
import { recordStateWords } from './recordStateWords.ts';

/** The positions of a pattern that are in one state, in its words. */
export interface PatternState {
  /** Null where nothing is recorded. */
  state: LineState | null;
  words: string;
  positions: string[];
}

/** What one position is decided to be, in words. */
export const positionState = (line: AsRunLine | null): string => (line === null ? 'No record' : recordStateWords(line));

const rank = { nonconforming: 0, unreadable: 1, indeterminate: 2, none: 3, conforming: 4 } as const;

/** Every position under the words of its state, the worst first. */
export function patternStates(positions: readonly Pick<DrawnPosition, 'position' | 'line'>[]): PatternState[] {
  const states = new Map<string, PatternState>();
  for (const { position, line } of positions) {
    const words = positionState(line);
    const known = states.get(words);
    if (known === undefined) states.set(words, { state: line?.state ?? null, words, positions: [position] });
    else known.positions.push(position);
  }
  return [...states.values()].toSorted((a, b) => rank[a.state ?? 'none'] - rank[b.state ?? 'none']);
}

/** "1–4, 7, 9": whole numbers that follow on each other are drawn together. */
export function positionsText(positions: readonly string[]): string {
  const runs: string[][] = [];
  for (const position of positions) {
    const run = runs.at(-1);
    if (run !== undefined && follows(run.at(-1) ?? '', position)) run.push(position);
    else runs.push([position]);
  }
  return runs.map((run) => (run.length > 2 ? `${run[0]}–${run.at(-1)}` : run.join(', '))).join(', ');
}

function follows(one: string, other: string): boolean {
  return /^\d{1,9}$/.test(one) && /^\d{1,9}$/.test(other) && Number(other) === Number(one) + 1;
}

/** All of it in one line, for a file that has no list beside it. */
export function statesText(states: readonly PatternState[]): string {
  return states.map(({ words, positions }) => `${words} (${positions.length}): ${positionsText(positions)}`).join('. ');
}
