/** What a search for stacks finds and what it leaves out: rules 1, 4, 5 and 7 at their ends, and how far a bounded search looks. */
import { describe, expect, it } from 'vitest';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { ResolvedPlan } from '../../../renderer/engine/plan/resolved.ts';
import type { Relaxed } from '../../../renderer/engine/stack/enumerateStacks.ts';
import { enumerateStacks } from '../../../renderer/engine/stack/enumerateStacks.ts';
import type { StackParts, StackTask } from '../../../renderer/engine/stack/stackTask.ts';
import { stackIds, stackTask } from '../../../renderer/engine/stack/stackTask.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

function taskOf(edit: Edit, index = 0): { plan: ResolvedPlan; task: StackTask } {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const step = plan.steps[index];
  const task = step && stackTask(plan, step);
  if (!task) throw new Error('no such step');
  return { plan, task };
}

function found(edit: Edit, relaxed: Relaxed[] = [], index = 0): StackParts[] {
  const { plan, task } = taskOf(edit, index);
  return enumerateStacks(plan, task, new Set(relaxed));
}

const texts = (stacks: readonly StackParts[]): string[] => stacks.map((parts) => stackIds(parts).join(' '));

const depth = (text: string): Edit => put('steps[0].access.depth', text);
/** One socket of 1.25 in and one extension of 3 in, of which there are as many as wanted. */
const oneChain = all(keep('catalog.sockets', 1), keep('catalog.extensions', 1));
const extensionsOnHand = (count: number): Edit => put('catalog.extensions[0].onHand', count);

describe('the search for stacks', () => {
  it('puts at most three extensions on a socket (rule 1)', () => {
    const many = all(oneChain, extensionsOnHand(9));
    expect(texts(found(all(many, depth('10.25 in'))))).toEqual(['R-38 X-3 X-3 X-3 S-9/16']);
    expect(found(all(many, depth('10.26 in')))).toEqual([]);
  });

  it('puts at most one universal joint in a stack that loosens, and none in one that tightens (rule 7)', () => {
    const jointed = all(oneChain, extensionsOnHand(2), put('catalog.extensions[0].kind', 'universal'));
    expect(texts(found(all(jointed, depth('4.25 in'))))).toEqual(['R-38 X-3 S-9/16']);
    expect(found(all(jointed, depth('4.26 in')))).toEqual([]);
    expect(texts(found(all(jointed, depth('7 in')), ['universal']))).toContain('R-38 X-3 X-3 S-9/16');
    expect(found(jointed, [], 1)).toEqual([]);
  });

  it('lets a wide socket stay outside where nothing is deep, and nowhere else (rule 4)', () => {
    const wide = put('catalog.sockets[0].outsideDiameter', '2 in');
    expect(texts(found(all(oneChain, wide, depth('0 in'))))).toEqual(['R-38 S-9/16']);
    expect(found(all(oneChain, wide, depth('0.5 mm')))).toEqual([]);
  });

  it.each<[string, Edit]>([
    ['a driver that is not there', put('catalog.drivers[0].onHand', 0)],
    ['a driver that is too weak', put('catalog.drivers[0].max', '41 lbf·ft')],
    ['an extension that is not there', extensionsOnHand(0)],
    ['an extension that is too weak', put('catalog.extensions[0].ratedTorque', '41 lbf·ft')],
    ['a socket that is not there', put('catalog.sockets[0].onHand', 0)],
    ['a socket that is too weak', put('catalog.sockets[0].ratedTorque', '41 lbf·ft')],
  ])('takes no %s (rules 5 and 8)', (_name, edit) => {
    expect(found(oneChain)).toHaveLength(1);
    expect(found(all(oneChain, edit))).toEqual([]);
  });

  it('lets one joint of squares not meet where squares are left out, never two', () => {
    const inch = put('catalog.drivers[0].drive', '1/2 in');
    expect(texts(found(all(oneChain, inch), ['drive']))).toEqual(['R-38 X-3 S-9/16']);
    const both = all(oneChain, inch, put('catalog.sockets[0].drive', '1/4 in'));
    expect(found(both, ['drive'])).toEqual([]);
    const between = all(oneChain, extensionsOnHand(2), put('catalog.extensions[0].driveIn', '1/4 in'), depth('7 in'));
    // X-3 on X-3 does not meet, nor does the driver on the outer one.
    expect(found(between, ['drive'])).toEqual([]);
    const three = all(extensionsOnHand(3), put('catalog.extensions[0].driveIn', '1/4 in'), depth('10 in'));
    const quarter = all(oneChain, three, put('catalog.drivers[0].drive', '1/4 in'));
    expect(found(quarter, ['drive'])).toEqual([]);
  });
});

describe('a bounded search', () => {
  const shape = smallPlan().catalog.extensions[0];
  /** From short to long, from wide to narrow and from weak to strong, so that the best comes last in the catalog. */
  const many = put(
    'catalog.extensions',
    Array.from({ length: 40 }, (_, n) => {
      const size = { length: `${3 + n / 10} in`, outsideDiameter: `${9 - n / 10} in`, ratedTorque: `${10 + n} lbf·ft` };
      return { ...shape, id: `X${n}`, onHand: 3, ...size };
    }),
  );
  const last = 'R-38 X39 X39 X39 S-9/16';
  const one = all(keep('catalog.sockets', 1), many);
  const reachless = all(
    one,
    depth('90 in'),
    put('steps[0].access.clearDiameter', '9 in'),
    put('steps[0].demand', '5 lbf·ft'),
  );

  it('looks at 60 000 beginnings, the longest extensions first', () => {
    const stacks = found(reachless, ['reach']);
    expect(stacks).toHaveLength(60_000);
    expect(texts(stacks)).toContain(last);
  });

  it.each<[Relaxed, Edit]>([
    ['clearance', put('steps[0].access.clearDiameter', '1 in')],
    ['strength', put('steps[0].demand', '200 lbf·ft')],
  ])('meets first what falls least short in %s', (check, edit) => {
    // Two extensions reach, one alone does not.
    const stacks = found(all(reachless, put('steps[0].access.depth', '9 in'), edit), [check]);
    expect(texts(stacks)[0]).toBe('R-38 X39 X39 S-9/16');
  });

  it('shares its beginnings out over the sockets, and gives each at least 2000', () => {
    const [socket] = smallPlan().catalog.sockets;
    const sockets = (count: number): Edit =>
      put(
        'catalog.sockets',
        Array.from({ length: count }, (_, n) => ({ ...socket, id: `S${n}` })),
      );
    expect(found(all(reachless, sockets(4)), ['reach'])).toHaveLength(4 * 15_000);
    expect(found(all(reachless, sockets(31)), ['reach'])).toHaveLength(31 * 2000);
  });

  it('looks at everything where no check is left out', () => {
    // Three of the longest are 20.7 in, with the socket 21.95 in: the last of 65 641 beginnings.
    expect(texts(found(all(reachless, depth('21.9 in'))))).toEqual([last]);
  });
});
