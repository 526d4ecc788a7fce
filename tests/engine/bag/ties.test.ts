/** Of answers that are equally good the same one is always given, with nothing idle in it. */
import { describe, expect, it } from 'vitest';
import { because } from '../../../renderer/engine/bag/because.ts';
import { bagModel } from '../../../renderer/engine/bag/bagModel.ts';
import { addedUp, countsOf, mostOf } from '../../../renderer/engine/bag/counts.ts';
import type { OutingAnswer } from '../../../renderer/engine/bag/outingAnswer.ts';
import { inCatalogOrder, massKg, objectiveValue, readAnswer } from '../../../renderer/engine/bag/outingAnswer.ts';
import type { Choice, OutingWork } from '../../../renderer/engine/bag/outingWork.ts';
import { outingWork } from '../../../renderer/engine/bag/outingWork.ts';
import { settle } from '../../../renderer/engine/bag/settle.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { ResolvedPlan } from '../../../renderer/engine/plan/resolved.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

interface Worked {
  plan: ResolvedPlan;
  work: OutingWork;
}

function worked(edit: Edit): Worked {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const [outing] = plan.outings;
  if (!outing) throw new Error('no outing');
  return { plan, work: outingWork(plan, outing) };
}

const idsOf = (choices: readonly Choice[] | null | undefined) => choices?.map(({ ids }) => ids.join(' '));

/** What lies where: `2 X-3 in B-1`. */
function contents({ plan }: Worked, lines: readonly string[]): OutingAnswer['contents'] {
  return lines.map((line) => {
    const [quantity, id = '', , bagId = ''] = line.split(' ');
    const [item, bag] = [plan.carried.get(id), plan.bags.get(bagId)];
    if (!item || !bag) throw new Error(`no ${line}`);
    return { item, bag, quantity: Number(quantity) };
  });
}

/** An answer in which each group takes its stack, and hold, of the number said. */
function answerOf(
  of: Worked,
  lines: readonly string[],
  numbers: readonly (readonly [number, number?])[],
): OutingAnswer {
  const chosen = of.work.groups.map((group, n) => {
    const [stack, hold] = numbers[n] ?? [0];
    const choice = group.stacks[stack];
    if (!choice) throw new Error('no such stack');
    return { group, stack: choice, hold: hold === undefined ? null : (group.holds?.[hold] ?? null) };
  });
  return { contents: contents(of, lines), chosen };
}

const linesOf = (answer: Pick<OutingAnswer, 'contents'>) =>
  answer.contents.map(({ item, bag, quantity }) => `${quantity} ${item.id} in ${bag.id}`);
const stacksOf = (answer: OutingAnswer) =>
  answer.chosen.map(({ stack, hold }) => [stack, hold].flatMap((one) => one?.ids.join(' ') ?? []).join(' | '));

const loosenOnly = all(keep('steps', 1), keep('catalog.extensions', 1));
const everything = ['1 R-38 in B-1', '1 X-3 in B-1', '1 S-9/16 in B-1', '1 S-9/16-12 in B-1'];
const [loosen, tighten, cap] = smallPlan().steps;
const ownBags = [{ id: 'B-1' }, { id: 'B-L', role: 'Lead' }, { id: 'B-S', role: 'Second' }];
const threeBags = all(
  put('catalog.bags', ownBags),
  put(
    'outings[0].bags',
    ownBags.map(({ id }) => id),
  ),
);
const plenty = all(
  ...['sockets[0]', 'sockets[1]', 'extensions[0]', 'drivers[0]'].map((item) => put(`catalog.${item}.onHand`, 9)),
);

describe('pieces are counted', () => {
  it('each as often as it is named, together, and at the most', () => {
    const [one, two] = [countsOf(['a', 'b', 'a', 'a']), countsOf(['a', 'c', 'c'])];
    expect([...one]).toEqual([
      ['a', 3],
      ['b', 1],
    ]);
    expect(Object.fromEntries(addedUp([one, two]))).toEqual({ a: 4, b: 1, c: 2 });
    expect(Object.fromEntries(mostOf([one, two]))).toEqual({ a: 3, b: 1, c: 2 });
    expect(Object.fromEntries(mostOf([two, one]))).toEqual({ a: 3, b: 1, c: 2 });
  });
});

describe('the ways to do a step', () => {
  it('come six points first where it loosens or holds, by ids where it tightens, when they weigh the same', () => {
    const named = all(put('catalog.sockets[1].id', 'A-12'), keep('catalog.extensions', 1));
    const { groups } = worked(all(named, put('steps[1].hold', { fastener: 'F1' }))).work;
    expect(idsOf(groups[0]?.stacks)).toEqual(['R-38 X-3 S-9/16', 'R-38 X-3 A-12']);
    expect(idsOf(groups[1]?.stacks)).toEqual(['TT-2 X-3 A-12', 'TT-2 X-3 S-9/16']);
    expect(idsOf(groups[1]?.holds)).toEqual(['R-38 S-9/16', 'R-38 A-12']);
    expect([...(groups[0]?.stacks[0]?.counts ?? [])]).toEqual([
      ['R-38', 1],
      ['X-3', 1],
      ['S-9/16', 1],
    ]);
  });

  it('are asked once for steps that ask the same, but for each where there is none', () => {
    const again = put('steps', [loosen, { ...loosen, id: 'again' }, { ...loosen, id: 'more' }, tighten]);
    const stepsOf = (edit: Edit) => worked(edit).work.groups.map(({ steps }) => steps.map(({ id }) => id));
    expect(stepsOf(again)).toEqual([['loosen', 'again', 'more'], ['tighten']]);
    expect(stepsOf(all(again, keep('catalog.drivers', 0)))).toEqual([['loosen'], ['again'], ['more'], ['tighten']]);
    // One way only is a way.
    expect(stepsOf(all(again, keep('catalog.sockets', 1), keep('catalog.extensions', 1)))).toEqual([
      ['loosen', 'again', 'more'],
      ['tighten'],
    ]);
  });

  it('are kept apart where one step loosens and another tightens with the same stacks', () => {
    const same = all(keep('catalog.drivers', 0), put('catalog.torqueTools[0].loosens', true), keep('steps', 2));
    const { groups } = worked(same).work;
    expect(groups.map(({ steps }) => steps.map(({ id }) => id))).toEqual([['loosen'], ['tighten']]);
    expect(new Set(idsOf(groups[0]?.stacks))).toEqual(new Set(idsOf(groups[1]?.stacks)));
  });

  it('run at once only where another role has the same slot', () => {
    const slotsOf = (...steps: [role: string, slot?: string][]) =>
      worked(
        put(
          'steps',
          steps.map(([role, slot], n) => ({ ...loosen, id: `s${n}`, role, slot })),
        ),
      ).work.groups.map(({ role, slot }) => `${role} ${slot}`);
    expect(slotsOf(['Lead', 's'], ['Second', 's'])).toEqual(['Lead s', 'Second s']);
    expect(slotsOf(['Lead', 's'], ['Second', 't'])).toEqual(['Lead null', 'Second null']);
    expect(slotsOf(['Lead', 's'], ['Lead', 't'])).toEqual(['Lead null', 'Lead null']);
    expect(slotsOf(['Lead', 's'], ['Second'])).toEqual(['Lead null', 'Second null']);
  });
});

describe('a solution as an answer', () => {
  const modelled = () => {
    const { plan, work } = worked(loosenOnly);
    const model = bagModel(plan, work, 'mass');
    return { model, columns: Array.from({ length: model.program.modelData().numCols }, () => 0) };
  };

  it('names the stacks taken and what lies in the bags, and no line of nothing', () => {
    const { model, columns } = modelled();
    const taken = [...columns];
    for (const { item, column } of model.lying) taken[column] = item.id === 'X-3' ? 1 : item.id === 'R-38' ? 2 : 0;
    const second = model.groups[0]?.stacks[1];
    if (!second) throw new Error('no second stack');
    taken[second.column] = 1;
    const answer = readAnswer(model, taken);
    expect(linesOf(answer)).toEqual(['2 R-38 in B-1', '1 X-3 in B-1']);
    expect(stacksOf(answer)).toEqual([second.choice.ids.join(' ')]);
  });

  it('is refused where it has too few columns', () => {
    const { model, columns } = modelled();
    expect(() => readAnswer(model, columns.slice(0, 1))).toThrow(/has no column 1/);
  });

  it('is worth its mass with the bags used, its pieces or its litres', () => {
    const several = worked(all(threeBags, put('catalog.bags[1].mass', '700 g'), put('catalog.bags[2].mass', '50 g')));
    const answer = answerOf(several, ['2 X-3 in B-L', '1 R-38 in B-L', '3 C-1 in B-1'], []);
    expect(massKg(answer)).toBeCloseTo(0.7 + 0.22 + 0.3 + 0.06, 12);
    expect(objectiveValue(answer, 'mass')).toBe(massKg(answer));
    expect(objectiveValue(answer, 'count')).toBe(6);
    const litres = { ...answer, contents: answer.contents.map((l) => ({ ...l, item: { ...l.item, volumeL: 0.5 } })) };
    expect(objectiveValue(litres, 'volume')).toBe(3);
  });

  it('lists bags in the order of the outing and items in that of the catalog', () => {
    const several = worked(threeBags);
    const lines = ['1 S-9/16 in B-S', '1 C-1 in B-1', '1 X-3 in B-S', '1 R-38 in B-L', '1 X-6 in B-1', '2 R-38 in B-1'];
    const sorted = (order: readonly string[]) =>
      linesOf({ contents: inCatalogOrder(several.plan, several.work.bags, answerOf(several, order, [])) });
    const right = ['2 R-38 in B-1', '1 X-6 in B-1', '1 C-1 in B-1', '1 R-38 in B-L', '1 X-3 in B-S', '1 S-9/16 in B-S'];
    expect(sorted(lines)).toEqual(right);
    expect(sorted(lines.toReversed())).toEqual(right);
  });
});

describe('of equal answers', () => {
  it('each step takes the stack of fewest parts that lies in its bags', () => {
    const deep = { ...smallPlan().catalog.sockets[0], id: 'Z-deep', length: '5 in' };
    const of = worked(all(loosenOnly, put('catalog.sockets[1]', deep)));
    const many = ['1 R-38 in B-1', '1 X-3 in B-1', '1 S-9/16 in B-1', '1 Z-deep in B-1'];
    for (const number of [0, 1]) {
      const settled = settle(answerOf(of, many, [[number]]));
      expect(stacksOf(settled)).toEqual(['R-38 Z-deep']);
      expect(linesOf(settled)).toEqual(['1 R-38 in B-1', '1 Z-deep in B-1']);
    }
    const without = settle(answerOf(of, many.slice(0, 3), [[0]]));
    expect(stacksOf(without)).toEqual(['R-38 X-3 S-9/16']);
  });

  it('then six points before twelve where it loosens, and by ids where it tightens', () => {
    const named = all(put('catalog.sockets[1].id', 'A-12'), keep('catalog.extensions', 1), keep('steps', 2));
    const of = worked(named);
    const many = [...everything.slice(0, 3), '1 A-12 in B-1', '1 TT-2 in B-1'];
    for (const numbers of [[[0], [1]] as const, [[1], [0]] as const])
      expect(stacksOf(settle(answerOf(of, many, numbers)))).toEqual(['R-38 X-3 S-9/16', 'TT-2 X-3 A-12']);
  });

  it('then by ids, whatever the order of the catalog', () => {
    const twin = (id: string) => ({ ...smallPlan().catalog.sockets[0], id });
    for (const ids of [
      ['B', 'A', 'C'],
      ['C', 'B', 'A'],
    ]) {
      const of = worked(all(loosenOnly, put('catalog.sockets', ids.map(twin))));
      const many = ['1 R-38 in B-1', '1 X-3 in B-1', ...ids.map((id) => `1 ${id} in B-1`)];
      expect(stacksOf(settle(answerOf(of, many, [[1]])))).toEqual(['R-38 X-3 A']);
    }
  });

  it('a hold is chosen with the stack, so that there are pieces for both', () => {
    const held = { ...tighten, hold: { fastener: 'F1', access: { depth: '1 in' } } };
    const of = worked(all(plenty, keep('catalog.extensions', 1), put('steps', [held])));
    const some = ['1 R-38 in B-1', '1 TT-2 in B-1', '1 X-3 in B-1', '1 S-9/16 in B-1', '1 S-9/16-12 in B-1'];
    expect(stacksOf(settle(answerOf(of, some, [[1, 0]])))).toEqual(['TT-2 X-3 S-9/16 | R-38 S-9/16-12']);
    const more = some.map((line) => line.replace('1 S-9/16 ', '2 S-9/16 '));
    const settled = settle(answerOf(of, more, [[1, 0]]));
    expect(stacksOf(settled)).toEqual(['TT-2 X-3 S-9/16 | R-38 S-9/16']);
    expect(linesOf(settled)).toEqual(['1 R-38 in B-1', '1 TT-2 in B-1', '1 X-3 in B-1', '2 S-9/16 in B-1']);
  });

  it('a role takes what lies in its own bags and in nobody’s, not in another’s', () => {
    const of = worked(all(loosenOnly, threeBags));
    const own = ['1 R-38 in B-1', '1 X-3 in B-L', '1 S-9/16 in B-S', '1 S-9/16-12 in B-L'];
    expect(stacksOf(settle(answerOf(of, own, [[1]])))).toEqual(['R-38 X-3 S-9/16-12']);
  });
});

describe('a piece that nobody needs', () => {
  it('is left at home, one by one, and gear never', () => {
    const of = worked(all(loosenOnly, plenty));
    const idle = ['3 R-38 in B-1', '2 X-3 in B-1', '1 S-9/16 in B-1', '2 S-9/16-12 in B-1', '3 C-1 in B-1'];
    expect(linesOf(settle(answerOf(of, idle, [[0]])))).toEqual([
      '1 R-38 in B-1',
      '1 X-3 in B-1',
      '1 S-9/16 in B-1',
      '3 C-1 in B-1',
    ]);
  });

  it('is left out of one bag and kept in another', () => {
    const of = worked(all(loosenOnly, plenty, threeBags));
    const twice = ['1 R-38 in B-1', '1 R-38 in B-L', '1 X-3 in B-1', '1 S-9/16 in B-1'];
    expect(linesOf(settle(answerOf(of, twice, [[0]])))).toEqual(['1 R-38 in B-L', '1 X-3 in B-1', '1 S-9/16 in B-1']);
  });

  const slotted = all(
    plenty,
    keep('catalog.extensions', 1),
    keep('catalog.sockets', 1),
    threeBags,
    put(
      'steps',
      ['Lead', 'Second', 'Lead'].map((role, n) => ({ ...loosen, id: `s${n}`, role, slot: n < 2 ? 's' : undefined })),
    ),
  );
  const kept = (edit: Edit, ...lines: string[]) => {
    const of = worked(all(slotted, edit));
    return linesOf(settle(answerOf(of, lines, []))).filter((line) => line.includes('R-38'));
  };
  const unchanged: Edit = () => undefined;

  it('is one that the roles of a slot do not need together', () => {
    const others = ['2 X-3 in B-1', '2 S-9/16 in B-1'];
    expect(kept(unchanged, '4 R-38 in B-1', ...others)).toEqual(['2 R-38 in B-1']);
    expect(kept(unchanged, '2 R-38 in B-1', ...others)).toEqual(['2 R-38 in B-1']);
    expect(kept(unchanged, '2 R-38 in B-1', '1 R-38 in B-L', ...others)).toEqual(['1 R-38 in B-1', '1 R-38 in B-L']);
    expect(kept(unchanged, '1 R-38 in B-S', '2 R-38 in B-L', ...others)).toEqual(['1 R-38 in B-S', '1 R-38 in B-L']);
    // The other role's bag serves nobody else.
    expect(kept(unchanged, '1 R-38 in B-1', '3 R-38 in B-S', ...others)).toEqual(['1 R-38 in B-1', '1 R-38 in B-S']);
  });

  it('nor the steps of a role one after another', () => {
    const twoOfSocket = all(put('steps[0].access', { depth: '7 in' }), put('steps[2].slot', 's'));
    const of = worked(all(slotted, twoOfSocket));
    const lines = ['9 X-3 in B-1', '2 R-38 in B-1', '2 S-9/16 in B-1'];
    // Lead needs two of X-3 once and one another time, Second one: three together.
    expect(linesOf(settle(answerOf(of, lines, [])))[0]).toBe('3 X-3 in B-1');
  });
});

describe('why an item lies in a bag', () => {
  const reasons = (edit: Edit, lines: readonly string[], numbers: readonly (readonly [number, number?])[] = []) => {
    const of = worked(edit);
    const answer = answerOf(of, lines, numbers);
    const why = because(of.plan, of.work, answer);
    return Object.fromEntries(answer.contents.map((line, n) => [lines[n], why(line)]));
  };

  it('is the steps that use it and draw on that bag', () => {
    const two = put('steps', [loosen, { ...loosen, id: 'other', role: 'Second' }, cap]);
    const lines = ['1 R-38 in B-1', '1 R-38 in B-L', '1 S-9/16 in B-1', '2 C-1 in B-S', '1 X-6 in B-1'];
    expect(reasons(all(two, threeBags), lines)).toEqual({
      '1 R-38 in B-1': ['other'],
      '1 R-38 in B-L': ['loosen'],
      '1 S-9/16 in B-1': ['loosen', 'other'],
      '2 C-1 in B-S': ['cap'],
      '1 X-6 in B-1': [],
    });
  });

  it('is, in nobody’s bag, only where the role’s own hold too few', () => {
    const held = { ...tighten, hold: { fastener: 'F1', access: { depth: '1 in' } } };
    const edit = all(
      plenty,
      threeBags,
      keep('catalog.extensions', 1),
      keep('catalog.sockets', 1),
      put('steps', [held]),
    );
    // Stack and hold need two of the socket.
    const inOwn = (own: number) =>
      reasons(edit, ['1 S-9/16 in B-1', `${own} S-9/16 in B-L`], [[0, 0]])['1 S-9/16 in B-1'];
    expect([1, 2, 3].map(inOwn)).toEqual([['tighten'], [], []]);
  });
});
