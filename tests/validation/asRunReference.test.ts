/** As-run records of random files, judged by the program and by the contract's rules written again. */
import { expect, it } from 'vitest';
import { judgeAsRun } from '../../renderer/engine/asrun/index.ts';
import { csvOf, type Cells } from '../engine/asrun/judged.ts';
import { expectedFindings, type PlainCallout, type PlainRecord } from '../reference/asRun.ts';
import { dice, type Dice } from '../reference/dice.ts';

const lbfIn = 0.1129848290276167;

/** Some callouts have limits of their own, some those of MIL-DTL-45916C for 0.250-28: 30 and 3.5 lbf·in; some both. */
function randomCallout(d: Dice, id: string): { plain: PlainCallout; cells: Cells } {
  const [min, wide] = [d.whole(20, 60), d.whole(1, 20)];
  const own = { running: d.chance(0.5) ? d.whole(5, 45) : null, breakaway: d.chance(0.5) ? d.whole(1, 6) : null };
  const isLocking = d.chance(0.5);
  const runningIncluded = d.pick(['yes', 'no', '']) as PlainCallout['runningIncluded'];
  const stricter = (ours: number | null, document: number, of: (...all: number[]) => number): number | null =>
    isLocking ? of(ours ?? document, document) : ours;
  const [runningMax, breakawayMin] = [stricter(own.running, 30, Math.min), stricter(own.breakaway, 3.5, Math.max)];
  const inNm = (value: number | null): number | null => (value === null ? null : value * lbfIn);
  return {
    plain: {
      id,
      minNm: min * lbfIn,
      maxNm: (min + wide) * lbfIn,
      runningIncluded,
      runningMaxNm: inNm(runningMax),
      breakawayMinNm: inNm(breakawayMin),
    },
    cells: {
      id,
      thread: '1/4-28',
      torqueMin: `${min} lbf·in`,
      torqueMax: `${min + wide} lbf·in`,
      runningIncluded,
      locking: isLocking ? 'MIL-DTL-45916' : '',
      runningMax: own.running === null ? '' : `${own.running} lbf·in`,
      breakawayMin: own.breakaway === null ? '' : `${own.breakaway} lbf·in`,
    },
  };
}

/** Half a unit apart, so that many a torque lies on a limit. */
const halves = (d: Dice, least: number, most: number): number => d.whole(2 * least, 2 * most) / 2;

function randomRecord(
  d: Dice,
  callout: PlainCallout,
  at: { position: string; cycle: number; pass: string },
): { plain: PlainRecord; cells: Cells } {
  const final = halves(d, 15, 95);
  const running = d.chance(0.7) ? halves(d, 0, 40) : null;
  const breakaway = d.chance(0.8) ? halves(d, 0, 9) : null;
  const turns = d.chance(0.8) ? d.whole(8, 14) / 4 : null;
  const method = d.pick(['set', 'read', 'read', '']) as PlainRecord['method'];
  const text = (value: number | null): string => (value === null ? '' : `${value} in-lb`);
  return {
    plain: {
      callout,
      ...at,
      finalNm: final * lbfIn,
      runningNm: running === null ? null : running * lbfIn,
      breakawayNm: breakaway === null ? null : breakaway * lbfIn,
      method,
      turns,
    },
    cells: {
      callout: callout.id,
      ...at,
      final: text(final),
      running: text(running),
      breakaway: text(breakaway),
      method,
      turns: turns ?? '',
    },
  };
}

function randomFile(seed: number) {
  const d = dice(seed);
  const callouts = ['A', 'B', 'C'].map((id) => randomCallout(d, id));
  const places = callouts.flatMap(({ plain }) =>
    Array.from({ length: d.whole(1, 6) }, (_, p) =>
      Array.from({ length: d.whole(1, 5) }, (_unused, c) => ({
        callout: plain,
        at: { position: String(p + 1), cycle: c + 1, pass: d.chance(0.2) ? '2' : '' },
      })),
    ).flat(),
  );
  // Lines stand in any order.
  for (let last = places.length - 1; last > 0; last -= 1) {
    const other = d.whole(0, last);
    const [a, b] = [places[last], places[other]];
    if (a !== undefined && b !== undefined) [places[last], places[other]] = [b, a];
  }
  return { callouts, records: places.map(({ callout, at }) => randomRecord(d, callout, at)) };
}

it('250 random files are judged as the contract has it, row by row', () => {
  const times = new Map<string, number>();
  for (let seed = 1; seed <= 250; seed += 1) {
    const { callouts, records } = randomFile(seed);
    const { rows, summary } = judgeAsRun({
      asRun: { content: csvOf(records.map(({ cells }) => cells)) },
      callouts: { content: csvOf(callouts.map(({ cells }) => cells)) },
      skipBad: false,
    });
    const expected = expectedFindings(records.map(({ plain }) => plain));
    const told = rows.map(({ findings }) => findings.map(({ rule, severity }) => `${rule}:${severity}`).toSorted());
    expect([seed, told]).toEqual([seed, expected.map((found) => [...found].toSorted())]);
    const decisions = expected.map((found) => {
      if ([...found].some((finding) => finding.endsWith(':reject'))) return 'nonconforming';
      return found.size > 0 ? 'indeterminate' : 'conforming';
    });
    expect(rows.map(({ decision }) => decision)).toEqual(decisions);
    for (const decision of ['conforming', 'nonconforming', 'indeterminate'] as const)
      expect(summary[decision]).toBe(decisions.filter((one) => one === decision).length);
    for (const finding of told.flat()) times.set(finding, (times.get(finding) ?? 0) + 1);
  }
  // Every rule was met, and often.
  expect([...times.keys()].toSorted()).toEqual([
    'breakaway-under-limit:reject',
    'final-outside-callout:query',
    'final-outside-callout:reject',
    'locking-wears-out:query',
    'running-missing:query',
    'running-over-limit:reject',
    'seating-outside-callout:query',
    'seating-outside-callout:reject',
    'set-not-read:query',
    'turns-off-pattern:query',
  ]);
  expect(Math.min(...times.values())).toBeGreaterThan(30);
});
