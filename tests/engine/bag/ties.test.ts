/** Of answers that are equally good the same one is always given, with nothing idle in it. */
import { describe, expect, it } from 'vitest';
import type { BagWishes, Tolerance } from '../../../shared-types/bag.ts';
import { because } from '../../../renderer/engine/bag/because.ts';
import { addedUp, countsOf, mostOf } from '../../../renderer/engine/bag/counts.ts';
import type { OutingAnswer } from '../../../renderer/engine/bag/outingAnswer.ts';
import { inCatalogOrder, massKg, objectiveValue } from '../../../renderer/engine/bag/outingAnswer.ts';
import type { OutingWork } from '../../../renderer/engine/bag/outingWork.ts';
import { outingWork } from '../../../renderer/engine/bag/outingWork.ts';
import type { Option } from '../../../renderer/engine/bag/settle/options.ts';
import { optionsFrom } from '../../../renderer/engine/bag/settle/options.ts';
import { settle as settled } from '../../../renderer/engine/bag/settle/settle.ts';
import { noWishes } from '../../../renderer/engine/bag/wishes.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { ResolvedPlan } from '../../../renderer/engine/plan/resolved.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

interface Worked {
  plan: ResolvedPlan;
  work: OutingWork;
}

function worked(edit: Edit, tolerance: Tolerance = 'nothing', wishes: Partial<BagWishes> = {}): Worked {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const [outing] = plan.outings;
  if (!outing) throw new Error('no outing');
  return { plan, work: outingWork(plan, outing, { tolerance, wishes: { ...noWishes, ...wishes } }) };
}

const textOf = ({ stack, hold }: Pick<Option, 'stack' | 'hold'>) =>
  [stack, hold].flatMap((one) => one?.ids.join(' ') ?? []).join(' | ');

/** Every way to serve each group with the whole stock. */
function allOptions({ plan, work }: Worked): Option[][] {
  const stock = new Map([...plan.carried.values()].map(({ id, onHand }) => [id, onHand]));
  return work.groups.map((group) => optionsFrom(work.stock, group, stock));
}

/** What lies where: `2 X-3 in B-1`. */
function contents({ plan }: Worked, lines: readonly string[]): OutingAnswer['contents'] {
  return lines.map((line) => {
    const [quantity, id = '', , bagId = ''] = line.split(' ');
    const [item, bag] = [plan.carried.get(id), plan.bags.get(bagId)];
    if (!item || !bag) throw new Error(`no ${line}`);
    return { item, bag, quantity: Number(quantity) };
  });
}

const settle = (of: Worked, lines: readonly string[]) => settled(of.work, contents(of, lines));

/** An answer in which each step takes the stack, and hold, said. */
function answerOf(of: Worked, lines: readonly string[], stacks: Record<string, string> = {}): OutingAnswer {
  const options = allOptions(of);
  const chosen: OutingAnswer['chosen'] = new Map(
    of.work.groups.flatMap((group, n) =>
      group.steps.flatMap((step) => {
        const said = stacks[step.id];
        if (said === undefined) return [];
        const option = options[n]?.find((one) => textOf(one) === said);
        if (!option) throw new Error(`no ${said} for ${step.id}`);
        return [[step.id, { step, stack: option.stack, hold: option.hold }] as const];
      }),
    ),
  );
  return { contents: contents(of, lines), chosen };
}

const linesOf = (answer: Pick<OutingAnswer, 'contents'>) =>
  answer.contents.map(({ item, bag, quantity }) => `${quantity} ${item.id} in ${bag.id}`);
const stacksOf = (answer: OutingAnswer) => [...answer.chosen.values()].map(textOf);

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
  it('come six points first where it loosens or holds, by ids where it tightens, when they have as many parts', () => {
    const named = all(put('catalog.sockets[1].id', 'A-12'), keep('catalog.extensions', 1));
    const [loosens, tightens] = allOptions(worked(all(named, put('steps[1].hold', { fastener: 'F1' }))));
    expect(loosens?.map(textOf)).toEqual(['R-38 X-3 S-9/16', 'R-38 X-3 A-12']);
    // One piece of each socket is there: either turns, the other holds.
    expect(tightens?.map(textOf)).toEqual(['TT-2 X-3 A-12 | R-38 S-9/16', 'TT-2 X-3 S-9/16 | R-38 A-12']);
    expect([...(loosens?.[0]?.stack.counts ?? [])]).toEqual([
      ['R-38', 1],
      ['X-3', 1],
      ['S-9/16', 1],
    ]);
  });

  it('are those that a supply has, each piece once for each that there is', () => {
    const { work } = worked(all(loosenOnly, plenty, put('steps[0].access.depth', '7 in')));
    const [group] = work.groups;
    const from = (extensions: number, sockets = 1) =>
      group &&
      optionsFrom(
        work.stock,
        group,
        new Map([
          ['R-38', 1],
          ['X-3', extensions],
          ['S-9/16', sockets],
        ]),
      ).map(textOf);
    expect([from(1), from(2), from(2, 0)]).toEqual([[], ['R-38 X-3 X-3 S-9/16'], []]);
  });

  it('are asked once for steps that ask the same', () => {
    const again = put('steps', [loosen, { ...loosen, id: 'again' }, { ...loosen, id: 'more' }, tighten]);
    const stepsOf = (edit: Edit) => worked(edit).work.groups.map(({ steps }) => steps.map(({ id }) => id));
    expect(stepsOf(again)).toEqual([['loosen', 'again', 'more'], ['tighten']]);
    expect(stepsOf(all(again, keep('catalog.drivers', 0)))).toEqual([['loosen', 'again', 'more'], ['tighten']]);
    expect(stepsOf(all(again, put('steps[1].role', 'Second')))).toEqual([['loosen', 'more'], ['again'], ['tighten']]);
    expect(stepsOf(all(again, put('steps[1].demand', '43 lbf·ft')))).toEqual([
      ['loosen', 'more'],
      ['again'],
      ['tighten'],
    ]);
    expect(stepsOf(all(again, put('steps[1].hold', { fastener: 'F1' })))).toEqual([
      ['loosen', 'more'],
      ['again'],
      ['tighten'],
    ]);
  });

  it('are kept apart where one step loosens and another tightens with the same stacks', () => {
    const same = all(keep('catalog.drivers', 0), put('catalog.torqueTools[0].loosens', true), keep('steps', 2));
    const of = worked(same);
    expect(of.work.groups.map(({ steps }) => steps.map(({ id }) => id))).toEqual([['loosen'], ['tighten']]);
    const [loosens, tightens] = allOptions(of);
    expect(new Set(loosens?.map(textOf))).toEqual(new Set(tightens?.map(textOf)));
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

describe('an answer', () => {
  it('is worth its mass with the bags used, its pieces or its litres', () => {
    const several = worked(all(threeBags, put('catalog.bags[1].mass', '700 g'), put('catalog.bags[2].mass', '50 g')));
    const answer = answerOf(several, ['2 X-3 in B-L', '1 R-38 in B-L', '3 C-1 in B-1']);
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
      linesOf({ contents: inCatalogOrder(several.plan, several.work.bags, answerOf(several, order)) });
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
    const few = settle(of, many);
    expect(stacksOf(few)).toEqual(['R-38 Z-deep']);
    expect(linesOf(few)).toEqual(['1 R-38 in B-1', '1 Z-deep in B-1']);
    expect(stacksOf(settle(of, many.slice(0, 3)))).toEqual(['R-38 X-3 S-9/16']);
  });

  it('then six points before twelve where it loosens, and by ids where it tightens', () => {
    const named = all(put('catalog.sockets[1].id', 'A-12'), keep('catalog.extensions', 1));
    const many = [...everything.slice(0, 3), '1 A-12 in B-1'];
    expect(stacksOf(settle(worked(all(named, keep('steps', 1))), many))).toEqual(['R-38 X-3 S-9/16']);
    const tightens = worked(all(named, put('steps', [tighten])));
    expect(stacksOf(settle(tightens, ['1 TT-2 in B-1', ...many.slice(1)]))).toEqual(['TT-2 X-3 A-12']);
  });

  it('then so that its role changes stacks least often', () => {
    const short = all(put('catalog.sockets[0].innerDepth', '0.2 in'), keep('catalog.extensions', 1));
    const steps = [tighten, { ...tighten, id: 'over', access: { ...tighten?.access, protrusion: '0.5 in' } }];
    const many = ['1 TT-2 in B-1', '1 X-3 in B-1', '1 S-9/16 in B-1', '1 S-9/16-12 in B-1'];
    const of = worked(all(short, put('steps', steps)));
    expect(settle(of, many)).toMatchObject({ contents: [{}, {}, {}] });
    expect(stacksOf(settle(of, many))).toEqual(['TT-2 X-3 S-9/16-12', 'TT-2 X-3 S-9/16-12']);
    // Where the other socket must come along for somebody else it is still not taken up in between.
    const second = { ...loosen, id: 'else', role: 'Second', access: { depth: '2 in', clearDiameter: '0.7 in' } };
    const narrow = all(short, put('catalog.sockets[0].outsideDiameter', '0.69 in'), put('steps', [...steps, second]));
    expect(stacksOf(settle(worked(narrow), ['1 R-38 in B-1', ...many]))).toEqual([
      'TT-2 X-3 S-9/16-12',
      'TT-2 X-3 S-9/16-12',
      'R-38 X-3 S-9/16',
    ]);
  });

  it('then by ids, whatever the order of the catalog', () => {
    const twin = (id: string) => ({ ...smallPlan().catalog.sockets[0], id });
    for (const ids of [
      ['B', 'A', 'C'],
      ['C', 'B', 'A'],
    ]) {
      const of = worked(all(loosenOnly, put('catalog.sockets', ids.map(twin))));
      const one = settle(of, ['1 R-38 in B-1', '1 X-3 in B-1', ...ids.map((id) => `1 ${id} in B-1`)]);
      expect(stacksOf(one)).toEqual(['R-38 X-3 A']);
      expect(linesOf(one)).toEqual(['1 R-38 in B-1', '1 X-3 in B-1', '1 A in B-1']);
    }
  });

  it('a hold is chosen with the stack, so that there are pieces for both', () => {
    const held = { ...tighten, hold: { fastener: 'F1', access: { depth: '1 in' } } };
    const of = worked(all(plenty, keep('catalog.extensions', 1), put('steps', [held])));
    const some = ['1 R-38 in B-1', '1 TT-2 in B-1', '1 X-3 in B-1', '1 S-9/16 in B-1', '1 S-9/16-12 in B-1'];
    expect(stacksOf(settle(of, some))).toEqual(['TT-2 X-3 S-9/16-12 | R-38 S-9/16']);
    const more = settle(
      of,
      some.map((line) => line.replace('1 S-9/16 ', '2 S-9/16 ')),
    );
    expect(stacksOf(more)).toEqual(['TT-2 X-3 S-9/16 | R-38 S-9/16']);
    expect(linesOf(more)).toEqual(['1 R-38 in B-1', '1 TT-2 in B-1', '1 X-3 in B-1', '2 S-9/16 in B-1']);
  });

  it('a role takes what lies in its own bags and in nobody’s, not in another’s', () => {
    const of = worked(all(loosenOnly, threeBags));
    const own = ['1 R-38 in B-1', '1 X-3 in B-L', '1 S-9/16 in B-S', '1 S-9/16-12 in B-L'];
    expect(stacksOf(settle(of, own))).toEqual(['R-38 X-3 S-9/16-12']);
  });
});

describe('a piece that nobody needs', () => {
  it('is left at home, one by one, and gear never', () => {
    const of = worked(all(loosenOnly, plenty));
    const idle = ['3 R-38 in B-1', '2 X-3 in B-1', '1 S-9/16 in B-1', '2 S-9/16-12 in B-1', '3 C-1 in B-1'];
    expect(linesOf(settle(of, idle))).toEqual(['1 R-38 in B-1', '1 X-3 in B-1', '1 S-9/16 in B-1', '3 C-1 in B-1']);
  });

  it('is left out of one bag and kept in another', () => {
    const of = worked(all(loosenOnly, plenty, threeBags));
    const twice = ['1 R-38 in B-1', '1 R-38 in B-L', '1 X-3 in B-1', '1 S-9/16 in B-1'];
    expect(linesOf(settle(of, twice))).toEqual(['1 R-38 in B-L', '1 X-3 in B-1', '1 S-9/16 in B-1']);
  });

  it('is the heavier of those that stand in for each other, then the one not used', () => {
    const heavy = put('catalog.sockets[0].mass', '90 g');
    const lines = ['1 R-38 in B-1', '1 X-3 in B-1', '1 S-9/16 in B-1', '1 S-9/16-12 in B-1'];
    const byIds = worked(all(put('steps', [tighten]), heavy));
    expect(linesOf(settle(byIds, ['1 TT-2 in B-1', ...lines.slice(1)]))).toEqual([
      '1 TT-2 in B-1',
      '1 X-3 in B-1',
      '1 S-9/16-12 in B-1',
    ]);
    expect(linesOf(settle(worked(all(loosenOnly, plenty)), lines))).toEqual(lines.slice(0, 3));
  });

  it('stays where it is kept, or there for a loss', () => {
    const lines = ['2 R-38 in B-1', '2 X-3 in B-1', '1 S-9/16 in B-1', '1 S-9/16-12 in B-1'];
    const keepTwo = { keep: [{ id: 'X-3', quantity: 2 }] };
    expect(linesOf(settle(worked(all(loosenOnly, plenty), 'nothing', keepTwo), lines))).toEqual([
      '1 R-38 in B-1',
      '2 X-3 in B-1',
      '1 S-9/16 in B-1',
    ]);
    const lost = worked(all(loosenOnly, plenty), 'piece');
    expect(linesOf(settle(lost, lines))).toEqual(lines);
    expect(
      linesOf(
        settle(
          lost,
          lines.map((line) => line.replace(/^./, '3')),
        ),
      ),
    ).toEqual(['2 R-38 in B-1', '2 X-3 in B-1', '2 S-9/16 in B-1']);
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
    return linesOf(settle(of, lines)).filter((line) => line.includes('R-38'));
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
    expect(linesOf(settle(of, lines))[0]).toBe('3 X-3 in B-1');
  });
});

describe('why an item lies in a bag', () => {
  const reasons = (of: Worked, lines: readonly string[], stacks: Record<string, string> = {}) => {
    const answer = answerOf(of, lines, stacks);
    const why = because(of.work, answer);
    return Object.fromEntries(answer.contents.map((line, n) => [lines[n], why(line)]));
  };
  const plain = 'R-38 X-3 S-9/16';

  it('is the steps that use it and draw on that bag', () => {
    const two = put('steps', [loosen, { ...loosen, id: 'other', role: 'Second' }, cap]);
    const lines = ['1 R-38 in B-1', '1 R-38 in B-L', '1 S-9/16 in B-1', '2 C-1 in B-S', '1 X-6 in B-1'];
    expect(reasons(worked(all(two, threeBags)), lines, { loosen: plain, other: plain })).toEqual({
      '1 R-38 in B-1': ['other'],
      '1 R-38 in B-L': ['loosen'],
      '1 S-9/16 in B-1': ['loosen', 'other'],
      '2 C-1 in B-S': ['cap'],
      '1 X-6 in B-1': [],
    });
  });

  it('is, of a spare, the steps that would use it after a loss, and no others', () => {
    const near = { ...loosen, id: 'near', access: { depth: '1 in' } };
    const of = worked(all(plenty, put('steps', [loosen, near])), 'piece');
    const lines = ['2 R-38 in B-1', '1 X-3 in B-1', '1 X-6 in B-1', '1 S-9/16 in B-1', '1 S-9/16-12 in B-1'];
    expect(reasons(of, lines, { loosen: plain, near: 'R-38 S-9/16' })).toEqual({
      '2 R-38 in B-1': ['loosen', 'near'],
      '1 X-3 in B-1': ['loosen'],
      '1 X-6 in B-1': ['loosen'],
      '1 S-9/16 in B-1': ['loosen', 'near'],
      '1 S-9/16-12 in B-1': ['loosen', 'near'],
    });
  });

  it('is, of what another bag holds in case one is lost, the same', () => {
    const of = worked(all(loosenOnly, plenty, threeBags), 'bag');
    const lines = [
      '1 R-38 in B-L',
      '1 X-3 in B-L',
      '1 S-9/16 in B-L',
      '1 R-38 in B-S',
      '1 X-3 in B-S',
      '1 S-9/16-12 in B-S',
    ];
    const said = reasons(of, lines, { loosen: plain });
    expect(Object.values(said)).toEqual(lines.map(() => ['loosen']));
  });
});
