/** What is left out before the program is made: it never changes what the least bag is worth. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Highs } from 'highs';
import type { BagWishes, Minimised, Tolerance } from '../../../shared-types/bag.ts';
import { costsFor } from '../../../renderer/engine/bag/model/costs.ts';
import { leastContents } from '../../../renderer/engine/bag/leastContents.ts';
import { carriedItem } from '../../../renderer/engine/bag/measure.ts';
import { outingWork } from '../../../renderer/engine/bag/outingWork.ts';
import { dominatedPieces } from '../../../renderer/engine/bag/presolve/dominated.ts';
import { usefulCounts } from '../../../renderer/engine/bag/presolve/usefulCounts.ts';
import { withoutImplied } from '../../../renderer/engine/bag/presolve/implied.ts';
import { reduceWork } from '../../../renderer/engine/bag/presolve/reduceWork.ts';
import { outingCosts } from '../../../renderer/engine/bag/solveOuting.ts';
import { loadSolver } from '../../../renderer/engine/bag/solver.ts';
import { unplaceable } from '../../../renderer/engine/bag/unplaceable.ts';
import { noWishes } from '../../../renderer/engine/bag/wishes.ts';
import { planFrom, readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { stackIds } from '../../../renderer/engine/stack/stackTask.ts';
import { eachStack } from '../../../renderer/engine/stack/ways.ts';
import { randomPlan } from '../../reference/randomPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

let highs: Highs;
beforeAll(async () => {
  highs = await loadSolver();
});

function worked(edit: Edit, tolerance: Tolerance = 'nothing', wishes: Partial<BagWishes> = {}) {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const [outing] = plan.outings;
  if (!outing) throw new Error('no outing');
  return { plan, work: outingWork(plan, outing, { tolerance, wishes: { ...noWishes, ...wishes } }) };
}

const socketsOf = (ids: ReadonlySet<string>): string[] => ['S-9/16', 'S-9/16-12', 'A-12'].filter((id) => ids.has(id));

const dropped = (edit: Edit, tolerance: Tolerance = 'nothing', minimise: Minimised = 'mass') =>
  socketsOf(dominatedPieces(worked(edit, tolerance).work, minimise));

const loosenOnly = keep('steps', 1);
const [loosen, tighten] = smallPlan().steps;
const onHand = (count: number): Edit =>
  all(...['sockets[0]', 'sockets[1]', 'drivers[0]'].map((item) => put(`catalog.${item}.onHand`, count)));

describe('a piece that another stands in for', () => {
  it('is left out where the other does all it does and costs no more', () => {
    expect(dropped(loosenOnly)).toEqual(['S-9/16-12']);
    // Twelve points come first by their ids where nothing is loosened.
    const named = put('catalog.sockets[1].id', 'A-12');
    expect(dropped(all(named, put('steps', [tighten])))).toEqual(['S-9/16']);
    expect(dropped(all(named, loosenOnly))).toEqual(['A-12']);
  });

  it.each<[string, Edit]>([
    ['lighter', put('catalog.sockets[1].mass', '59 g')],
    ['longer, within the hole', put('catalog.sockets[1].length', '1.5 in')],
    ['of use where the other is too weak', put('catalog.sockets[0].ratedTorque', '30 lbf·ft')],
    ['of use where the other is too wide', put('catalog.sockets[0].outsideDiameter', '2 in')],
    ['of another square', put('catalog.sockets[1].drive', '1/2 in')],
  ])('stays where it is %s', (_name, edit) => {
    expect(dropped(all(loosenOnly, edit))).not.toContain('S-9/16-12');
  });

  it('stays where it counts less against a limit of some bag', () => {
    const tethered = all(loosenOnly, put('catalog.sockets[0].tethers', 1));
    expect(dropped(tethered)).toContain('S-9/16-12');
    expect(dropped(all(tethered, put('catalog.bags[0].tetherPoints', 9)))).not.toContain('S-9/16-12');
    const sized = all(loosenOnly, put('catalog.sockets[0].size', '2 in'), put('catalog.sockets[1].size', '1.5 in'));
    expect(dropped(sized)).toContain('S-9/16-12');
    expect(dropped(all(sized, put('catalog.bags[0].sizeMax', '9 in')))).not.toContain('S-9/16-12');
    const heavy = all(loosenOnly, put('catalog.sockets[0].mass', '61 g'), put('catalog.bags[0].massMax', undefined));
    expect(dropped(heavy, 'nothing', 'count')).toContain('S-9/16-12');
    expect(dropped(all(heavy, put('catalog.bags[0].massMax', '4 kg')), 'nothing', 'count')).not.toContain('S-9/16-12');
  });

  it('stays where a bar swings with it alone', () => {
    const swing = put('steps[0].access.swingDeg', 45);
    expect(dropped(all(loosenOnly, swing))).toContain('S-9/16-12');
    const bar = all(loosenOnly, swing, put('catalog.drivers[0].stepDeg', undefined));
    expect(dropped(bar)).not.toContain('S-9/16-12');
    expect(dropped(all(bar, put('steps[0].access.swingDeg', 60)))).toContain('S-9/16-12');
  });

  it('stays where the others are fewer than are used at one time', () => {
    const held = put('steps', [{ ...tighten, hold: { fastener: 'F1' } }]);
    expect(dropped(held)).not.toContain('S-9/16-12');
    expect(dropped(all(held, put('catalog.sockets[0].onHand', 2)))).toContain('S-9/16-12');
    const slotted = put(
      'steps',
      ['Lead', 'Second'].map((role) => ({ ...loosen, id: role, role, slot: 's' })),
    );
    expect(dropped(slotted)).not.toContain('S-9/16-12');
    expect(dropped(all(slotted, put('catalog.sockets[0].onHand', 2)))).toContain('S-9/16-12');
  });

  it('stays where it may be needed for a loss', () => {
    expect(dropped(loosenOnly, 'piece')).not.toContain('S-9/16-12');
    expect(dropped(all(loosenOnly, put('catalog.sockets[0].onHand', 2)), 'piece')).toContain('S-9/16-12');
    const two = all(
      loosenOnly,
      put('catalog.bags', [{ id: 'B-1' }, { id: 'B-2' }]),
      put('outings[0].bags', ['B-1', 'B-2']),
    );
    // With a bag lost, two in all are of use: the third is one to exchange for.
    expect(dropped(all(two, onHand(2)), 'bag')).not.toContain('S-9/16-12');
    expect(dropped(all(two, onHand(3)), 'bag')).toContain('S-9/16-12');
  });

  it('stays, with bags of roles, unless more of the other are on hand than are of use', () => {
    const bags = all(
      loosenOnly,
      put('catalog.bags', [{ id: 'B-1' }, { id: 'B-L', role: 'Lead' }]),
      put('outings[0].bags', ['B-1', 'B-L']),
    );
    expect(dropped(bags)).not.toContain('S-9/16-12');
    expect(dropped(all(bags, onHand(2)))).toContain('S-9/16-12');
  });

  it('stays where it is kept', () => {
    const { work } = worked(loosenOnly, 'nothing', { keep: [{ id: 'S-9/16-12', quantity: 1 }] });
    expect(reduceWork(work, 'mass').dropped.has('S-9/16-12')).toBe(false);
    expect(reduceWork(worked(loosenOnly).work, 'mass').dropped.has('S-9/16-12')).toBe(true);
  });

  it('is not stood in for by what is forbidden', () => {
    const { work } = worked(loosenOnly, 'nothing', { forbid: [{ id: 'S-9/16' }] });
    expect(socketsOf(dominatedPieces(work, 'mass'))).toEqual([]);
  });
});

/** Random plans, outing by outing, as far as each step has a stack and a bag for it. */
function randomWorks(from: number, count: number) {
  return Array.from({ length: count }, (_, index) => from + index).flatMap((seed) => {
    const { plan: source, options } = randomPlan(seed);
    const { minimise, tolerance, keep: kept, forbid, spares } = options;
    const plan = readPlan(JSON.stringify(source));
    return plan.outings.flatMap((outing) => {
      const work = outingWork(plan, outing, { tolerance, wishes: { keep: kept, forbid, spares } });
      return unplaceable(plan, work, reduceWork(work, minimise)).length > 0 ? [] : [{ seed, plan, work, minimise }];
    });
  });
}

describe('on random plans', () => {
  it('the least bag is worth the same without what is left out', () => {
    const differing: number[] = [];
    let less = 0;
    for (const { seed, plan, work, minimise } of randomWorks(1, 70)) {
      const reduced = reduceWork(work, minimise);
      const whole = {
        work,
        all: work.groups,
        groups: work.groups,
        standing: work.tolerance === 'nothing' ? [] : work.groups,
        dropped: new Set<string>(),
        useful: usefulCounts(work),
      };
      if (reduced.dropped.size > 0 || reduced.groups.length < work.groups.length) less += 1;
      const value = (of: typeof whole | typeof reduced): number | null => {
        const costs = outingCosts(plan, of, minimise);
        const { contents } = leastContents(highs, plan, of, { costs, flowsMost: seed % 2 === 0 ? -1 : undefined });
        if (!contents) return null;
        const bags = new Set(contents.map(({ bag }) => bag));
        const own = minimise === 'mass' ? [...bags].reduce((sum, bag) => sum + bag.massKg, 0) : 0;
        const each = (item: (typeof contents)[number]['item']): number =>
          minimise === 'mass' ? item.massKg : minimise === 'count' ? 1 : (item.volumeL ?? Number.NaN);
        return contents.reduce((sum, { item, quantity }) => sum + each(item) * quantity, own);
      };
      const [with_, without] = [value(whole), value(reduced)];
      const same = with_ === null || without === null ? with_ === without : Math.abs(with_ - without) < 1e-9;
      if (!same) differing.push(seed);
    }
    expect(less).toBeGreaterThan(20);
    expect(differing).toEqual([]);
  });

  it('each group left out is done by what does one that is left', () => {
    const wrong: number[] = [];
    let implied = 0;
    for (const { seed, work } of randomWorks(71, 80)) {
      const left = withoutImplied(work.groups);
      const stacksOf = (of: (typeof left)[number]): string[][] => [...eachStack(of.ways)].map(stackIds);
      const often = (ids: readonly string[], id: string): number => ids.filter((other) => other === id).length;
      for (const group of work.groups.filter((one) => !left.includes(one))) {
        implied += 1;
        const own = stacksOf(group);
        const answers = left.some((other) =>
          stacksOf(other).every((large) =>
            own.some((small) => small.every((id) => often(small, id) <= often(large, id))),
          ),
        );
        if (!answers) wrong.push(seed);
      }
    }
    expect(implied).toBeGreaterThan(10);
    expect(wrong).toEqual([]);
  });
});

describe('a group that another answers for', () => {
  const left = (...steps: object[]) =>
    withoutImplied(worked(put('steps', steps)).work.groups).map((group) => group.steps.map(({ id }) => id));

  it('is one with the same stacks and more', () => {
    const weak = { ...loosen, id: 'weak', demand: '10 lbf·ft' };
    expect(left(loosen ?? {}, weak)).toEqual([['loosen']]);
    expect(left(weak, loosen ?? {})).toEqual([['weak']]);
    const wide = { ...loosen, id: 'wide', access: { depth: '2 in' } };
    const narrow = { ...loosen, id: 'narrow', access: { depth: '5 in', clearDiameter: '0.9 in' } };
    expect(left(wide, narrow)).toEqual([['narrow']]);
  });

  it('is not one for which the pieces are others, or which holds beside', () => {
    expect(left(loosen ?? {}, tighten ?? {})).toHaveLength(2);
    const holds = { ...loosen, id: 'holds', hold: { fastener: 'F1' } };
    expect(left(loosen ?? {}, holds)).toEqual([['holds']]);
    const deep = { ...loosen, id: 'deep', access: { depth: '5 in', clearDiameter: '1 in' } };
    // With X-6 the deep one does both; what does the shallow one, with X-3, does not do the deep one.
    expect(left(loosen ?? {}, deep)).toEqual([['deep']]);
  });
});

describe('what a piece costs in the program', () => {
  const { plan } = worked(() => undefined);
  const itemsOf = (...massesKg: number[]) =>
    massesKg.map((massKg, n) => ({ ...carriedItem(plan.carried, 'X-3'), id: `p${n}`, massKg }));
  const costed = (massesKg: number[], bagKg = 0, most = 9, minimise: Minimised = 'mass') => {
    const items = itemsOf(...massesKg);
    const bags = [...plan.bags.values()].map((bag) => ({ ...bag, massKg: bagKg }));
    const costs = costsFor(items, bags, minimise, most);
    return { costs, each: items.map((item) => costs.ofItem(item)), bag: Math.max(...bags.map(costs.ofBag)) };
  };
  const pound = 0.45359237;

  it.each<[string, number[], number[]]>([
    ['grams', [0.3, 0.9, 0.11], [30, 90, 11]],
    ['milligrams', [0.0003, 0.000901], [300, 901]],
    ['pounds', [1.25 * pound, 2 * pound], [5, 8]],
    ['ounces', [(3 / 16) * pound, (10.5 / 16) * pound], [2, 7]],
  ])('is whole in %s, and one for the piece', (_unit, massesKg, units) => {
    const { each, costs } = costed(massesKg);
    expect(costs.countsPieces).toBe(true);
    // Nine pieces can be packed, so ten are one unit.
    expect(each).toEqual(units.map((unit) => unit * 10 + 1));
  });

  it('lets fewer pieces decide among equals and never against a unit', () => {
    const { each } = costed([0.2, 0.1, 0.001]);
    const [two = 0, one = 0, gram = 0] = each;
    expect(two).toBeLessThan(2 * one);
    expect(two + gram).toBeGreaterThan(2 * one);
    // Eight pieces in place of one, a gram lighter in all.
    const { each: small } = costed([0.161, 0.02]);
    expect(8 * (small[1] ?? 0)).toBeLessThan(small[0] ?? 0);
  });

  it('comes back as the objective, what lies between whole units rounded down', () => {
    const { costs, each, bag: own } = costed([0.3, 0.9], 0.5);
    expect(own).toBe(5 * 10);
    expect(costs.back(own + (each[0] ?? 0))).toBeCloseTo(0.8, 12);
    expect(costs.back(own + (each[0] ?? 0) - 2)).toBeCloseTo(0.7, 12);
    expect(costs.back(-Infinity)).toBe(0);
  });

  it('is in grams with no count where masses have no unit in common, and one where pieces count', () => {
    const { costs, each, bag: own } = costed([Math.PI / 10, 0.3], 0.25);
    expect(costs.countsPieces).toBe(false);
    expect(each[0]).toBeCloseTo(100 * Math.PI, 9);
    expect([each[1], own, costs.back(300)]).toEqual([300, 250, 0.3]);
    expect(costed([Math.PI, 1], 1, 9, 'count')).toMatchObject({ each: [1, 1], bag: 0 });
    // Past what is told apart: many pieces of many units.
    expect(costed([100.0001, 0.0003], 0, 5000).costs.countsPieces).toBe(false);
  });
});
