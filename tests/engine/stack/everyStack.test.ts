/** Stacks that are not written out, against all stacks written out and held against every rule one by one. */
import { describe, expect, it } from 'vitest';
import { planFrom, readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import type { ResolvedExtension, ResolvedPlan } from '../../../renderer/engine/plan/resolved.ts';
import { chainsFor } from '../../../renderer/engine/stack/chains.ts';
import { chainStock } from '../../../renderer/engine/stack/chainStock.ts';
import { checkStack } from '../../../renderer/engine/stack/checkStack.ts';
import { lightestStacks } from '../../../renderer/engine/stack/lightest.ts';
import { inOrder } from '../../../renderer/engine/stack/order.ts';
import { pairInStock, pairMisses } from '../../../renderer/engine/stack/pairs.ts';
import { possiblePieces } from '../../../renderer/engine/stack/possible.ts';
import type { StackParts, StackTask } from '../../../renderer/engine/stack/stackTask.ts';
import { extensionsMax, holdTask, mayTurn, stackIds, stackTask } from '../../../renderer/engine/stack/stackTask.ts';
import type { StackStock, Ways } from '../../../renderer/engine/stack/ways.ts';
import { countWays, eachStack, findWays, noWay, partsOf, restrictWays } from '../../../renderer/engine/stack/ways.ts';
import { randomPlan } from '../../reference/randomPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

/** A stack by its pieces: which of its extensions comes first is no matter of what is packed. */
const setOf = (ids: readonly string[]): string => [ids[0], ...ids.slice(1, -1).toSorted(), ids.at(-1)].join(' ');

const howOften = (ids: readonly string[], id: string): number => ids.filter((other) => other === id).length;

/** Every stack that passes every check and for which there are pieces, least or not. */
function everyStack({ tools, extensions, sockets }: StackStock, task: StackTask): StackParts[] {
  const longer = (chain: ResolvedExtension[]): ResolvedExtension[][] => [
    chain,
    ...(chain.length === extensionsMax ? [] : [...extensions.values()])
      .filter((e) => chain.filter((other) => other === e).length < e.onHand)
      .flatMap((e) => longer([...chain, e])),
  ];
  const chains = longer([]);
  return [...tools.values()]
    .filter((tool) => tool.onHand > 0 && mayTurn(task, tool))
    .flatMap((tool) =>
      [...sockets.values()]
        .filter((socket) => socket.onHand > 0)
        .flatMap((socket) => chains.map((chain): StackParts => ({ tool, extensions: chain, socket }))),
    )
    .filter((parts) => checkStack(task, parts).every(({ passes }) => passes));
}

/** Of the stacks with one tool and socket those that have no extension too many. */
function leastOf(stacks: readonly (readonly string[])[]): Set<string> {
  const includes = (large: readonly string[], small: readonly string[]): boolean =>
    small.length < large.length && small.every((id) => howOften(small, id) <= howOften(large, id));
  const alike = (a: readonly string[], b: readonly string[]): boolean => a[0] === b[0] && a.at(-1) === b.at(-1);
  return new Set(stacks.filter((ids) => !stacks.some((other) => alike(ids, other) && includes(ids, other))).map(setOf));
}

interface Asked {
  seed: number;
  plan: ResolvedPlan;
  task: StackTask;
  ways: Ways;
  every: StackParts[];
}

const asked: Asked[] = Array.from({ length: 60 }, (_, index) => index + 1).flatMap((seed) => {
  const plan = readPlan(JSON.stringify(randomPlan(seed).plan));
  const tasks = plan.steps.flatMap((step) => [stackTask(plan, step) ?? [], holdTask(plan, step) ?? []].flat());
  return tasks.map((task) => ({ seed, plan, task, ways: findWays(plan, task), every: everyStack(plan, task) }));
});

const differing = (differs: (one: Asked) => boolean): number[] => asked.filter(differs).map(({ seed }) => seed);

describe('on random stocks the stacks that are not written out', () => {
  it('are met in plenty, with several extensions, and none', () => {
    expect(asked.length).toBeGreaterThan(100);
    expect(asked.filter(({ every }) => every.length === 0).length).toBeGreaterThan(5);
    expect(asked.filter(({ every }) => every.some(({ extensions }) => extensions.length > 1)).length).toBeGreaterThan(
      20,
    );
  });

  it('are all there are, less those that include another', () => {
    const texts = (list: Iterable<string>): string => [...list].toSorted().join('\n');
    expect(
      differing(({ ways, every }) => {
        const found = [...eachStack(ways)].map((parts) => setOf(stackIds(parts)));
        return texts(found) !== texts(leastOf(every.map(stackIds)));
      }),
    ).toEqual([]);
  });

  it('are as many as are counted', () => {
    expect(differing(({ ways }) => countWays(ways) !== [...eachStack(ways)].length)).toEqual([]);
    expect(differing(({ ways }) => noWay(ways) !== (countWays(ways) === 0))).toEqual([]);
  });

  it('have the parts that they have', () => {
    const idsOf = (list: Iterable<string>): string => [...new Set(list)].toSorted().join(' ');
    expect(
      differing(
        ({ ways }) => idsOf(partsOf(ways).map(({ id }) => id)) !== idsOf([...eachStack(ways)].flatMap(stackIds)),
      ),
    ).toEqual([]);
  });

  it('come lightest first, as in the order of all', () => {
    const texts = (list: readonly StackParts[]): string => list.map((parts) => stackIds(parts).join(' ')).join('\n');
    for (const count of [1, 2, 3, 7])
      expect(
        differing(({ task, ways }) => {
          const first = inOrder([...eachStack(ways)], task.action !== 'tighten').slice(0, count);
          return texts(lightestStacks(ways, count)) !== texts(first);
        }),
      ).toEqual([]);
  });

  it('shrink with the pieces kept', () => {
    expect(
      differing(({ ways }) => {
        const gone = new Set(partsOf(ways).flatMap(({ id }, n) => (n % 4 === 1 ? [id] : [])));
        const left = [...eachStack(restrictWays(ways, (id) => !gone.has(id)))].map(stackIds);
        const whole = [...eachStack(ways)].map(stackIds).filter((ids) => !ids.some((id) => gone.has(id)));
        return new Set(left.map(setOf)).size !== left.length || left.length !== whole.length;
      }),
    ).toEqual([]);
  });

  it('leave pieces possible that only larger stacks have', () => {
    const pieces = ({ plan, task }: Asked): string => [...possiblePieces(plan, task)].toSorted().join(' ');
    const possible = ({ every }: Asked): string => [...new Set(every.flatMap(stackIds))].toSorted().join(' ');
    expect(differing((one) => pieces(one) !== possible(one))).toEqual([]);
    expect(differing((one) => possiblePieces(one.plan, one.task).size > partsOf(one.ways).length)).not.toEqual([]);
  });
});

describe('a chain', () => {
  const taskOf = (edit: Edit) => {
    const source = smallPlan();
    edit(source);
    const plan = planFrom(source);
    const [step] = plan.steps;
    const task = step && stackTask(plan, step);
    if (!task) throw new Error('no task');
    return { plan, task };
  };
  const drive = 9.525;
  const chains = (edit: Edit, lengthsMm: number[], turned = [drive]) => {
    const { plan, task } = taskOf(edit);
    return chainsFor(chainStock(task, plan.extensions.values(), new Set(turned)), drive, lengthsMm).map(
      ({ links, from, until, driveMm }) => ({
        ids: links.map((l) => l.extensions.map(({ id }) => id).join('/')).join(' '),
        from,
        until,
        driveMm,
      }),
    );
  };
  const inches = (...lengths: number[]): number[] => lengths.map((length) => length * 25.4);

  it('is there from the rung on which it reaches until fewer pieces do', () => {
    // 2 in: the sockets are 1 in and 2 in, the extensions 3 in and 6 in.
    expect(chains(() => undefined, inches(1, 2))).toEqual(
      [
        { ids: 'X-6', from: 0, until: 1, driveMm: drive },
        { ids: 'X-3', from: 0, until: 1, driveMm: drive },
        { ids: '', from: 1, until: Infinity, driveMm: drive },
      ].toSorted((a, b) => a.from - b.from),
    );
  });

  it('is met once, in whichever order its pieces go', () => {
    const ids = chains(put('steps[0].access.depth', '10 in'), inches(1)).map((chain) => chain.ids);
    expect(ids).toEqual(['X-6 X-3']);
  });

  it('takes for one link whichever piece is alike', () => {
    const twins = put('catalog.extensions[1].length', '3 in');
    expect(chains(twins, inches(1)).map(({ ids }) => ids)).toEqual(['X-3/X-6']);
    expect(chains(all(twins, put('steps[0].access.depth', '7 in')), inches(1)).map(({ ids }) => ids)).toEqual([
      'X-3/X-6 X-3/X-6',
    ]);
  });

  it('ends in every square that some tool has, a wide adapter only outside the hole', () => {
    const adapter = all(
      put('catalog.extensions[1].driveIn', '1/2 in'),
      put('catalog.extensions[1].outsideDiameter', '2 in'),
    );
    const ends = (depth: string) =>
      chains(all(adapter, put('steps[0].access.depth', depth)), inches(1.25), [drive, 12.7]).map(
        ({ ids, driveMm }) => `${ids} ${driveMm}`,
      );
    expect(ends('1 in').toSorted()).toEqual([' 9.525', 'X-6 12.7']);
    expect(ends('2 in').toSorted()).toEqual(['X-3 9.525', 'X-3 X-6 12.7']);
    // It would have to begin within.
    expect(ends('5 in')).toEqual([]);
  });

  it('waits, with a wide adapter, for the rung on which that begins outside', () => {
    const adapter = all(
      put('catalog.extensions[1].driveIn', '1/2 in'),
      put('catalog.extensions[1].outsideDiameter', '2 in'),
    );
    expect(chains(adapter, inches(1.25, 2), [12.7])).toEqual([
      { ids: 'X-3 X-6', from: 0, until: 1, driveMm: 12.7 },
      { ids: 'X-6', from: 1, until: Infinity, driveMm: 12.7 },
    ]);
  });
});

describe('a stack and a hold at once', () => {
  const pairOf = (edit: Edit) => {
    const source = smallPlan();
    put('steps', [{ ...source.steps[1], hold: { fastener: 'F1' } }])(source);
    edit(source);
    const plan = planFrom(source);
    const [step] = plan.steps;
    const [task, hold] = step ? [stackTask(plan, step), holdTask(plan, step)] : [];
    if (!task || !hold) throw new Error('no hold');
    return { ways: findWays(plan, task), holds: findWays(plan, hold), plan };
  };

  it('are the first for which there are pieces', () => {
    const pair = (edit: Edit) => {
      const { ways, holds } = pairOf(edit);
      const found = pairInStock(ways, holds);
      return found && [stackIds(found.stack).join(' '), stackIds(found.hold).join(' ')];
    };
    // Only one of each socket is there.
    expect(pair(() => undefined)).toEqual(['TT-2 X-3 S-9/16', 'R-38 S-9/16-12']);
    expect(pair(put('catalog.sockets[0].onHand', 2))).toEqual(['TT-2 X-3 S-9/16', 'R-38 S-9/16']);
    expect(pair(keep('catalog.sockets', 1))).toBeNull();
  });

  it('say by how many pieces they fall short', () => {
    const { ways, holds } = pairOf(keep('catalog.sockets', 1));
    expect(pairMisses(ways, holds)[0]).toEqual({
      stack: ['TT-2', 'X-3', 'S-9/16'],
      fails: [{ check: 'stock', have: '1 piece of S-9/16 on hand', need: '2 pieces at once' }],
    });
  });

  it('are found on random plans where and only where some two go together', () => {
    const wrong: number[] = [];
    let met = 0;
    for (let seed = 1; seed <= 120; seed += 1) {
      const plan = readPlan(JSON.stringify(randomPlan(seed).plan));
      for (const step of plan.steps) {
        const [task, hold] = [stackTask(plan, step), holdTask(plan, step)];
        if (!task || !hold) continue;
        met += 1;
        const [stacks, held] = [everyStack(plan, task).map(stackIds), everyStack(plan, hold).map(stackIds)];
        const there = (ids: readonly string[]): boolean =>
          ids.every((id) => howOften(ids, id) <= (plan.carried.get(id)?.onHand ?? 0));
        const some = stacks.some((a) => held.some((b) => there([...a, ...b])));
        if (some !== (pairInStock(findWays(plan, task), findWays(plan, hold)) !== null)) wrong.push(seed);
      }
    }
    expect(met).toBeGreaterThan(20);
    expect(wrong).toEqual([]);
  });
});
