/** The usual steps against lists written by hand; what was not typed is in none of them. */
import { describe, expect, it } from 'vitest';
import { stepRecord } from '../../../shared-types/records/task.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { faultsOf } from '../../../renderer/engine/records/faultsOf.ts';
import {
  failureSteps,
  failures,
  sharesOfText,
  shareOfTorque,
  usualSteps,
} from '../../../renderer/engine/usualSteps/index.ts';
import type { Touched, UsualFigures } from '../../../renderer/engine/usualSteps/index.ts';

const flange: Touched = { key: 'k', called: 'Drive flange (A)', interface: 'if-a', fastener: 'F1', count: 12 };
const both = ['off', 'on'] as const;
const asked = (figures: UsualFigures, touched: readonly Touched[] = [flange], order: 'thing' | 'part' = 'thing') =>
  usualSteps({ ways: both, touched, order, outing: 'O1', role: 'Lead', figures });
const callout = { min: '40 lbf·ft', max: '45 lbf·ft' };

describe('the usual steps for fasteners', () => {
  it('are those of the trade, in their order', () => {
    const found = asked({
      ...{ demand: '60 lbf·ft', callout, calloutSource: 'Drawing 7', shares: [50, 75, 100], snugShare: 20 },
      ...{ running: { min: '2 lbf·ft', max: '8 lbf·ft' }, runningIncluded: false },
      ...{ check: { min: '38 lbf·ft', max: '47 lbf·ft' }, lubricant: 'LUB', marker: 'PEN', takenTo: 'bag' },
    });
    expect(found.map(({ step }) => [step.action, step.name])).toEqual([
      ['loosen', 'Loosen Drive flange (A), all 12'],
      ['use', 'Take out Drive flange (A), all 12'],
      ['use', 'Clean and look over threads and seats of Drive flange (A), all 12'],
      ['use', 'Lubricate Drive flange (A), all 12 as the callout says'],
      ['use', 'Start Drive flange (A), all 12 by hand, two turns each'],
      ['tighten', 'Measure the running torque of Drive flange (A), all 12'],
      ['tighten', 'Snug Drive flange (A), all 12'],
      ['tighten', 'Torque Drive flange (A), all 12 · pass 1 of 3, 50 %'],
      ['tighten', 'Torque Drive flange (A), all 12 · pass 2 of 3, 75 %'],
      ['tighten', 'Torque Drive flange (A), all 12, final'],
      ['tighten', 'Check Drive flange (A), all 12 at the verification torque'],
      ['use', 'Mark Drive flange (A), all 12 with a witness stripe'],
    ]);
    expect(found.every(({ isUsual }) => isUsual)).toBe(true);
    const bands = found.map(({ step }) => step.callout && `${step.callout.min} to ${step.callout.max}`);
    expect(bands.filter(Boolean)).toEqual([
      '2 lbf·ft to 8 lbf·ft',
      '8 lbf·ft to 9 lbf·ft',
      '20 lbf·ft to 22.5 lbf·ft',
      '30 lbf·ft to 33.75 lbf·ft',
      '40 lbf·ft to 45 lbf·ft',
      '38 lbf·ft to 47 lbf·ft',
    ]);
    const [loosen, out, , lubricate, start, , snug, first, , final, check, stripe] = found.map(({ step }) => step);
    expect(loosen).toMatchObject({ demand: '60 lbf·ft', interface: 'if-a' });
    expect(loosen).not.toHaveProperty('fastener');
    expect(out?.fastenerMoves).toEqual([{ id: 'F1', quantity: 12, from: 'site', to: 'bag' }]);
    expect(start?.fastenerMoves).toEqual([{ id: 'F1', quantity: 12, from: 'bag', to: 'site' }]);
    expect(lubricate?.gear).toEqual([{ id: 'LUB', quantity: 1 }]);
    expect(stripe?.gear).toEqual([{ id: 'PEN', quantity: 1 }]);
    // The running torque is the thread's own, and is added to each pass whole.
    for (const one of [snug, first, final]) {
      expect(one?.running).toEqual({ min: '2 lbf·ft', max: '8 lbf·ft' });
      expect(one?.runningIncluded).toBe(false);
    }
    expect(first?.calloutSource).toBe('50 % of Drawing 7');
    expect(final?.calloutSource).toBe('Drawing 7');
    expect(check).not.toHaveProperty('running');
  });

  it('have no figure that nobody typed, and say what they take for granted', () => {
    const found = asked({});
    expect(JSON.stringify(found)).not.toMatch(/lbf|N·m|minutes|"gear"|fastenerMoves/);
    expect(found.some(({ part }) => part === 'pass')).toBe(false);
    for (const { step } of found) expect(step.notes).toMatch(/^Common practice, no source: \S/);
    expect(found.filter(({ isUsual }) => !isUsual).map(({ part }) => part)).toEqual([
      ...['lubricate', 'running', 'snug', 'check'],
    ]);
  });

  it('never take out what is captive, nor start it by hand', () => {
    const found = asked({ takenTo: 'bag' }, [{ ...flange, isCaptive: true }]);
    const held = found.filter(({ part }) => part === 'take-out' || part === 'start');
    expect(held.map(({ isUsual }) => isUsual)).toEqual([false, false]);
    for (const { step, assumes } of held) {
      expect(step).not.toHaveProperty('fastenerMoves');
      expect(assumes).toMatch(/captive/);
    }
  });

  it('go from thing to thing, or from part to part over all of them', () => {
    const two = [flange, { ...flange, key: 'l', called: 'Lid (B)', count: 1 }];
    const short = (order: 'thing' | 'part') =>
      asked({ callout, shares: [50, 75] }, two, order)
        .filter(({ isUsual }) => isUsual)
        .map(({ key }) => key.replace('-', ' '));
    const each = (of: string) =>
      ['loosen', 'take-out', 'clean', 'start', 'pass-1', 'pass-2', 'final', 'stripe'].map((part) => `${of} ${part}`);
    expect(short('thing')).toEqual([...each('k'), ...each('l')]);
    expect(short('part')).toEqual(each('k').flatMap((one) => [one, one.replace('k ', 'l ')]));
  });

  it('for what has no fastener are opened, looked over, closed and tried', () => {
    const found = asked({ callout }, [{ key: 'c', called: 'Coupling (C1)', interface: 'if-c', count: 1 }]);
    expect(found.map(({ step }) => step.name)).toEqual([
      'Open Coupling (C1)',
      'Clean and look over Coupling (C1)',
      'Close Coupling (C1)',
      'See that Coupling (C1) is closed and holds',
    ]);
    expect(found.every(({ step }) => step.action === 'use')).toBe(true);
  });

  it('follow the interface’s own order where they tighten, and say where it cannot be followed', () => {
    const figures = {
      ...{ callout, shares: [50], snugShare: 20, check: callout, running: callout },
      demand: '60 lbf·ft',
    };
    const said = (more: Partial<Touched>) =>
      asked(figures, [{ ...flange, count: 4, ...more }]).flatMap(({ part, step: { notes = '' } }) =>
        /order of tightening|own order/.test(notes)
          ? [`${part}: ${notes.replace(/^.*(?=(The interface’s order|In the interface))/, '')}`]
          : [],
      );
    const own = 'In the interface’s own order: 1, 3, 2, 4.';
    const parts = ['running', 'snug', 'pass', 'final', 'check'];
    expect(said({ order: ['1', '3', '2', '4'] })).toEqual(parts.map((part) => `${part}: ${own}`));
    expect(said({})).toEqual([]);
    const fault = 'The interface’s order of tightening lacks position 4: mend it in Sites before this step is done.';
    expect(said({ order: ['1', '3', '2'], orderFault: 'lacks position 4' })).toEqual(
      parts.map((part) => `${part}: ${fault}`),
    );
    const many = said({ order: Array.from({ length: 500 }, (_, at) => String(at + 1)) });
    expect(many.at(-1)).toMatch(/59, 60 and 440 more, as the interface lists them\.$/);
  });

  it('take what works a coupling along where it is opened and closed', () => {
    const gear = [{ id: 'PIN', quantity: 2 }];
    const found = asked({}, [{ key: 'c', called: 'Latch (L1)', interface: 'if-l', count: 1, gear }]);
    expect(found.map(({ part, step }) => [part, step.gear ?? null])).toEqual([
      ['open', gear],
      ['look-over', null],
      ['close', gear],
      ['closed', null],
    ]);
  });

  it('can be kept as they are', () => {
    const steps = [...asked({ callout, shares: [50], demand: '60 lbf·ft', takenTo: 'bag', lubricant: 'L' })];
    const [first] = steps;
    if (first === undefined) throw new Error('no step');
    const head = { id: 'i', rev: 0, task: 't', position: 1, code: 's1' };
    for (const { step } of steps) {
      expect(stepRecord.safeParse({ ...step, ...head }).success).toBe(true);
      expect(faultsOf('steps', { ...step, ...head })).toEqual([]);
    }
    for (const { step } of failureSteps({ ...first.step, ...head }, 'A', failures))
      expect(faultsOf('steps', { ...step, ...head, code: 's2' })).toEqual([]);
  });
});

describe('what is done if a step fails', () => {
  const step: TaskStep = {
    ...{ id: 'key', rev: 1, task: 't', position: 1, code: 'S-4', outing: 'O2', role: 'Second', action: 'loosen' },
    ...{ fastener: 'F1', count: 6, access: { depth: '2 in' }, demand: '60 lbf·ft' },
  };

  it('is listed by hand for each that can go wrong', () => {
    const found = failureSteps(step, 'B1', failures);
    expect(found.map(({ how, step: { action, name } }) => [how, action, name])).toEqual([
      ['stuck', 'use', 'Put penetrant on B1'],
      ['stuck', 'use', 'Wait for the penetrant on B1'],
      ['stuck', 'loosen', 'Loosen B1 with a breaker bar'],
      ['stuck', 'use', 'Take B1 out with an extractor'],
      ['cross-threaded', 'loosen', 'Back B1 off'],
      ['cross-threaded', 'use', 'Chase the thread of B1'],
      ['sheared', 'use', 'Take the rest of B1 out'],
      ['sheared', 'use', 'Put a new one in for B1'],
      ['lost', 'use', 'Take a substitute for B1'],
    ]);
    for (const { how, step: one } of found)
      expect(one).toMatchObject({
        ...{ outing: 'O2', role: 'Second', contingency: true, ifFails: { step: 'S-4', how } },
      });
    // One of them is stuck, not all; how strong a bar must be is typed, as the torque that six loosen at is another one.
    expect(found[2]?.step).toMatchObject({ fastener: 'F1', count: 1, access: { depth: '2 in' } });
    expect(JSON.stringify(found.map((one) => one.step))).not.toMatch(/lbf|minutes|"gear"/);
  });

  it('is only what was asked for', () => {
    expect(failureSteps(step, 'B1', ['lost']).map(({ how }) => how)).toEqual(['lost']);
    expect(failureSteps(step, 'B1', [])).toEqual([]);
  });
});

describe('shares', () => {
  it.each<[string, number[]]>([
    ['50 %, 75 %, 100 %', [50, 75, 100]],
    ['33.3;66', [33.3, 66]],
    ['', []],
  ])('"%s"', (text, shares) => expect(sharesOfText(text)).toEqual({ shares }));

  it.each<[string, RegExp]>([
    ['75, 50', /"50" is not more than the 75 % before it/],
    ['50, 120 %', /"120%?" is not over 0 %/],
    ['0', /not over 0/],
    ['half', /"half" is no share/],
  ])('"%s" is refused', (text, why) => {
    const read = sharesOfText(text);
    expect('why' in read ? read.why : '').toMatch(why);
  });

  it('stay in the unit typed, unrounded', () => {
    expect(shareOfTorque('47 N·m', 33)).toBe('15.51 N·m');
    expect(shareOfTorque('45 ft-lb', 50)).toBe('22.5 lbf·ft');
    expect(() => shareOfTorque('45', 50)).toThrow(/unit/);
  });
});
