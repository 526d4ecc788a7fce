/** What is said of stacks that nearly do: which, in which order, and with how many digits. */
import { describe, expect, it } from 'vitest';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { checkStack } from '../../../renderer/engine/stack/checkStack.ts';
import { closestFits } from '../../../renderer/engine/stack/closestFits.ts';
import { judgeStack } from '../../../renderer/engine/stack/judgeStep.ts';
import { apart } from '../../../renderer/engine/stack/shown.ts';
import { stackParts, stackTask } from '../../../renderer/engine/stack/stackTask.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

function planned(edit: Edit, index = 0) {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const step = plan.steps[index];
  const task = step && stackTask(plan, step);
  if (!step || !task) throw new Error('no such step');
  return { plan, step, task };
}

function fits(edit: Edit, index = 0) {
  const { plan, task } = planned(edit, index);
  return closestFits(plan, task).map(({ stack, fails }) => [
    stack.join(' '),
    fails.map(({ check }) => check).join(' '),
  ]);
}

function clearance(edit: Edit, stack: readonly string[]) {
  const { plan, task } = planned(edit);
  const parts = stackParts(plan, stack);
  if (!parts) throw new Error('no such stack');
  return checkStack(task, parts).find(({ check }) => check === 'clearance');
}

const socket = smallPlan().catalog.sockets[0];
const oneSocket = keep('catalog.sockets', 1);
const bare = all(oneSocket, keep('catalog.extensions', 0));

describe('near misses', () => {
  it('are none of those that do the task', () => {
    const { plan, task } = planned(() => undefined);
    expect(closestFits(plan, task).filter(({ fails }) => fails.length === 0)).toEqual([]);
  });

  it('are those that fail one check, be it one stack only', () => {
    expect(fits(bare)).toEqual([['R-38 S-9/16', 'reach']]);
  });

  it('are that one only, though others fail several measured checks', () => {
    const sockets = put('catalog.sockets', [
      { ...socket, id: 'A-short', length: '1 in', ratedTorque: '40 lbf·ft' },
      { ...socket, id: 'B-other', length: '3 in', opening: { form: 'hex6', size: '5/8 in' } },
    ]);
    expect(fits(all(keep('catalog.extensions', 0), sockets))).toEqual([['R-38 B-other', 'opening']]);
  });

  it('are those that fail several measured checks, fewest first, where none fails one only', () => {
    const deepAndProud = put('steps[0].access', { depth: '2 in', protrusion: '1 in', handleRadius: '4 in' });
    const two = put('catalog.sockets', [
      { ...socket, id: 'A-short', length: '1 in' },
      { ...socket, id: 'B-long', length: '3 in' },
    ]);
    expect(fits(all(keep('catalog.extensions', 0), two, deepAndProud))).toEqual([
      ['R-38 B-long', 'swing protrusion'],
      ['R-38 A-short', 'reach swing protrusion'],
    ]);
  });

  it('are, where the measured checks do not suffice, those that fail in anything', () => {
    const wrong = put('catalog.sockets[0].opening.size', '5/8 in');
    expect(fits(all(bare, wrong))).toEqual([['R-38 S-9/16', 'opening reach']]);
    // One stack with the right opening is nearer than any with the wrong one.
    const both = put('catalog.sockets', [
      { ...socket, id: 'A', opening: { form: 'hex6', size: '5/8 in' } },
      { ...socket, id: 'B', ratedTorque: '40 lbf·ft' },
    ]);
    expect(fits(all(keep('catalog.extensions', 0), both))).toEqual([['R-38 B', 'reach strength']]);
  });

  it('come by the sum of what is short where they fail equally many checks', () => {
    const weak = (id: string, length: string) => ({ ...socket, id, length, ratedTorque: '41 lbf·ft' });
    const three = put('catalog.sockets', [weak('A', '0.5 in'), weak('B', '1.5 in'), weak('C', '1 in')]);
    expect(fits(all(keep('catalog.extensions', 0), three))).toEqual([
      ['R-38 B', 'reach strength'],
      ['R-38 C', 'reach strength'],
    ]);
  });

  it('come by that sum whichever check it is of', () => {
    const made = (id: string, length: string, ratedTorque: string) => ({ ...socket, id, length, ratedTorque });
    // Short by 1 mm and 10 N·m, 11 in all; by 5 mm and 1 N·m, 6 in all.
    const two = [made('A', '49.8 mm', '46.94 N·m'), made('B', '45.8 mm', '55.94 N·m')];
    expect(fits(all(keep('catalog.extensions', 0), put('catalog.sockets', two)))[0]).toEqual([
      'R-38 B',
      'reach strength',
    ]);
  });

  it('come six points first where the step loosens, by ids where it tightens, when they are equally near', () => {
    const short = all(
      keep('catalog.extensions', 0),
      put('catalog.sockets[1].id', 'A-12'),
      put('steps[1].access.swingDeg', 90),
    );
    expect(fits(short)).toEqual([
      ['R-38 S-9/16', 'reach'],
      ['R-38 A-12', 'reach'],
    ]);
    expect(fits(short, 1)).toEqual([
      ['TT-2 A-12', 'reach'],
      ['TT-2 S-9/16', 'reach'],
    ]);
  });

  it('count an opening of another form as a metre off', () => {
    const { plan, task } = planned(put('catalog.sockets[0].opening', { form: 'hexKey', size: '9/16 in' }));
    const parts = stackParts(plan, ['R-38', 'X-3', 'S-9/16']);
    const opening = parts && checkStack(task, parts).find(({ check }) => check === 'opening');
    expect(opening?.shortfall).toBe(1000);
  });
});

describe('clearance (rule 4)', () => {
  const wide = put('catalog.extensions[0].outsideDiameter', '3 in');
  const stack = ['R-38', 'X-3', 'S-9/16'];

  it('is not measured where nothing is deep', () => {
    expect(clearance(put('steps[0].access.depth', '0 in'), stack)).toBeUndefined();
    expect(clearance(put('steps[0].access.depth', '1 mm'), stack)).toMatchObject({ passes: true, have: '⌀ 20.32 mm' });
  });

  it('counts an extension that begins a hair inside', () => {
    // The socket is 31.75 mm long.
    expect(clearance(all(wide, put('steps[0].access.depth', '32.25 mm')), stack)?.passes).toBe(false);
    expect(clearance(all(wide, put('steps[0].access.depth', '31.75 mm')), stack)?.passes).toBe(true);
  });
});

describe('a stack that somebody names', () => {
  it('has a setting where a torque tool tightens, and none otherwise', () => {
    const { plan, step } = planned(put('catalog.torqueTools[0].loosens', true), 1);
    expect(judgeStack(plan, step, ['TT-2', 'X-3', 'S-9/16']).setting).toEqual({ value: 32.5, unit: 'lbf·ft' });
    expect(judgeStack(plan, step, ['R-38', 'X-3', 'S-9/16'])).toMatchObject({ setting: null, applied: null });
    const [loosen] = plan.steps;
    expect(loosen && judgeStack(plan, loosen, ['TT-2', 'X-3', 'S-9/16']).setting).toBeNull();
  });
});

describe('two figures side by side', () => {
  const plain = (value: number, digits: number): string => value.toPrecision(digits);

  it('have four digits where those tell them apart or nothing does', () => {
    expect(apart(1.2345678, 2.2345678, plain)).toEqual(['1.235', '2.235']);
    expect(apart(1.2345678, 1.2345678 * (1 + 1e-12), plain)).toEqual(['1.235', '1.235']);
  });

  it.each([
    [1.23456, 1.23452, '1.2346', '1.2345'],
    [1.2345678, 1.2345681, '1.2345678', '1.2345681'],
  ])('have as many digits as it takes: %d and %d', (have, need, shown, shownNeed) => {
    expect(apart(have, need, plain)).toEqual([shown, shownNeed]);
  });

  it('have no more than the seventeen a double can need', () => {
    const asked: number[] = [];
    apart(1, 2, (_value, digits) => {
      asked.push(digits);
      return 'much';
    });
    expect([asked[0], asked.at(-1)]).toEqual([4, 17]);
  });
});
