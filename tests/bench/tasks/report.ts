/** How the benchmark says its figures. */
import { roundNominal } from '../../../renderer/engine/units/index.ts';
import type { Run } from './planner.ts';

export const say = (text: string): void => void process.stdout.write(`${text}\n`);

export const showS = (seconds: number | null): string =>
  seconds === null ? '-' : `${roundNominal(seconds, seconds < 1 ? 3 : 2)} s`;

export const showShare = (share: number): string => `${roundNominal(100 * share, 2)} %`;

export function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}

/** Median and worst. */
export const spread = (seconds: readonly number[]): string =>
  `median ${showS(medianOf(seconds))}, worst ${showS(Math.max(...seconds))}`;

export const showRatio = (ratio: number): string => `× ${roundNominal(ratio, ratio < 0.1 ? 4 : 2)}`;

const marksS = [0.25, 0.5, 1, 2, 5, 10, 20, 30, 60];

/** The median gap known at each mark: of a run that has ended its last, of one without an answer yet all of it. */
export function gapsOverTime(runs: readonly Run[]): string {
  const longestS = Math.max(...runs.map(({ totalS }) => totalS));
  const gapAt = ({ gaps, totalS, gap }: Run, markS: number): number => {
    if (totalS <= markS) return gap ?? 0;
    return gaps.findLast(({ seconds }) => seconds <= markS)?.gap ?? 1;
  };
  return marksS
    .filter((_, index) => index === 0 || (marksS[index - 1] ?? 0) < longestS)
    .map((markS) => `${markS} s ${showShare(medianOf(runs.map((run) => gapAt(run, markS))))}`)
    .join(', ');
}
