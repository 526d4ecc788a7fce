/** A hole that changes its width along its depth: what is read of it, what is refused, what a check says. */
import { describe, expect, it } from 'vitest';
import type { PlanStep } from '../../../shared-types/plan.ts';
import { uncheckedRules } from '../../../renderer/engine/bag/unchecked.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { judgeStack, judgeStep } from '../../../renderer/engine/stack/judgeStep.ts';
import { extension, handPlan, loosen } from '../../reference/handPlan.ts';

type Access = NonNullable<PlanStep['access']>;

const planned = (access: Access, wide = '30 mm') =>
  readPlan(JSON.stringify(handPlan([loosen({ access })], { extensions: [extension({ outsideDiameter: wide })] })));

const hole: Access = {
  depth: '150 mm',
  profile: [{ to: '100 mm', clearDiameter: '32 mm' }],
  clearDiameter: '26 mm',
};

function clearanceOf(access: Access, wide?: string) {
  const plan = planned(access, wide);
  const [step] = plan.steps;
  if (step === undefined) throw new Error('no step');
  const judged = judgeStack(plan, step, ['ratchet', 'ext', 'socket']);
  return { state: judgeStep(plan, step).state, clearance: judged.checks.find(({ check }) => check === 'clearance') };
}

describe('a hole with stretches', () => {
  it('holds each part against the stretches it passes, and names the tightest', () => {
    expect(clearanceOf(hole)).toMatchObject({
      state: 'reached',
      clearance: { passes: true, have: '⌀ 30 mm', need: 'at most ⌀ 32 mm at the mouth', margin: '1 mm a side' },
    });
    const shallow = { ...hole, profile: [{ to: '90 mm', clearDiameter: '32 mm' }] };
    expect(clearanceOf(shallow)).toMatchObject({
      state: 'not-reached',
      clearance: { passes: false, need: 'at most ⌀ 26 mm from 90 mm on', margin: '4 mm too wide' },
    });
    expect(clearanceOf(shallow, '26 mm').state).toBe('reached');
  });

  it('says nothing of stretches where there is none', () => {
    const plain = clearanceOf({ depth: '150 mm', clearDiameter: '32 mm' });
    expect(plain.clearance?.need).toBe('at most ⌀ 32 mm');
  });

  it('counts as unchecked where some stretch has no width', () => {
    const rules = (access: Access) => uncheckedRules(planned(access), []).map(({ rule }) => rule);
    const { clearDiameter: _none, ...open } = hole;
    expect(rules(hole)).not.toContain('clearDiameter');
    expect(rules(open)).toContain('clearDiameter');
    expect(rules({ ...open, profile: [{ to: '15 cm', clearDiameter: '40 mm' }] })).not.toContain('clearDiameter');
  });
});

it.each<[string, Access['profile'], RegExp]>([
  [
    'goes beyond the head',
    [{ to: '151 mm', clearDiameter: '32 mm' }],
    /profile\[0\]\.to: is deeper than the head, which is 150 mm deep/,
  ],
  [
    'goes no further in',
    [
      { to: '50 mm', clearDiameter: '32 mm' },
      { to: '5 cm', clearDiameter: '30 mm' },
    ],
    /profile\[1\]\.to: goes no further in than 50 mm/,
  ],
  ['has no extent', [{ to: '0 mm', clearDiameter: '32 mm' }], /profile\[0\]\.to: must be more than 0/],
  ['has no width', [{ to: '10 mm', clearDiameter: '0 mm' }], /profile\[0\]\.clearDiameter: must be more than 0/],
  ['has no unit', [{ to: '10', clearDiameter: '20 mm' }], /profile\[0\]\.to/],
])('refuses a stretch that %s', (_, profile, why) => {
  expect(() => planned({ ...hole, profile })).toThrow(why);
});
