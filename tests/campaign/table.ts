/** What came of a campaign, as lines and as JSON. */
import type { Failure, LossKind, Part, Tally } from './part.ts';

export interface Line {
  of: string;
  fault: string;
  trials: number;
  survived: number;
  /** Trials after which something was lost, half there, or damaged without a word. */
  lost: number;
  partial: number;
  undetected: number;
  seconds: number;
  /** Why it was not tried here. */
  notHere: string | null;
  failures: Failure[];
}

export interface Report {
  headline: string;
  seed: number;
  versions: Record<string, string>;
  lines: Line[];
}

export function lineOf({ of, fault }: Part, { trials, failures, seconds }: Tally): Line {
  const count = (kind: LossKind): number => failures.filter((one) => one.kind === kind).length;
  const counts = { lost: count('lost'), partial: count('partial'), undetected: count('undetected') };
  return { of, fault, trials, survived: trials - failures.length, ...counts, seconds, notHere: null, failures };
}

export function notTried({ of, fault }: Pick<Part, 'of' | 'fault'>, notHere: string): Line {
  const counts = { trials: 0, survived: 0, lost: 0, partial: 0, undetected: 0 };
  return { of, fault, ...counts, seconds: 0, notHere, failures: [] };
}

export function headlineOf(lines: readonly Line[]): string {
  const sum = (of: (line: Line) => number): number => lines.reduce((total, line) => total + of(line), 0);
  const trials = sum((line) => line.trials);
  const survived = sum((line) => line.survived);
  const share =
    trials === 0 ? '' : ` (${survived === trials ? '100' : String(Math.floor((1000 * survived) / trials) / 10)} %)`;
  return (
    `${grouped(trials)} faults tried, ${grouped(survived)} survived${share}; ` +
    `${sum((line) => line.lost)} with records lost that were called saved, ${sum((line) => line.partial)} with a change half there, ` +
    `${sum((line) => line.undetected)} with damage nobody was told of.`
  );
}

const grouped = (count: number): string => String(count).replaceAll(/\B(?=(?:\d{3})+$)/g, ' ');

const heads = ['', 'fault', 'trials', 'survived', 'lost', 'partial', 'undetected', 's'];

/** A table of Markdown, which a terminal shows as well. */
export function tableOf(lines: readonly Line[]): string {
  const rows = lines.map((line) => {
    if (line.notHere !== null)
      return [line.of, `${line.fault}: not run here, ${line.notHere}`, ...Array<string>(6).fill('')];
    const counts = [line.trials, line.survived, line.lost, line.partial, line.undetected, Math.ceil(line.seconds)];
    return [line.of, line.fault, ...counts.map(grouped)];
  });
  const ruled = [heads, heads.map((_, at) => (at < 2 ? '---' : '---:')), ...rows];
  return ruled.map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}
