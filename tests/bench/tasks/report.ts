/** How the benchmark says its figures. */
import { roundNominal } from '../../../renderer/engine/units/index.ts';

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
