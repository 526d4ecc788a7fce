/** Each rule of the contract on seeded records: found in all that break it, in none that just do not. */
import { describe, expect, it } from 'vitest';
import { lockingLimits } from '../../../renderer/engine/locking/index.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import type { Severity } from '../../../shared-types/judged.ts';
import { between, calloutOf, judgedOf, recordOf, rulesOf, type Cells } from './judged.ts';

interface Case {
  callout: Cells;
  records: Cells[];
}

type Make = (x: { between: (least: number, most: number) => number; step: number }) => Case;

interface Rule {
  rule: string;
  severity: Severity;
  /** Row the finding stands on. */
  on: number;
  breaks: Make;
  keeps: Make;
}

const nm = (value: number): string => `${value} N·m`;
const locked = lockingLimits({ thread: readThread('1/4-28'), document: 'MIL-DTL-45916C' });
const [runningMaxNm, breakawayMinNm] = [locked.runningMaxNm ?? Number.NaN, locked.breakawayMinNm ?? Number.NaN];
const military = { thread: '1/4-28', torqueMin: '50 lbf·in', torqueMax: '70 lbf·in', locking: 'MIL-DTL-45916C' };

/** One record, its callout from 40 to 60 N·m wide. */
const onFinal =
  (edge: 'min' | 'max', off: (step: number) => number): Make =>
  ({ between: pick, step }) => {
    const min = pick(5, 200);
    const max = min + pick(1, 40);
    const final = edge === 'max' ? max * (1 + off(step)) : min * (1 - off(step));
    return {
      callout: calloutOf({ torqueMin: nm(min), torqueMax: nm(max) }),
      records: [recordOf({ final: nm(final) })],
    };
  };

const onSeating =
  (edge: 'min' | 'max', off: (step: number) => number): Make =>
  ({ between: pick, step }) => {
    const min = pick(5, 200);
    const max = min + pick(1, 40);
    const running = pick(0.1, 4);
    const seating = edge === 'max' ? max * (1 + off(step)) : min * (1 - off(step));
    return {
      callout: calloutOf({ torqueMin: nm(min), torqueMax: nm(max), runningIncluded: 'no' }),
      records: [recordOf({ running: nm(running), final: nm(seating + running) })],
    };
  };

/** From a millionth to a tenth beyond the edge; on the edge, or as far inside as a double tells apart. */
const beyond = (step: number): number => 10 ** (-6 + step / 2);
const within = (step: number): number => (step === 0 ? 0 : -(10 ** (-13 + step)) / 100);

const one = (column: string, valueNm: (step: number) => number, callout: Cells): Make => {
  return ({ step }) => ({
    callout: calloutOf(callout),
    records: [recordOf({ final: '60 lbf·in', [column]: nm(valueNm(step)) })],
  });
};

const turned = (turns: readonly number[]): Case => ({
  callout: calloutOf(),
  records: turns.map((turn, index) => recordOf({ position: index + 1, turns: turn })),
});

/** Three cycles that fall by `fall` from `first`, and scatter that leaves the line's value at cycle 4 as it is. */
const wearing = (at4: number, pick: (least: number, most: number) => number): Case => {
  const fall = pick(0.1, 0.6);
  const bump = pick(-0.05, 0.05);
  // Residuals of d, −2d and d are orthogonal to every straight line: the fitted one stays where it is.
  const readings = [at4 + 3 * fall + bump, at4 + 2 * fall - 2 * bump, at4 + fall + bump];
  return {
    callout: calloutOf({ breakawayMin: '1 N·m' }),
    records: readings.map((reading, index) => recordOf({ cycle: index + 1, breakaway: nm(reading) })),
  };
};

const rules: Rule[] = [
  {
    rule: 'final-outside-callout',
    severity: 'reject',
    on: 0,
    breaks: onFinal('max', beyond),
    keeps: onFinal('max', within),
  },
  {
    rule: 'final-outside-callout',
    severity: 'reject',
    on: 0,
    breaks: onFinal('min', beyond),
    keeps: onFinal('min', within),
  },
  {
    rule: 'seating-outside-callout',
    severity: 'reject',
    on: 0,
    breaks: onSeating('max', beyond),
    keeps: onSeating('max', within),
  },
  {
    rule: 'seating-outside-callout',
    severity: 'reject',
    on: 0,
    breaks: onSeating('min', beyond),
    keeps: onSeating('min', within),
  },
  {
    rule: 'running-over-limit',
    severity: 'reject',
    on: 0,
    breaks: one('running', (step) => runningMaxNm * (1 + beyond(step)), military),
    keeps: one('running', (step) => runningMaxNm * (1 + within(step)), military),
  },
  {
    rule: 'running-over-limit',
    severity: 'reject',
    on: 0,
    breaks: one('running', (step) => 0.9 * runningMaxNm * (1 + beyond(step)), {
      ...military,
      runningMax: nm(0.9 * runningMaxNm),
    }),
    keeps: one('running', (step) => 0.9 * runningMaxNm * (1 + within(step)), {
      ...military,
      runningMax: nm(0.9 * runningMaxNm),
    }),
  },
  {
    rule: 'breakaway-under-limit',
    severity: 'reject',
    on: 0,
    breaks: one('breakaway', (step) => breakawayMinNm * (1 - beyond(step)), military),
    keeps: one('breakaway', (step) => breakawayMinNm * (1 - within(step)), military),
  },
  {
    rule: 'breakaway-under-limit',
    severity: 'reject',
    on: 0,
    breaks: one('breakaway', (step) => 1.1 * breakawayMinNm * (1 - beyond(step)), {
      ...military,
      breakawayMin: nm(1.1 * breakawayMinNm),
    }),
    keeps: one('breakaway', (step) => 1.1 * breakawayMinNm * (1 - within(step)), {
      ...military,
      breakawayMin: nm(1.1 * breakawayMinNm),
    }),
  },
  {
    // All alike but one: the quarter turn decides.
    rule: 'turns-off-pattern',
    severity: 'query',
    on: 3,
    breaks: ({ step }) => turned([3, 3, 3, 3 + (step % 2 === 0 ? 1 : -1) * 0.25 * (1 + beyond(step))]),
    keeps: ({ step }) => turned([3, 3, 3, 3 + (step % 2 === 0 ? 1 : -1) * 0.25 * (1 + within(step))]),
  },
  {
    // Half a turn apart: median 3.5 and MAD 0.5, so that 3·1.4826·0.5 = 2.2239 turns decide.
    rule: 'turns-off-pattern',
    severity: 'query',
    on: 4,
    breaks: ({ step }) => turned([2, 3, 3.5, 4, 3.5 + 2.2239 * (1 + beyond(step))]),
    keeps: ({ step }) => turned([2, 3, 3.5, 4, 3.5 + 2.2239 * (1 + within(step))]),
  },
  {
    rule: 'locking-wears-out',
    severity: 'query',
    on: 2,
    breaks: ({ between: pick, step }) => wearing(1 - beyond(step), pick),
    keeps: ({ between: pick, step }) => wearing(1 - within(step), pick),
  },
  {
    rule: 'set-not-read',
    severity: 'query',
    on: 0,
    breaks: ({ between: pick }) => ({
      callout: calloutOf(),
      records: [recordOf({ method: 'set', final: nm(pick(50, 58)) })],
    }),
    keeps: ({ between: pick, step }) => ({
      callout: calloutOf(),
      records: [recordOf({ ...(step % 2 === 0 ? { method: 'read' } : {}), final: nm(pick(50, 58)) })],
    }),
  },
  {
    rule: 'running-missing',
    severity: 'query',
    on: 0,
    breaks: ({ between: pick, step }) => ({
      callout: calloutOf({ runningIncluded: step % 2 === 0 ? 'no' : '' }),
      records: [recordOf({ final: nm(pick(50, 58)) })],
    }),
    keeps: ({ between: pick, step }) => ({
      callout: calloutOf({ runningIncluded: ['no', '', 'yes'][step % 3] ?? '' }),
      records: [recordOf({ running: step % 3 === 2 ? '' : '1 N·m', final: nm(pick(51, 58)) })],
    }),
  },
  {
    rule: 'site-temperature',
    severity: 'query',
    on: 0,
    breaks: ({ step }) => ({
      callout: calloutOf(),
      records: [recordOf({ temperature: `${step % 2 === 0 ? 28 + beyond(step) : 18 - beyond(step)} °C` })],
    }),
    keeps: ({ step }) => ({
      callout: calloutOf(),
      records: [recordOf({ temperature: ['28 °C', '18 °C', '64.4 °F', '82.4 °F', '295 K'][step % 5] ?? '' })],
    }),
  },
];

const steps = Array.from({ length: 10 }, (_, step) => step);

describe.each(rules.map((rule, index) => ({ ...rule, name: `${rule.rule} (${index + 1})`, seed: 1000 * (index + 1) })))(
  '$name',
  ({ rule, severity, on, breaks, keeps, seed }) => {
    it.each(steps)('is found where it is broken, seed %i', (step) => {
      const { callout, records } = breaks({ between: between(seed + step), step });
      const result = judgedOf([callout], records);
      expect(rulesOf(result)).toEqual(records.map((_, row) => (row === on ? [[rule, severity]] : [])));
      expect(result.rows[on]?.decision).toBe(severity === 'reject' ? 'nonconforming' : 'indeterminate');
      const finding = result.rows[on]?.findings[0];
      expect(finding?.message).toMatch(/\d|running torque/);
      expect(finding?.source).toBeTruthy();
    });

    it.each(steps)('is not found where it is just kept, seed %i', (step) => {
      const { callout, records } = keeps({ between: between(seed + 500 + step), step });
      const result = judgedOf([callout], records);
      expect(rulesOf(result)).toEqual(records.map(() => []));
      expect(result.summary).toEqual({ conforming: records.length, nonconforming: 0, indeterminate: 0 });
    });
  },
);
