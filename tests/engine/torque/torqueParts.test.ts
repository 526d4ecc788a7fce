/** A callout, its running torque and their sum: every part said, none folded into another. */
import { describe, expect, it } from 'vitest';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { torqueParts, torqueTexts } from '../../../renderer/engine/torque/torqueParts.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const callout = { min: '30 N·m', max: '35 N·m' };
const running = { min: '1 N·m', max: '3 N·m' };

type More = Record<string, unknown>;

/** The tightening step of a plan, with another torque. */
function stepWith(more: More) {
  const plan = smallPlan() as unknown as { steps: More[] };
  const step = plan.steps.find(({ action }) => action === 'tighten');
  if (step === undefined) throw new Error('the plan tightens nothing');
  const { callout: _callout, running: _running, runningIncluded: _included, ...rest } = step;
  plan.steps[plan.steps.indexOf(step)] = { ...rest, ...more };
  const resolved = planFrom(plan).steps.find(({ id }) => id === step['id']);
  if (resolved === undefined) throw new Error('the step is gone');
  return { step: resolved, parts: torqueParts(resolved), texts: torqueTexts(resolved, more, 'as-written') };
}

describe('a callout', () => {
  it('without running torque: on the wrench, and nothing said of seating', () => {
    const { parts, texts } = stepWith({ callout });
    expect(parts).toEqual({ wrench: { minNm: 30, maxNm: 35 }, running: null, seating: null });
    expect(texts).toEqual(['callout 30–35 N·m', 'no running torque given']);
  });

  it('with running torque in it: the rest seats, its ends taken against each other', () => {
    const { parts, texts } = stepWith({ callout, running, runningIncluded: true });
    expect(parts).toEqual({
      wrench: { minNm: 30, maxNm: 35 },
      running: { minNm: 1, maxNm: 3 },
      seating: { minNm: 27, maxNm: 34 },
    });
    expect(texts).toEqual(['callout 30–35 N·m', 'of it running 1–3 N·m', 'left for seating 27–34 N·m']);
  });

  it('to which running torque is to be added: the callout seats, the sum is on the wrench', () => {
    const { parts, texts } = stepWith({ callout, running, runningIncluded: false });
    expect(parts).toEqual({
      wrench: { minNm: 33, maxNm: 36 },
      running: { minNm: 1, maxNm: 3 },
      seating: { minNm: 30, maxNm: 35 },
    });
    expect(texts).toEqual([
      'callout 30–35 N·m',
      'running 1–3 N·m, to be added',
      'callout + running, on the wrench 33–36 N·m',
    ]);
  });

  it('whose running torque spreads wider than it is says so', () => {
    const { texts } = stepWith({ callout, running: { min: '1 N·m', max: '8 N·m' }, runningIncluded: false });
    expect(texts.at(-1)).toBe('callout + running, on the wrench empty band');
  });

  it.each([
    ['eats all of it', { min: '30 N·m', max: '30 N·m' }, null],
    ['leaves a half', { min: '29 N·m', max: '29.5 N·m' }, { minNm: 0.5, maxNm: 6 }],
    ['leaves one value', { min: '5 N·m', max: '5 N·m' }, { minNm: 25, maxNm: 30 }],
  ])('whose running torque, included, %s', (_name, eaten, seating) => {
    const { parts, texts } = stepWith({ callout, running: eaten, runningIncluded: true });
    if (seating === null) {
      expect(parts?.seating).toBeNull();
      expect(texts.at(-1)).toBe('nothing left for seating at the worst running torque');
    } else {
      expect(parts?.seating?.minNm).toBeCloseTo(seating.minNm, 12);
      expect(parts?.seating?.maxNm).toBeCloseTo(seating.maxNm, 12);
    }
  });

  it('of one value with a running torque of one value leaves one value', () => {
    const one = { min: '30 N·m', max: '30 N·m' };
    const { parts } = stepWith({ callout: one, running: { min: '5 N·m', max: '5 N·m' }, runningIncluded: true });
    expect(parts?.seating).toEqual({ minNm: 25, maxNm: 25 });
  });

  it('in inch-pound units shows the parts in them, without the noise of the way through N·m', () => {
    const { texts } = stepWith({
      callout: { min: '300 lbf·in', max: '350 lbf·in' },
      running: { min: '10 lbf·in', max: '30 lbf·in' },
      runningIncluded: true,
    });
    expect(texts.at(-1)).toBe('left for seating 270–340 lbf·in');
  });
});

describe('a step that loosens', () => {
  it('says what its stack must bear, and nothing of a callout', () => {
    const plan = planFrom(smallPlan());
    const step = plan.steps.find(({ action }) => action === 'loosen');
    if (step === undefined) throw new Error('the plan loosens nothing');
    expect(torqueParts(step)).toBeNull();
    expect(torqueTexts(step, { demand: '40 N·m' }, 'as-written')).toEqual(['must bear 40 N·m']);
    expect(torqueTexts(step, undefined, 'as-written')).toEqual([]);
  });
});
