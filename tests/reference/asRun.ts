/** The contract's rules of as-run records, written again from its words alone: plain numbers in N·m, no code of the engine's. */

export interface PlainCallout {
  id: string;
  minNm: number;
  maxNm: number;
  /** As the column has it. */
  runningIncluded: 'yes' | 'no' | '';
  runningMaxNm: number | null;
  breakawayMinNm: number | null;
}

export interface PlainRecord {
  callout: PlainCallout;
  position: string;
  cycle: number;
  pass: string;
  finalNm: number;
  runningNm: number | null;
  breakawayNm: number | null;
  method: 'set' | 'read' | '';
  turns: number | null;
}

export type PlainFinding = `${string}:${'reject' | 'query'}`;

const slack = 1e-9;
const above = (value: number, limit: number): boolean =>
  value - limit > slack * Math.max(Math.abs(value), Math.abs(limit));
const below = (value: number, limit: number): boolean => above(limit, value);

/** What each record is to be found at fault with, by rule and severity, in any order. */
export function expectedFindings(records: readonly PlainRecord[]): Set<PlainFinding>[] {
  const found = records.map((record) => new Set([...torque(record), ...locking(record)]));
  records.forEach((record, index) => {
    if (isOffPattern(record, records)) found[index]?.add('turns-off-pattern:query');
    if (isLastWorn(record, records)) found[index]?.add('locking-wears-out:query');
  });
  return found;
}

function torque({ callout, finalNm, runningNm, method }: PlainRecord): PlainFinding[] {
  const isOut = (valueNm: number): boolean => below(valueNm, callout.minNm) || above(valueNm, callout.maxNm);
  const out: PlainFinding[] = [];
  const finalOut = isOut(finalNm);
  const seatingOut = runningNm === null ? null : isOut(finalNm - runningNm);
  if (callout.runningIncluded === 'yes' && finalOut) out.push('final-outside-callout:reject');
  if (callout.runningIncluded === 'no' && seatingOut === true) out.push('seating-outside-callout:reject');
  if (callout.runningIncluded === '' && seatingOut !== null) {
    const severity = finalOut && seatingOut ? 'reject' : 'query';
    if (finalOut) out.push(`final-outside-callout:${severity}`);
    if (seatingOut) out.push(`seating-outside-callout:${severity}`);
  }
  if (callout.runningIncluded !== 'yes' && seatingOut === null) {
    out.push('running-missing:query');
    if (callout.runningIncluded === '' && finalOut) out.push('final-outside-callout:query');
  }
  if (method !== 'set') return out;
  return [...out.filter((finding) => finding.endsWith(':reject')), 'set-not-read:query'];
}

function locking({ callout, runningNm, breakawayNm }: PlainRecord): PlainFinding[] {
  const out: PlainFinding[] = [];
  if (runningNm !== null && callout.runningMaxNm !== null && above(runningNm, callout.runningMaxNm))
    out.push('running-over-limit:reject');
  if (breakawayNm !== null && callout.breakawayMinNm !== null && below(breakawayNm, callout.breakawayMinNm))
    out.push('breakaway-under-limit:reject');
  return out;
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const [low, high] = [sorted[Math.ceil(sorted.length / 2) - 1] ?? 0, sorted[Math.floor(sorted.length / 2)] ?? 0];
  return low / 2 + high / 2;
}

function isOffPattern({ turns, callout, cycle, pass }: PlainRecord, records: readonly PlainRecord[]): boolean {
  if (turns === null) return false;
  const together = records.flatMap((other) =>
    other.callout === callout && other.cycle === cycle && other.pass === pass ? (other.turns ?? []) : [],
  );
  if (together.length < 4) return false;
  const middle = median(together);
  const spread = median(together.map((turn) => Math.abs(turn - middle)));
  return above(Math.abs(turns - middle), Math.max(0.25, 3 * 1.4826 * spread));
}

/** Whether the line through a position's breakaway torques is under the minimum at the next cycle, and this is its last reading. */
function isLastWorn(record: PlainRecord, records: readonly PlainRecord[]): boolean {
  const { callout, position, breakawayNm } = record;
  if (breakawayNm === null || callout.breakawayMinNm === null) return false;
  const series = records
    .filter((other) => other.callout === callout && other.position === position && other.breakawayNm !== null)
    .toSorted((a, b) => a.cycle - b.cycle);
  if (series.at(-1) !== record || new Set(series.map(({ cycle }) => cycle)).size < 3) return false;
  // Cramer's rule on the normal equations.
  const n = series.length;
  let [sx, sy, sxx, sxy] = [0, 0, 0, 0];
  for (const { cycle, breakawayNm: torqueNm } of series) {
    sx += cycle;
    sy += torqueNm ?? 0;
    sxx += cycle * cycle;
    sxy += cycle * (torqueNm ?? 0);
  }
  const slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
  const next = sy / n + slope * (record.cycle + 1 - sx / n);
  return below(next, callout.breakawayMinNm);
}
