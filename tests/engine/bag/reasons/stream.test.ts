/** Reasons as they come: in the same order every time, one after another, and no further once they are not wanted. */
import { describe, expect, it } from 'vitest';
import { planBag } from '../../../../renderer/engine/bag/planBag.ts';
import { bagReasons, findReasons } from '../../../../renderer/engine/bag/reasons/bagReasons.ts';
import { planFrom } from '../../../../renderer/engine/plan/readPlan.ts';
import type { ReasonFound, ReasonPart } from '../../../../shared-types/bagReasons.ts';
import { smallPlan } from '../../../support/smallPlan.ts';

const plan = planFrom(smallPlan());
const result = await planBag(plan, { minimise: 'mass' });

async function found(parts?: ReasonPart[], stop: (seen: ReasonFound[], asks: number) => boolean = () => false) {
  const seen: ReasonFound[] = [];
  let asks = 0;
  const cancelled = (): boolean => {
    asks += 1;
    return stop(seen, asks);
  };
  for await (const reason of findReasons(plan, result, { minimise: 'mass', cancelled }, parts)) seen.push(reason);
  return { seen, asks };
}

describe('reasons', () => {
  it('come to the same bytes every time, together or one by one', async () => {
    const first = JSON.stringify(await bagReasons(plan, result, { minimise: 'mass' }));
    expect(JSON.stringify(await bagReasons(plan, result, { minimise: 'mass' }))).toBe(first);
    const { seen } = await found();
    const { without } = JSON.parse(first) as { without: unknown[] };
    expect(seen.flatMap((one) => (one.kind === 'without' ? [one.found] : []))).toEqual(without);
  });

  it('come in the order of the parts asked for, and only those', async () => {
    const kinds = async (...parts: ReasonPart[]) => [...new Set((await found(parts)).seen.map(({ kind }) => kind))];
    expect(await kinds('limits', 'without')).toEqual(['limit', 'without']);
    expect(await kinds('tolerance')).toEqual(['tolerance']);
    expect(await kinds('faults')).toEqual([]);
  });

  it('end at the next question once they are not wanted, with what was found until then', async () => {
    const all = (await found(['without'])).seen;
    const { seen, asks } = await found(['without'], (before) => before.length === 2);
    expect(seen).toEqual(all.slice(0, 2));
    expect(asks).toBe(3);
    expect((await found(['without', 'limits'], () => true)).seen).toEqual([]);
  });

  it('ask the planner for nothing that is not read', async () => {
    let asks = 0;
    const counted = { minimise: 'mass' as const, cancelled: () => (asks += 1) < 0 };
    const reasons = findReasons(plan, result, counted, ['without']);
    await reasons.next();
    expect(asks).toBe(1);
    await reasons.return(undefined);
    expect(asks).toBe(1);
  });

  it('do not hide a failure of the planner', async () => {
    const broken = () => {
      throw new Error('the solver is gone');
    };
    await expect(bagReasons(plan, result, { minimise: 'mass', cancelled: broken })).rejects.toThrow(
      'the solver is gone',
    );
  });
});
