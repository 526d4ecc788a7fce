/** Closest fits come with the smallest shortfall first, as a share of what is asked, whichever check it is of. */
import { describe, expect, it } from 'vitest';
import type { CheckFailure } from '../../../shared-types/bag.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { closestFits } from '../../../renderer/engine/stack/closestFits.ts';
import { stackTask } from '../../../renderer/engine/stack/stackTask.ts';
import { randomPlan } from '../../reference/randomPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const socket = smallPlan().catalog.sockets[0];

/** Sockets alone, held against a hole of 100 mm and a demand of 100 N·m. */
function order(sockets: Record<string, unknown>[], edit: Edit = () => undefined): string[] {
  const source = smallPlan();
  all(
    keep('catalog.extensions', 0),
    put('catalog.drivers[0].max', '500 N·m'),
    put('steps[0].demand', '100 N·m'),
    put('steps[0].access', { depth: '100 mm', clearDiameter: '50 mm' }),
    put(
      'catalog.sockets',
      sockets.map((bend) => ({
        ...socket,
        length: '100 mm',
        outsideDiameter: '50 mm',
        ratedTorque: '100 N·m',
        ...bend,
      })),
    ),
    edit,
  )(source);
  const plan = planFrom(source);
  const [step] = plan.steps;
  const task = step && stackTask(plan, step);
  if (!task) throw new Error('no such task');
  return closestFits(plan, task).map(({ stack, fails }) => `${stack.at(-1)} ${fails.map((f) => f.check).join('+')}`);
}

describe('closest fits', () => {
  it('are ranked across checks by the share of what is asked, not by millimetres against newton metres', () => {
    expect(
      order([
        { id: 'short-8', length: '92 mm' },
        { id: 'weak-5', ratedTorque: '95 N·m' },
        { id: 'wide-6', outsideDiameter: '53 mm' },
        { id: 'weak-9', ratedTorque: '91 N·m' },
        { id: 'short-1', length: '99 mm' },
      ]),
    ).toEqual(['short-1 reach', 'weak-5 strength', 'wide-6 clearance', 'short-8 reach', 'weak-9 strength']);
  });

  it('that miss an opening, a square or a piece come after what is short by less than all of it', () => {
    const ranked = order([
      { id: 'half', length: '50 mm' },
      { id: 'opening', opening: { form: 'hex6', size: '14.3 mm' } },
      { id: 'gone', onHand: 0 },
      { id: 'square', drive: '1/2 in' },
    ]);
    expect(ranked[0]).toBe('half reach');
    expect(ranked.slice(1).toSorted()).toEqual(['gone stock', 'opening opening', 'square drive']);
  });

  it('that fail several checks add their shares up, and of equals the one that fails fewer comes first', () => {
    expect(
      order([
        { id: 'A', length: '90 mm', ratedTorque: '80 N·m' },
        { id: 'B', length: '80 mm', ratedTorque: '91 N·m' },
      ]),
    ).toEqual(['B reach+strength', 'A reach+strength']);
    // A quarter each of two checks, an eighth, an eighth and a quarter of three: halves, exactly.
    expect(
      order(
        [
          { id: 'A', length: '87.5 mm', ratedTorque: '87.5 N·m', outsideDiameter: '62.5 mm' },
          { id: 'B', length: '75 mm', ratedTorque: '75 N·m' },
        ],
        keep('catalog.torqueTools', 0),
      ),
    ).toEqual(['B reach+strength', 'A reach+clearance+strength']);
  });

  it('that are equally near come by their ids', () => {
    const weak = { ratedTorque: '90 N·m' };
    expect(
      order([
        { id: 'b', ...weak },
        { id: 'c', ...weak },
        { id: 'a', ...weak },
      ]),
    ).toEqual(['a strength', 'b strength']);
  });
});

const numberOf = (text: string): number => Number(/-?[\d.]+/.exec(text)?.[0]);
/** Have and need in the same unit, as texts, one below or above the other. */
const shortOf = ({ have, need }: CheckFailure): number => Math.abs(numberOf(have) - numberOf(need));

describe('on random plans', () => {
  it('the smallest shortfall of each check that is a length or a torque comes first', () => {
    const checked = new Set<string>();
    const wrong: string[] = [];
    for (let seed = 1; seed <= 150; seed += 1) {
      const plan = planFrom(randomPlan(seed).plan);
      for (const step of plan.steps) {
        const task = stackTask(plan, step);
        if (!task) continue;
        const single = closestFits(plan, task).filter(({ fails }) => fails.length === 1);
        for (const check of ['reach', 'clearance', 'strength', 'protrusion'] as const) {
          const short = single.flatMap(({ fails }) => fails).filter((f) => f.check === check && /\d/.test(f.have));
          if (short.length < 2) continue;
          checked.add(check);
          const amounts = short.map(shortOf);
          if (amounts.some((amount, at) => amount < (amounts[at - 1] ?? 0) * (1 - 1e-3)))
            wrong.push(`seed ${seed} ${step.id} ${check}: ${amounts.join(', ')}`);
        }
      }
    }
    expect(wrong).toEqual([]);
    expect([...checked].toSorted()).toEqual(['clearance', 'protrusion', 'reach', 'strength']);
  });
});
