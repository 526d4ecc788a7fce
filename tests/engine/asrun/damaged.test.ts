/** Tables that were right once, damaged by a seed: each is judged or refused, and what is judged keeps the contract's own sums. */
import { expect, it } from 'vitest';
import { judgeAsRun } from '../../../renderer/engine/asrun/index.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { dice } from '../../reference/dice.ts';
import { damagedText } from '../damagedInputs.ts';
import { calloutOf, csvOf, recordOf } from './judged.ts';
import { shareOf } from '../../support/shareOf.ts';

const callouts = csvOf([
  calloutOf({ sequence: '1 3 2 4', passes: '20-25 N·m; 50-58 N·m' }),
  calloutOf({
    id: 'L',
    thread: '1/4-28',
    torqueMin: '50 lbf·in',
    torqueMax: '70 lbf·in',
    locking: 'MIL-DTL-45916C',
    runningIncluded: '',
  }),
]);
const records = csvOf([
  ...[1, 2, 3, 4].flatMap((position) => [
    recordOf({
      position,
      pass: 1,
      final: '22 N·m',
      turns: 2,
      time: '2026-03-01 10:00',
      temperature: '20 °C',
      serial: 'S1',
    }),
    recordOf({
      position,
      pass: 2,
      final: '55 N·m',
      turns: 1,
      time: '2026-03-01 10:05',
      temperature: '70 °F',
      method: 'set',
    }),
  ]),
  ...[1, 2, 3, 4, 5].map((cycle) =>
    recordOf({
      callout: 'L',
      cycle,
      final: '70 lbf·in',
      running: `${12 - cycle} lbf·in`,
      breakaway: `${9 - cycle} lbf·in`,
    }),
  ),
]);
const tools = csvOf([{ serial: 'S1', calibrationDue: '2026-12-31', lastGood: '2026-01-01', foundOut: '2026-05-01' }]);

it('damaged tables, 3,000 in all, are judged or refused, every number finite', () => {
  let [judged, refused] = [0, 0];
  for (let seed = 0; seed < shareOf(3000); seed += 1) {
    const d = dice(seed);
    const damage = (text: string): string => (d.chance(0.5) ? damagedText(text, d) : text);
    const files = { asRun: damage(records), callouts: damage(callouts), tools: damage(tools) };
    try {
      const result = judgeAsRun({
        asRun: { content: files.asRun },
        callouts: { content: files.callouts },
        tools: { content: files.tools },
        skipBad: d.chance(0.5),
      });
      judged += 1;
      const { conforming, nonconforming, indeterminate } = result.summary;
      expect([seed, conforming + nonconforming + indeterminate]).toEqual([seed, result.rows.length]);
      for (const { decision, findings } of result.rows) {
        const severities = new Set(findings.map(({ severity }) => severity));
        const wanted = severities.has('reject')
          ? 'nonconforming'
          : severities.has('query')
            ? 'indeterminate'
            : 'conforming';
        expect([seed, decision]).toEqual([seed, wanted]);
      }
      JSON.stringify(result, (key, value: unknown) => {
        if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`seed ${seed}: "${key}" is ${value}`);
        return value;
      });
    } catch (error) {
      if (!(error instanceof RefusedError)) throw new Error(`seed ${seed}: ${String(error)}`, { cause: error });
      refused += 1;
    }
  }
  expect(judged).toBeGreaterThan(shareOf(500));
  expect(refused).toBeGreaterThan(shareOf(500));
});

it('any numbers a person could write make finite answers', () => {
  const extremes = ['0', '1e-300', '1e-12', '1e6', '9999999'];
  for (let seed = 0; seed < 300; seed += 1) {
    const d = dice(seed);
    const rows = Array.from({ length: 8 }, (_, index) =>
      recordOf({
        callout: 'L',
        cycle: d.chance(0.2) ? 900_000 + index : index + 1,
        final: `${d.pick(extremes)} N·m`,
        running: `${d.pick(extremes)} N·m`,
        breakaway: `${d.pick(extremes)} N·m`,
        turns: d.pick(['0', '1e-9', '1000000']),
      }),
    );
    const result = judgeAsRun({ asRun: { content: csvOf(rows) }, callouts: { content: callouts }, skipBad: false });
    JSON.stringify(result, (key, value: unknown) => {
      if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`seed ${seed}: "${key}" is ${value}`);
      return value;
    });
    expect(result.rows).toHaveLength(8);
  }
});
