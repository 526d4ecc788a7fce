import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { runningTorqueRules, wrenchTorqueByDocument } from '../../../renderer/engine/locking/index.ts';

const answers = (min: number, max: number, runningNm: number) =>
  wrenchTorqueByDocument({ tighteningNm: { min, max }, runningNm });
const army = (min: number, max: number, runningNm: number) => answers(min, max, runningNm)[2];

describe('the torque on the wrench by three documents', () => {
  it('stands side by side, each with its own source', () => {
    const found = answers(12, 12, 3);
    expect(found.map(({ document, running }) => [document, running])).toEqual([
      ['FAA AC 43.13-1B', 'added'],
      ['NASA TM-106943', 'added'],
      ['TB 43-0218', 'ignored'],
    ]);
    expect(found.map(({ source }) => source.key)).toEqual([
      'drag-torque-rule-faa',
      'running-torque-rules',
      'run-down-rule-army',
    ]);
    expect(found.map(({ wrenchNm }) => wrenchNm)).toEqual([
      { min: 15, max: 15 },
      { min: 15, max: 15 },
      { min: 12, max: 12 },
    ]);
    expect(found.map(({ fromShare }) => fromShare)).toEqual([null, null, 1 / 3]);
  });

  // Own evaluations of the bulletin's rule, no publications: they guard against change.
  it.each([
    [39.9, 'ignored', 120],
    [40, 'added', 160],
    [40.1, 'added', 160.1],
    [0, 'ignored', 120],
  ])('by the bulletin, %s running on 120 is %s', (runningNm, running, wrench) => {
    expect(army(120, 120, runningNm)).toMatchObject({ running, wrenchNm: { min: wrench, max: wrench } });
  });

  it('is undecided where a third of the band’s torques lies on both sides of the running torque', () => {
    expect(army(60, 90, 19.9)?.running).toBe('ignored');
    expect(army(60, 90, 20)).toMatchObject({
      running: 'undecided',
      wrenchNm: null,
      addedNm: { min: 80, max: 110 },
      notAddedNm: { min: 60, max: 90 },
    });
    expect(army(60, 90, 29.9)?.running).toBe('undecided');
    expect(army(60, 90, 30)?.running).toBe('added');
  });

  it('is never less by a document that always adds', () => {
    const torque = fc.double({ min: 0.01, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(torque, torque, fc.double({ min: 0, max: 1e4, noNaN: true }), (a, b, runningNm) => {
        const [faa, nasa, bulletin] = answers(Math.min(a, b), Math.max(a, b), runningNm);
        expect(faa?.wrenchNm).toEqual(nasa?.wrenchNm);
        if (bulletin?.wrenchNm && faa?.wrenchNm) {
          expect(bulletin.wrenchNm.min).toBeLessThanOrEqual(faa.wrenchNm.min);
          expect(bulletin.wrenchNm.max).toBeLessThanOrEqual(faa.wrenchNm.max);
        } else expect(bulletin?.running).toBe('undecided');
      }),
    );
  });

  it.each([
    [0, 10, 1, 'out-of-range', /least tightening torque must be above 0/],
    [-5, 10, 1, 'out-of-range', /least tightening torque/],
    [5, Number.POSITIVE_INFINITY, 1, 'out-of-range', /greatest tightening torque/],
    [5, Number.NaN, 1, 'out-of-range', /greatest tightening torque/],
    [5, 10, -0.1, 'out-of-range', /running torque must be at least 0/],
    [5, 10, Number.NaN, 'out-of-range', /running torque/],
    [10, 5, 1, 'contradiction', /10 N·m is above the greatest, 5/],
  ])('%s to %s with %s is refused', (min, max, runningNm, code, words) => {
    expect(() => answers(min, max, runningNm)).toThrow(RefusedError);
    try {
      answers(min, max, runningNm);
    } catch (error) {
      expect((error as RefusedError).refusal).toMatchObject({ code, message: expect.stringMatching(words) as string });
    }
  });
});

describe('the rules on running torque', () => {
  it('are every row held, each with the document that says so', () => {
    expect(runningTorqueRules().map(({ document, source }) => [document, source.key])).toEqual([
      ['NASA TM-106943; FAA AC 43.13-1B 7-40 (self-locking nut, insert or plate nut)', 'running-torque-rules'],
      ['NASA TM-106943', 'running-torque-rules'],
      ['MIL-DTL-45916C', 'running-torque-rules'],
      ['FAA AC 43.13-1B; open laboratory procedure', 'drag-torque-rule-faa'],
      ['TB 43-0218; TM 5-2330-325-13&P', 'run-down-rule-army'],
      ['TM 55-1560-307-13&P appendix F', 'run-down-rule-army'],
      ['TM 1-1500-204-23-6 2-83', 'run-down-rule-army'],
    ]);
  });

  it('differ: one adds always, one from a third', () => {
    const rules = runningTorqueRules().map(({ rule }) => rule);
    expect(rules).toContain('installation torque = table torque + measured locking (running) torque');
    expect(rules.some((rule) => rule.includes('1/3 of the recommended torque or more, otherwise ignore it'))).toBe(
      true,
    );
  });
});
