/** What it costs that something may be lost, and what stops it. */
import { describe, expect, it } from 'vitest';
import { toleranceText } from '../../../../renderer/engine/bag/reasons/reasonText.ts';
import type { Edit } from '../../../support/editJson.ts';
import { all, append, keep, put } from '../../../support/editJson.ts';
import { smallPlan } from '../../../support/smallPlan.ts';
import { anotherStep, reasonsOf } from './asked.ts';

const oneSocket = keep('catalog.sockets', 1);
/** Ratchet 300 g, 3 in 110 g, socket 60 g, bag 500 g; two of each on hand. */
const doubled = all(
  keep('steps', 1),
  oneSocket,
  keep('catalog.extensions', 1),
  ...['drivers', 'extensions', 'sockets'].map((list) => put(`catalog.${list}[0].onHand`, 2)),
);
const twoBags = all(append('catalog.bags', { id: 'B-2', mass: '200 g' }), put('outings[0].bags', ['B-1', 'B-2']));

async function curve(edit: Edit, options: Parameters<typeof reasonsOf>[2] = {}) {
  return (await reasonsOf(edit, ['tolerance'], options)).reasons.tolerance;
}

const values = (points: Awaited<ReturnType<typeof curve>>) =>
  points.map(({ tolerance, outcome, total }) => [tolerance, outcome, total && total.value]);

describe('the cost of tolerance', () => {
  it('is that of a second stack, in the same bag for a piece, in another one for a bag', async () => {
    // One bag of 200 g for one stack and for two; both bags where each is to hold one.
    expect(values(await curve(all(doubled, twoBags)))).toEqual([
      ['nothing', 'proven', 0.67],
      ['piece', 'proven', 1.14],
      ['bag', 'proven', 1.64],
    ]);
  });

  it('is in the unit of what is minimised', async () => {
    const points = await curve(all(doubled, twoBags), { minimise: 'count' });
    expect(points.map(({ unit, total }) => [unit, total?.value])).toEqual([
      ['pieces', 3],
      ['pieces', 6],
      ['pieces', 6],
    ]);
  });

  it('is the same whichever of them the bag was planned for', async () => {
    const plain = await curve(all(doubled, twoBags));
    for (const tolerance of ['piece', 'bag'] as const)
      expect(values(await curve(all(doubled, twoBags), { tolerance }))).toEqual(values(plain));
  });

  it('adds up over the outings, each of which has its own', async () => {
    const again = all(
      doubled,
      twoBags,
      append('outings', { ...smallPlan().outings[0], id: 'O2', bags: ['B-2'] }),
      append('steps', anotherStep({ id: 'again', outing: 'O2' })),
    );
    const points = await curve(again);
    expect(values(points)).toEqual([
      ['nothing', 'proven', 1.34],
      ['piece', 'proven', 2.28],
      ['bag', 'infeasible', null],
    ]);
    expect(points[1]?.outings.map(({ id, total }) => [id, total?.value])).toEqual([
      ['O1', expect.closeTo(1.14, 9)],
      ['O2', expect.closeTo(1.14, 9)],
    ]);
    // The other outing could stand it.
    expect(points[2]?.outings.map(({ id, outcome }) => [id, outcome])).toEqual([
      ['O1', 'proven'],
      ['O2', 'infeasible'],
    ]);
    expect(points[2]?.losses.map(({ outing, step, lost }) => [outing, step, lost])).toEqual([
      ['O2', 'again', { bag: 'B-2' }],
    ]);
  });

  it('that cannot be paid is told with the piece that has no second, and the nearest to one', async () => {
    const [, piece] = await curve(all(doubled, put('catalog.drivers[0].onHand', 1)));
    expect(piece).toMatchObject({ outcome: 'infeasible', total: null, conflicts: [] });
    expect(piece?.stoppedBy).not.toEqual([]);
    expect(piece?.losses.map(({ step, lost }) => [step, lost])).toEqual([['loosen', { piece: 'R-38' }]]);
  });

  it('that a bag’s limit stops is told with the limit and the least that would do', async () => {
    const [, piece] = await curve(all(doubled, put('catalog.bags[0].itemsMax', 5)));
    expect(piece).toMatchObject({ outcome: 'infeasible', losses: [] });
    const said = [...(piece?.conflicts ?? []), ...(piece?.stoppedBy ?? [])].map(({ reason }) => reason).join('; ');
    expect(said).toMatch(/step loosen .*bag B-1.*5 pieces, 6 pieces needed/);
    expect(piece && toleranceText(piece)).toContain('any one piece may be lost: not possible; step loosen');
  });
});

describe('reasons of a bag that stands a loss', () => {
  it('are those of planning for that loss again', async () => {
    // Two sorts of socket: the second piece is the lighter other one until it is taken away.
    const third = append('catalog.sockets', { ...smallPlan().catalog.sockets[0], id: 'S-heavy', mass: '90 g' });
    const { reasons, result } = await reasonsOf(all(doubled, third), ['without', 'limits'], { tolerance: 'piece' });
    expect(result.objective?.value).toBeCloseTo(0.5 + 2 * 0.47, 9);
    const one = reasons.without.find(({ id, left }) => id === 'S-9/16' && left === 1);
    expect(one).toMatchObject({
      outcome: 'proven',
      cost: { value: expect.closeTo(0.03, 9) as number },
      comesIn: [{ id: 'S-heavy', quantity: 1 }],
    });
    expect(reasons.without.find(({ id, left }) => id === 'R-38' && left === 1)).toMatchObject({
      outcome: 'infeasible',
    });
    expect(reasons.limits.find(({ limit }) => limit.kind === 'massMax')).toMatchObject({ binds: false });
  });
});
