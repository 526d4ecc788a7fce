/** Reasons where more is asked than the plan: items kept, forbidden, spared. */
import { describe, expect, it } from 'vitest';
import type { BagWishes } from '../../../../shared-types/bag.ts';
import { keep, put } from '../../../support/editJson.ts';
import { reasonsOf } from './asked.ts';

const wishes = (some: Partial<BagWishes>): BagWishes => ({ keep: [], forbid: [], spares: [], ...some });
const oneSocket = keep('catalog.sockets', 1);

describe('an item that is kept by a wish', () => {
  it('is taken away against the wish, and what that saves is said', async () => {
    const asked = { wishes: wishes({ keep: [{ id: 'X-6', quantity: 1 }] }) };
    const { reasons, result } = await reasonsOf(oneSocket, ['without', 'limits'], asked);
    // The long extension, kept, does for the short one: 200 g for 110 g.
    expect(result.objective?.value).toBeCloseTo(2, 9);
    expect(reasons.without.find(({ id }) => id === 'X-6')).toMatchObject({
      againstWish: true,
      outcome: 'proven',
      cost: { value: expect.closeTo(-0.09, 9) as number },
      comesIn: [{ id: 'X-3', quantity: 1 }],
    });
    expect(reasons.without.find(({ id }) => id === 'R-38')?.againstWish).toBe(false);
    expect(reasons.limits.find(({ limit }) => limit.kind === 'keep')).toMatchObject({
      limit: { kind: 'keep', id: 'X-6' },
      allowed: 1,
      used: 1,
      binds: true,
      relaxed: { value: expect.closeTo(1.91, 9) as number },
    });
  });

  it('is a limit that does not bind where it would be packed anyway', async () => {
    const asked = { wishes: wishes({ keep: [{ id: 'X-3', quantity: 1 }] }) };
    const { reasons } = await reasonsOf(oneSocket, ['limits'], asked);
    expect(reasons.limits.find(({ limit }) => limit.kind === 'keep')).toMatchObject({ binds: false });
  });

  it('and cannot be packed is a conflict of the wish alone, with the most of it that can', async () => {
    const asked = { wishes: wishes({ keep: [{ id: 'C-1', quantity: 4 }] }) };
    const { reasons } = await reasonsOf(put('catalog.bags[0].itemsMax', 3), ['faults'], asked);
    const alone = reasons.conflicts.find(({ steps }) => steps.length === 0);
    expect(alone?.eased.map(({ limit, needs }) => [limit.kind, needs])).toEqual([
      ['itemsMax', 4],
      ['keep', 3],
    ]);
    expect(alone?.reason).toMatch(/what is wished for cannot be packed even by itself/);
    expect(alone?.reason).toMatch(/wish to keep C-1: 4 pieces wished, 3 pieces possible/);
  });
});

describe('an item that is forbidden', () => {
  it('is a limit that binds where it would save something', async () => {
    const asked = { wishes: wishes({ forbid: [{ id: 'X-3', outing: 'O1' }] }) };
    const { reasons, result } = await reasonsOf(oneSocket, ['without', 'limits'], asked);
    expect(result.objective?.value).toBeCloseTo(2, 9);
    expect(reasons.limits.find(({ limit }) => limit.kind === 'forbid')).toMatchObject({
      allowed: 0,
      used: 0,
      binds: true,
      relaxed: { value: expect.closeTo(1.91, 9) as number },
    });
    // It does not come in for the other one.
    expect(reasons.without.find(({ id }) => id === 'X-6')).toMatchObject({ outcome: 'infeasible' });
  });
});

describe('spares', () => {
  it('bind with their own mass', async () => {
    const asked = { wishes: wishes({ spares: [{ id: 'C-1', quantity: 2 }] }) };
    const { reasons, result } = await reasonsOf(oneSocket, ['limits'], asked);
    expect(result.objective?.value).toBeCloseTo(1.95, 9);
    expect(reasons.limits.find(({ limit }) => limit.kind === 'spares')).toMatchObject({
      allowed: 2,
      binds: true,
      relaxed: { value: expect.closeTo(1.91, 9) as number },
    });
  });
});
