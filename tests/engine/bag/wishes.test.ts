/** What whoever packs asks beyond the plan, and losses: how it is read, refused, and counted again. */
import { describe, expect, it } from 'vitest';
import type { BagOuting, BagWishes, Tolerance } from '../../../shared-types/bag.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { recheckOuting } from '../../../renderer/engine/bag/recheck.ts';
import { checkWishes, forbiddenOn, keptOn, noWishes, sparesOn } from '../../../renderer/engine/bag/wishes.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const wished = (some: Partial<BagWishes>): BagWishes => ({ ...noWishes, ...some });

function planned(edit: Edit) {
  const source = smallPlan();
  edit(source);
  return planFrom(source);
}

const unchanged: Edit = () => undefined;
const pieces = ['sockets[0]', 'sockets[1]', 'extensions[0]', 'extensions[1]', 'drivers[0]', 'torqueTools[0]'];
const onHand = (count: number): Edit => all(...pieces.map((item) => put(`catalog.${item}.onHand`, count)));
const twoBags = all(put('catalog.bags', [{ id: 'B-1' }, { id: 'B-2' }]), put('outings[0].bags', ['B-1', 'B-2']));
/** Three extensions of 3 in of which any two reach. */
const anyTwo = all(
  keep('steps', 1),
  onHand(2),
  put(
    'catalog.extensions',
    ['A', 'B', 'C'].map((id) => ({ ...smallPlan().catalog.extensions[0], id, onHand: 1 })),
  ),
  put('steps[0].access.depth', '7 in'),
);

describe('wishes', () => {
  it('are those of the outing and those of every outing', () => {
    const wishes = wished({
      keep: [
        { id: 'X-3', quantity: 1 },
        { id: 'X-3', quantity: 3, outing: 'O1' },
        { id: 'X-6', quantity: 2, outing: 'O2' },
      ],
      forbid: [{ id: 'R-38' }, { id: 'TT-2', outing: 'O2' }],
      spares: [
        { id: 'C-1', quantity: 1 },
        { id: 'C-1', quantity: 2, outing: 'O1' },
      ],
    });
    // Of what is kept the larger number; spares add up.
    expect([...keptOn(wishes, 'O1')]).toEqual([['X-3', 3]]);
    expect([...keptOn(wishes, 'O2')]).toEqual([
      ['X-3', 1],
      ['X-6', 2],
    ]);
    expect([...forbiddenOn(wishes, 'O1')]).toEqual(['R-38']);
    expect([...forbiddenOn(wishes, 'O2')]).toEqual(['R-38', 'TT-2']);
    expect([...sparesOn(wishes, 'O1', new Map([['C-1', 2]]))]).toEqual([['C-1', 3]]);
    // Where none is needed only the spare that names the outing goes.
    expect([...sparesOn(wishes, 'O1', new Map())]).toEqual([['C-1', 2]]);
    expect([...sparesOn(wishes, 'O2', new Map())]).toEqual([]);
  });

  it.each<[string, Partial<BagWishes>, object]>([
    ['an unknown item', { keep: [{ id: 'Q', quantity: 1 }] }, { code: 'unknown-id', field: 'keep', value: 'Q' }],
    ['an unknown item', { forbid: [{ id: 'Q' }] }, { code: 'unknown-id', field: 'forbid', value: 'Q' }],
    ['an unknown item', { spares: [{ id: 'Q', quantity: 1 }] }, { code: 'unknown-id', field: 'spares', value: 'Q' }],
    ['a fastener', { keep: [{ id: 'F1', quantity: 1 }] }, { code: 'unknown-id', field: 'keep', value: 'F1' }],
    ['a bag', { forbid: [{ id: 'B-1' }] }, { code: 'unknown-id', field: 'forbid', value: 'B-1' }],
    [
      'an unknown outing',
      { forbid: [{ id: 'X-3', outing: 'O9' }] },
      { code: 'unknown-id', field: 'forbid', value: 'O9' },
    ],
    [
      'an unknown outing',
      { keep: [{ id: 'X-3', quantity: 1, outing: 'O9' }] },
      { code: 'unknown-id', field: 'keep', value: 'O9' },
    ],
    ['none', { keep: [{ id: 'X-3', quantity: 0 }] }, { code: 'out-of-range', field: 'keep', value: 0 }],
    ['half a piece', { keep: [{ id: 'X-3', quantity: 1.5 }] }, { code: 'out-of-range', field: 'keep', value: 1.5 }],
    [
      'fewer than none',
      { spares: [{ id: 'C-1', quantity: -1 }] },
      { code: 'out-of-range', field: 'spares', value: -1 },
    ],
    ['a spare tool', { spares: [{ id: 'X-3', quantity: 1 }] }, { code: 'out-of-range', field: 'spares', value: 'X-3' }],
  ])('are refused for %s', (_name, wishes, refusal) => {
    expect(() => checkWishes(planned(unchanged), wished(wishes))).toThrow(
      expect.objectContaining({ refusal: expect.objectContaining(refusal) as unknown }) as Error,
    );
  });

  it('are not refused for what is kept and forbidden at once: the answer says that no bag does it', async () => {
    const wishes = { keep: [{ id: 'X-6', quantity: 1 }], forbid: [{ id: 'X-6' }] };
    const result = await planBag(planned(unchanged), { minimise: 'mass', ...wishes });
    expect(result.infeasible.map(({ reason }) => reason)).toEqual(['outing O1: 1 × X-6 to be kept, and forbidden']);
  });

  it('of more than there is leave no bag', async () => {
    const reasons = async (wishes: Partial<BagWishes>) =>
      (await planBag(planned(unchanged), { minimise: 'mass', ...wishes })).infeasible.map(({ reason }) => reason);
    expect(await reasons({ keep: [{ id: 'X-3', quantity: 2 }] })).toEqual(['outing O1: 2 × X-3 to be kept, 1 on hand']);
    expect(await reasons({ spares: [{ id: 'C-1', quantity: 3 }] })).toEqual(['outing O1: 5 × C-1 needed, 4 on hand']);
    expect(await reasons({ spares: [{ id: 'C-1', quantity: 2 }] })).toEqual([]);
  });
});

describe('the second count of losses and wishes', () => {
  const said = async (
    edit: Edit,
    asked: { tolerance?: Tolerance; wishes?: Partial<BagWishes> },
    fault: (answer: BagOuting) => void,
  ): Promise<string[]> => {
    const plan = planned(edit);
    const { tolerance = 'nothing' } = asked;
    const wishes = wished(asked.wishes ?? {});
    const result = await planBag(plan, { minimise: 'mass', tolerance, ...wishes });
    const [outing] = plan.outings;
    const [answer] = result.outings;
    if (!outing || !answer) throw new Error(JSON.stringify(result.infeasible));
    expect(recheckOuting(plan, outing, answer, { tolerance, wishes })).toEqual([]);
    const copy = structuredClone(answer);
    fault(copy);
    copy.massKg =
      copy.items.reduce((sum, { id, quantity }) => sum + (plan.carried.get(id)?.massKg ?? 0) * quantity, 0) +
      [...new Set(copy.items.map(({ bag }) => bag))].reduce((sum, id) => sum + (plan.bags.get(id)?.massKg ?? 0), 0);
    return recheckOuting(plan, outing, copy, { tolerance, wishes });
  };
  const fewer =
    (id: string, by = 1) =>
    (answer: BagOuting): void => {
      for (const item of answer.items) if (item.id === id) item.quantity -= by;
      answer.items = answer.items.filter(({ quantity }) => quantity > 0);
    };

  it('finds a piece whose loss a step does not survive', async () => {
    const one = all(onHand(2), keep('steps', 1));
    expect(await said(one, { tolerance: 'piece' }, fewer('R-38'))).toEqual([
      'step loosen has no stack once R-38 is lost',
    ]);
    expect(await said(one, { tolerance: 'nothing' }, fewer('R-38', 0))).toEqual([]);
  });

  it('finds that of three extensions of which any two reach one is missing, and that three are enough', async () => {
    const extensions = (answer: BagOuting) => answer.items.filter(({ id }) => ['A', 'B', 'C'].includes(id));
    let counted = 0;
    const missing = await said(anyTwo, { tolerance: 'piece' }, (answer) => {
      counted = extensions(answer).length;
      const used = new Set(answer.steps.flatMap(({ stack }) => stack));
      const spare = extensions(answer).find(({ id }) => !used.has(id));
      if (!spare) throw new Error('no spare');
      fewer(spare.id)(answer);
    });
    expect(counted).toBe(3);
    expect(missing).toHaveLength(2);
    for (const what of missing) expect(what).toMatch(/^step loosen has no stack once [ABC] is lost$/);
  });

  it('finds a bag whose loss a step does not survive', async () => {
    const bags = all(onHand(2), keep('steps', 1), twoBags);
    const into = (answer: BagOuting): void => {
      const line = answer.items.find(({ id, bag }) => id === 'X-3' && bag === 'B-2');
      if (!line) throw new Error('no line');
      line.bag = 'B-1';
    };
    expect(await said(bags, { tolerance: 'bag' }, into)).toEqual(['step loosen has no stack once bag B-1 is lost']);
  });

  it('finds what is kept too little, and what is forbidden', async () => {
    const wishes = { keep: [{ id: 'X-6', quantity: 2 }], forbid: [{ id: 'S-9/16-12' }] };
    expect(await said(onHand(2), { wishes }, fewer('X-6'))).toEqual(['1 × X-6 packed, 2 to be kept']);
    const smuggled = (answer: BagOuting): void => {
      answer.items.push({ id: 'S-9/16-12', quantity: 1, bag: 'B-1', because: [] });
    };
    expect(await said(onHand(2), { wishes }, smuggled)).toEqual(['S-9/16-12 is packed, and forbidden']);
    expect(await said(unchanged, { wishes: { spares: [{ id: 'C-1', quantity: 1 }] } }, fewer('C-1'))).toEqual([
      '2 × C-1 packed, 3 needed',
    ]);
    // Of gear the larger of need and wish is packed, and no more.
    const more = { keep: [{ id: 'C-1', quantity: 3 }] };
    expect(await said(unchanged, { wishes: more }, fewer('C-1', -1))).toEqual(['4 × C-1 packed, 3 needed']);
  });

  it('finds a piece in the bag of a role that has no use for it', async () => {
    const roles = all(
      put('catalog.bags', [{ id: 'B-1' }, { id: 'B-S', role: 'Second' }]),
      put('outings[0].bags', ['B-1', 'B-S']),
      put('steps[0].access.depth', '5 in'),
      put('steps[2]', { ...smallPlan().steps[0], id: 'cap', role: 'Second', access: { depth: '1 in' } }),
    );
    const moved =
      (id: string) =>
      (answer: BagOuting): void => {
        for (const line of answer.items) if (line.id === id) line.bag = 'B-S';
      };
    // An extension is possible, chosen or not, for the shallow step too; a torque tool is not.
    expect(await said(roles, {}, moved('TT-2'))).toEqual([
      'bag B-S of Second holds TT-2, which no step of that role uses',
      'step tighten needs 1 × TT-2, its bags hold fewer',
    ]);
    expect(await said(roles, {}, moved('X-6'))).not.toContain(
      'bag B-S of Second holds X-6, which no step of that role uses',
    );
  });
});

describe('a tolerance costs no less than none', () => {
  it('and three extensions are packed where no two separate stacks are on hand', async () => {
    const plan = planned(anyTwo);
    const packed = async (tolerance: Tolerance) => {
      const { outings, status } = await planBag(plan, { minimise: 'mass', tolerance });
      expect(status).toBe('optimal');
      return outings[0]?.items.filter(({ id }) => ['A', 'B', 'C'].includes(id)) ?? [];
    };
    expect(await packed('nothing')).toHaveLength(2);
    const [three, because] = [await packed('piece'), (await packed('piece')).map((line) => line.because)];
    expect(three.map(({ quantity }) => quantity)).toEqual([1, 1, 1]);
    // The spare among them is there for the step that would use it.
    expect(because).toEqual([['loosen'], ['loosen'], ['loosen']]);
  });
});
