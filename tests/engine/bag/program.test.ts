/** The integer program of an outing: what the solver is handed, and what is made of its answer. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Highs } from 'highs';
import type { BagWishes, Minimised, Tolerance } from '../../../shared-types/bag.ts';
import type { ModelTerms } from '../../../renderer/engine/bag/model/bagModel.ts';
import { bagModel } from '../../../renderer/engine/bag/model/bagModel.ts';
import { addFlow, isNetwork } from '../../../renderer/engine/bag/model/flow.ts';
import { IntegerProgram } from '../../../renderer/engine/bag/model/integerProgram.ts';
import { outingCosts } from '../../../renderer/engine/bag/solveOuting.ts';
import { outingWork } from '../../../renderer/engine/bag/outingWork.ts';
import { loadSolver } from '../../../renderer/engine/bag/solver.ts';
import { usefulCounts } from '../../../renderer/engine/bag/presolve/usefulCounts.ts';
import { noWishes } from '../../../renderer/engine/bag/wishes.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { countWays, eachStack } from '../../../renderer/engine/stack/ways.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { dice as diceOf } from '../../reference/dice.ts';
import { smallPlan } from '../../support/smallPlan.ts';

let highs: Highs;
beforeAll(async () => {
  highs = await loadSolver();
});

interface Asked extends Partial<Omit<ModelTerms, 'costs'>> {
  minimise?: Minimised;
  tolerance?: Tolerance;
  wishes?: Partial<BagWishes>;
}

/** The program of the small plan's outing, with no piece and no step left out beforehand unless that is asked. */
function modelled(
  edit: Edit,
  { minimise = 'mass', tolerance = 'nothing', wishes, losses = [], elastic = false }: Asked = {},
) {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const [outing] = plan.outings;
  if (!outing) throw new Error('no outing');
  const work = outingWork(plan, outing, { tolerance, wishes: { ...noWishes, ...wishes } });
  const standing = tolerance === 'nothing' ? [] : work.groups;
  const reduced = {
    work,
    all: work.groups,
    groups: work.groups,
    standing,
    dropped: new Set<string>(),
    useful: usefulCounts(work),
  };
  const costs = outingCosts(plan, reduced, minimise);
  const model = bagModel(plan, reduced, { costs, losses, elastic });
  const data = model.program.modelData();
  const row = (index: number) => {
    const { starts, indices, values } = data.matrix;
    const [from, to] = [starts[index] ?? 0, starts[index + 1]];
    return indices.slice(from, to).map((column, n): [number, number] => [column, values.slice(from, to)[n] ?? 0]);
  };
  const rows = data.rowLower.map((lower, n) => ({ lower, upper: data.rowUpper[n], terms: row(n) }));
  const uppers = Object.fromEntries(model.lying.map(({ item, bag, upper }) => [`${item.id} in ${bag.id}`, upper]));
  const price = Object.fromEntries(model.lying.map(({ item, column }) => [item.id, data.colCost[column]]));
  /** What lies in the bags in the least solution. */
  const packed = () => {
    const { columns, status } = model.program.solve(highs);
    if (!columns) return status;
    return model.lying.flatMap(({ item, bag, column }) => {
      const quantity = columns[column] ?? 0;
      return quantity > 0 ? [`${quantity} ${item.id} in ${bag.id}`] : [];
    });
  };
  return { plan, work, model, data, rows, uppers, price, costs, packed };
}

const unchanged: Edit = () => undefined;
const pieces = ['sockets[0]', 'sockets[1]', 'extensions[0]', 'extensions[1]', 'drivers[0]', 'torqueTools[0]'];
const onHand = (count: number): Edit => all(...pieces.map((item) => put(`catalog.${item}.onHand`, count)));
const held = put('steps[1].hold', { fastener: 'F1', access: { depth: '2 in' } });
const volumes = all(...[...pieces, 'carryGear[0]'].map((item) => put(`catalog.${item}.volume`, '250 mL')));

describe('the pieces that may lie in a bag', () => {
  it('are no more than a step uses at one time, and than are on hand', () => {
    expect(modelled(onHand(9)).uppers).toEqual({
      'R-38 in B-1': 1,
      'TT-2 in B-1': 1,
      'X-3 in B-1': 1,
      'X-6 in B-1': 1,
      'S-9/16 in B-1': 1,
      'S-9/16-12 in B-1': 1,
      'C-1 in B-1': 2,
    });
    // With a hold a step uses two of a socket at one time; the loosening step before it one.
    expect(modelled(all(onHand(9), held)).uppers).toMatchObject({
      'R-38 in B-1': 1,
      'S-9/16 in B-1': 2,
      'X-3 in B-1': 2,
    });
    expect(modelled(all(onHand(1), held)).uppers).toMatchObject({ 'S-9/16 in B-1': 1, 'X-3 in B-1': 1 });
  });

  it('add up over the roles where these work at once or have bags of their own, and not else', () => {
    const deep = put('steps[0].access.depth', '7 in');
    const oneLength = all(onHand(9), keep('catalog.extensions', 1));
    const most = (...edits: Edit[]) => modelled(all(oneLength, ...edits)).uppers['X-3 in B-1'];
    const second = put('steps[1].role', 'Second');
    expect(most(deep)).toBe(2);
    expect(most(deep, second)).toBe(2);
    const bags = all(
      put('catalog.bags', [{ id: 'B-1' }, { id: 'B-L', role: 'Lead' }]),
      put('outings[0].bags', ['B-1', 'B-L']),
    );
    expect(most(deep, second, bags)).toBe(3);
    expect(most(deep, second, put('steps[0].slot', 's'), put('steps[1].slot', 's'))).toBe(3);
  });

  it('are one more where one may be lost, and as many again where a bag may', () => {
    const deep = all(onHand(9), keep('catalog.extensions', 1), put('steps[0].access.depth', '7 in'));
    const most = (tolerance: Tolerance) => modelled(deep, { tolerance }).uppers;
    expect(most('piece')).toMatchObject({ 'X-3 in B-1': 3, 'R-38 in B-1': 2, 'C-1 in B-1': 2 });
    expect(most('bag')).toMatchObject({ 'X-3 in B-1': 4, 'R-38 in B-1': 2, 'C-1 in B-1': 2 });
  });

  it('are none of what is forbidden, and enough of what is kept, gear with its spares', () => {
    const forbid = [{ id: 'X-3' }];
    expect(Object.keys(modelled(onHand(9), { wishes: { forbid } }).uppers)).not.toContain('X-3 in B-1');
    const keepIt = [
      { id: 'S-9/16', quantity: 3 },
      { id: 'C-1', quantity: 4 },
    ];
    const { uppers, packed } = modelled(onHand(9), { wishes: { keep: keepIt } });
    expect(uppers).toMatchObject({ 'S-9/16 in B-1': 3, 'C-1 in B-1': 4 });
    expect(packed()).toEqual(['1 R-38 in B-1', '1 TT-2 in B-1', '1 X-3 in B-1', '3 S-9/16 in B-1', '4 C-1 in B-1']);
    const spares = [{ id: 'C-1', quantity: 1 }];
    expect(modelled(onHand(9), { wishes: { spares } }).packed()).toContain('3 C-1 in B-1');
  });
});

describe('the rows and columns of a program', () => {
  it('cost nothing but what lies in bags and the bags', () => {
    const { data, model, price } = modelled(unchanged);
    const costly = data.colCost.flatMap((cost, column) => (cost > 0 ? [column] : []));
    expect(costly).toEqual([...model.lying.map(({ column }) => column), ...model.opened.values()]);
    expect(Object.values(price).every((cost) => (cost ?? 0) > 0)).toBe(true);
    expect(new Set(data.colLower)).toEqual(new Set([0]));
  });

  it('ask for whole stacks only where roles of a slot could share one piece half and half', () => {
    const [loosen] = smallPlan().steps;
    const slotted = put(
      'steps',
      ['Lead', 'Second'].map((role) => ({ ...loosen, id: role, role, slot: 's' })),
    );
    const flows = (edit: Edit) => {
      const { data, model } = modelled(all(onHand(2), edit));
      const bags = new Set([...model.lying.map(({ column }) => column), ...model.opened.values()]);
      return data.integrality.filter((_kind, column) => !bags.has(column));
    };
    expect(new Set(flows(keep('steps', 1)))).toEqual(new Set([0]));
    expect(flows(slotted).filter((kind) => kind === 1).length).toBeGreaterThan(0);
    // Five pieces, each drawn in parts by either role.
    expect(modelled(all(onHand(2), slotted)).data.colUpper.filter((upper) => upper === Infinity)).toHaveLength(2 * 5);
    const oneSocket = all(onHand(2), slotted, keep('catalog.sockets', 1));
    expect(modelled(oneSocket).packed()).toEqual(['2 R-38 in B-1', '2 X-3 in B-1', '2 S-9/16 in B-1']);
    expect(modelled(all(oneSocket, put('catalog.sockets[0].onHand', 1))).packed()).toBe('infeasible');
  });

  it('count the mass of a bag that holds something, where mass is minimised and the bag has any', () => {
    const { data, model, rows, costs } = modelled(unchanged);
    const [column = -1] = model.opened.values();
    const [bag] = model.opened.keys();
    expect([data.colUpper[column], data.colCost[column]]).toEqual([1, bag && costs.ofBag(bag)]);
    for (const { column: lying, upper } of model.lying)
      expect(rows).toContainEqual({
        lower: 0,
        upper: Infinity,
        terms: [
          [column, upper],
          [lying, -1],
        ],
      });
    const opened = (edit: Edit, minimise: Minimised = 'mass') => modelled(edit, { minimise }).model.opened.size;
    expect(opened(put('catalog.bags[0].mass', '0 g'))).toBe(0);
    expect(opened(put('catalog.bags[0].mass', '1 kg'))).toBe(1);
    expect(opened(unchanged, 'count')).toBe(0);
    expect(opened(volumes, 'volume')).toBe(0);
  });

  it('have the limits of a bag as shares, and a limit of nothing as it is', () => {
    const limited = all(put('catalog.bags[0].itemsMax', 4), put('catalog.bags[0].tetherPoints', 0));
    const { rows, model } = modelled(all(limited, put('catalog.torqueTools[0].tethers', 2)));
    const tool = model.lying.find(({ item }) => item.id === 'TT-2')?.column;
    const bound = rows.filter(({ lower, terms }) => lower === -Infinity && terms.length === model.lying.length);
    expect(bound.map(({ upper }) => upper)).toEqual([1, 1, 0]);
    const ofTool = bound.map(({ terms }) => terms.find(([column]) => column === tool)?.[1]);
    expect(ofTool).toEqual([0.9 / 4, 1 / 4, 2]);
  });

  it('bend at a cost of one a piece or one a limit where limits bend', () => {
    const bent = (edit: Edit) => modelled(all(onHand(1), held, edit), { elastic: true });
    const { data, rows, model } = bent(unchanged);
    const lying = new Set(model.lying.map(({ column }) => column));
    // Six pieces and the mass of the one bag.
    const bending = data.colCost.flatMap((cost, column) => (cost === 0 || lying.has(column) ? [] : [{ cost, column }]));
    expect(bending.map(({ cost }) => cost)).toEqual(Array.from({ length: 7 }, () => 1));
    for (const { column } of bending) {
      const at = rows.flatMap(({ terms }) => terms.filter(([other]) => other === column));
      expect(at).toEqual([[column, -1]]);
    }
    expect(data.integrality[bending.at(-1)?.column ?? 0]).toBe(0);
    expect(model.lying.find(({ item }) => item.id === 'S-9/16')?.upper).toBe(2);
    // A bag's own mass is no limit.
    expect(bent(put('catalog.bags[0].mass', '0 g')).data.numCols).toBe(data.numCols);
  });
});

describe('a choice of stacks as a flow', () => {
  /** All stacks, as their pieces; and what the flow takes for each of many random prices. */
  const flowing = (edit: Edit) => {
    const { work } = modelled(edit);
    const [group] = work.groups;
    if (!group) throw new Error('no group');
    const stacks = [...eachStack(group.ways)].map(({ tool, extensions, socket }) =>
      [tool, ...extensions, socket].map(({ id }) => id),
    );
    return { group, stacks };
  };
  const least = (ways: ReturnType<typeof flowing>['group']['ways'], value: number, price: (id: string) => number) => {
    const program = new IntegerProgram();
    const uses = addFlow(program, ways, { value, whole: true });
    for (const [id, terms] of uses) {
      const column = program.column({ cost: price(id), integer: false });
      program.equal(0, [[column, -1], ...terms]);
    }
    return program.solve(highs);
  };

  it.each<[string, Edit]>([
    ['one extension', unchanged],
    ['two of one extension', all(onHand(2), keep('catalog.extensions', 1), put('steps[0].access.depth', '7 in'))],
    ['three of either', all(onHand(3), put('steps[0].access.depth', '12 in'))],
    ['a long socket beside a short one', put('catalog.sockets[1].length', '5 in')],
    [
      'a bar that swings by the seats of the socket',
      all(put('catalog.drivers[0].stepDeg', undefined), put('steps[0].access.swingDeg', 45)),
    ],
  ])('costs what the cheapest stack costs, at any price: %s', (_name, edit) => {
    const { group, stacks } = flowing(edit);
    expect(stacks.length).toBe(countWays(group.ways));
    expect(stacks.length).toBeGreaterThan(0);
    const roll = diceOf(7);
    for (let round = 0; round < 12; round += 1) {
      const prices = new Map([...new Set(stacks.flat())].map((id) => [id, roll.whole(1, 50)]));
      const price = (id: string): number => prices.get(id) ?? 1000;
      const costs = stacks.map((ids) => ids.reduce((sum, id) => sum + price(id), 0));
      expect(least(group.ways, 1, price).bound).toBeCloseTo(Math.min(...costs), 9);
    }
  });

  it('is two at once where two are asked', () => {
    const { group } = flowing(all(onHand(2), keep('catalog.extensions', 1), keep('catalog.sockets', 1)));
    expect(least(group.ways, 2, () => 1).bound).toBeCloseTo(6, 9);
  });

  it('is a network where every part asks only what its neighbour is', () => {
    const network = (edit: Edit) => isNetwork(flowing(edit).group);
    expect(network(unchanged)).toBe(true);
    // Two of three extensions reach: which two is no matter between neighbours.
    expect(network(all(onHand(2), put('steps[0].access.depth', '7 in'), keep('catalog.extensions', 1)))).toBe(false);
    const bar = all(put('catalog.drivers[0].stepDeg', undefined), put('steps[0].access.swingDeg', 60));
    // The bar swings with six points as with twelve, but that is for the ladders to say.
    expect(network(bar)).toBe(false);
    expect(network(put('steps', [{ ...smallPlan().steps[1], hold: { fastener: 'F1' } }]))).toBe(false);
  });
});

describe('the losses a bag stands', () => {
  /** Three extensions of 3 in, of which any two reach. */
  const anyTwo = all(
    keep('steps', 1),
    onHand(2),
    put(
      'catalog.extensions',
      ['A', 'B', 'C'].map((id) => ({ ...smallPlan().catalog.extensions[0], id, onHand: 1 })),
    ),
    put('steps[0].access.depth', '7 in'),
  );

  it('are told where three pieces stand what no two separate stacks could', () => {
    const bare = modelled(anyTwo, { tolerance: 'piece' });
    const [group] = bare.work.groups;
    if (!group) throw new Error('no group');
    const extensionsIn = (lines: string | string[]) =>
      typeof lines === 'string' ? lines : lines.filter((line) => /^\d [ABC] /.test(line));
    expect(extensionsIn(bare.packed())).toHaveLength(2);
    const losses = ['A', 'B', 'C'].map((piece) => ({ group, piece }));
    const told = modelled(anyTwo, { tolerance: 'piece', losses });
    expect(extensionsIn(told.packed())).toEqual(['1 A in B-1', '1 B in B-1', '1 C in B-1']);
  });

  it('are of tools and sockets stood by one more of each', () => {
    const lines = modelled(anyTwo, { tolerance: 'piece' }).packed();
    expect(lines).toContain('2 R-38 in B-1');
    const sockets = typeof lines === 'string' ? [] : lines.filter((line) => line.includes('S-9/16'));
    expect(sockets.reduce((sum, line) => sum + Number(line[0]), 0)).toBe(2);
  });

  it('are none where what must be doubled is not there', () => {
    expect(modelled(all(anyTwo, put('catalog.drivers[0].onHand', 1)), { tolerance: 'piece' }).packed()).toBe(
      'infeasible',
    );
  });

  it('are of a whole bag stood by what the others hold', () => {
    const two = all(
      keep('steps', 1),
      onHand(2),
      put('catalog.bags', [
        { id: 'B-1', mass: '10 g' },
        { id: 'B-2', mass: '20 g' },
      ]),
      put('outings[0].bags', ['B-1', 'B-2']),
    );
    const lines = modelled(two, { tolerance: 'bag' }).packed();
    for (const bag of ['B-1', 'B-2'])
      expect(Array.isArray(lines) && lines.filter((line) => line.endsWith(bag))).toHaveLength(3);
    expect(modelled(keep('steps', 1), { tolerance: 'bag' }).packed()).toBe('infeasible');
  });
});
