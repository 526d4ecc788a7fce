/** The worker that finds reasons: each comes by itself, the window goes on meanwhile, and it can be called off. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { BagResult } from '../../shared-types/bag.ts';
import { startPlanning } from '../../renderer/workers/planner.ts';
import { startFindingReasons } from '../../renderer/workers/reasons.ts';
import type { ReasonFound } from '../../shared-types/bagReasons.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { smallPlan } from '../support/smallPlan.ts';

const plan = JSON.stringify(smallPlan());
const catalogOrder = [...planFrom(smallPlan()).carried.keys()];
let result: BagResult;
beforeAll(async () => {
  result = await startPlanning(plan, { minimise: 'mass' }).result;
});

describe('reasons found in a worker', () => {
  it('come one after another, all of them, while the window goes on', async () => {
    const found: { kind: ReasonFound['kind']; ticks: number }[] = [];
    let ticks = 0;
    const clock = setInterval(() => (ticks += 1), 1);
    const { done } = startFindingReasons({ plan, minimise: 'mass', result }, ({ kind }) => found.push({ kind, ticks }));
    expect(await done).toBe(true);
    clearInterval(clock);
    expect([...new Set(found.map(({ kind }) => kind))]).toEqual(['without', 'tolerance', 'limit']);
    expect(found.filter(({ kind }) => kind === 'without')).toHaveLength(5);
    expect(found.at(-1)?.ticks).toBeGreaterThan(found[0]?.ticks ?? Infinity);
  });

  it('are those of the parts asked for', async () => {
    const kinds: string[] = [];
    await startFindingReasons({ plan, minimise: 'mass', result, parts: ['limits'] }, ({ kind }) => kinds.push(kind))
      .done;
    expect([...new Set(kinds)]).toEqual(['limit']);
  });

  it('begin with the line that is looked at, and go on in the order of the catalog', async () => {
    const found: string[] = [];
    const finding = startFindingReasons({ plan, minimise: 'mass', result }, (reason) => {
      if (reason.kind === 'without') found.push(reason.found.id);
      else found.push(reason.kind);
    });
    const packed = result.outings[0]?.items.map(({ id }) => id) ?? [];
    finding.lookAt({ outing: 'O1', id: 'X-3' });
    expect(await finding.done).toBe(true);
    expect(packed).toContain('X-3');
    expect(found[0]).toBe('X-3');
    const items = [...new Set(found.filter((one) => packed.includes(one)))];
    expect(items.slice(1)).toEqual(
      items.slice(1).toSorted((a, b) => catalogOrder.indexOf(a) - catalogOrder.indexOf(b)),
    );
    expect(items).toHaveLength(packed.length);
  });

  it('end at once when called off, and no more come', async () => {
    const found: ReasonFound[] = [];
    const finding = startFindingReasons({ plan, minimise: 'mass', result }, (reason) => {
      found.push(reason);
      if (found.length === 1) finding.cancel();
    });
    expect(await finding.done).toBe(false);
    // A worker that went on would find the next within this time: it has only a little plan to ask again.
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(found).toHaveLength(1);
  });

  it('are refused with the reason where the plan is none', async () => {
    const { done } = startFindingReasons(
      { plan: '{"catalog":', file: 'half.json', minimise: 'mass', result },
      () => undefined,
    );
    await expect(done).rejects.toMatchObject({ refusal: { file: 'half.json' } });
  });
});
