import { describe, expect, it } from 'vitest';
import type { FrozenLine, RevisionContent } from '../../../shared-types/records/revision.ts';
import { changeCount, compareRevisions, readFrozen } from '../../../renderer/engine/frozen/index.ts';
import type { Comparison } from '../../../renderer/engine/frozen/index.ts';
import { lineChanges } from '../../../renderer/engine/frozen/lineChanges.ts';
import { outOfOrder } from '../../../renderer/engine/frozen/outOfOrder.ts';
import { dice } from '../../reference/dice.ts';
import { mapRevision, revisionOf, stateOfPlan } from '../../support/frozenTask.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const compared = (one: RevisionContent, other: RevisionContent): Comparison =>
  compareRevisions(readFrozen({ number: 1, content: one }), readFrozen({ number: 2, content: other }));

type Edit = (plan: ReturnType<typeof smallPlan>) => void;

async function contentOf(edit: Edit = () => undefined, more: Parameters<typeof stateOfPlan>[1] = {}) {
  const plan = smallPlan();
  edit(plan);
  return (await revisionOf(await stateOfPlan(plan, more))).content;
}

/** So many random lines of three things in three bags of two outings, each bag and thing once. */
function randomLines(seed: number): FrozenLine[] {
  const roll = dice(seed);
  return ['o', 'p'].flatMap((outing) =>
    ['A', 'B', 'C'].flatMap((bag) =>
      ['S', 'T', 'U'].flatMap((item) =>
        roll.chance(0.5) ? [{ outing, bag, item, quantity: roll.whole(1, 6), because: ['s'] }] : [],
      ),
    ),
  );
}

const counted = (lines: readonly FrozenLine[]): Map<string, number> =>
  new Map(lines.map(({ outing, bag, item, quantity }) => [`${outing} ${bag} ${item}`, quantity]));

describe('lines of two manifests', () => {
  it('change from the first to the second by the changes told, piece by piece, in 120 seeded pairs', () => {
    for (let seed = 1; seed <= 120; seed += 1) {
      const [was, is] = [randomLines(seed), randomLines(seed + 10_000)];
      const held = counted(was);
      const add = (outing: string, bag: string, item: string, pieces: number): void => {
        const key = `${outing} ${bag} ${item}`;
        held.set(key, (held.get(key) ?? 0) + pieces);
      };
      const { changes, same } = lineChanges(was, is);
      for (const { kind, outing, item, was: from, is: to, pieces } of changes) {
        if (kind === 'moved') {
          add(outing, from?.bag ?? '', item, -pieces);
          add(outing, to?.bag ?? '', item, pieces);
        } else add(outing, (to ?? from)?.bag ?? '', item, pieces);
      }
      for (const [key, quantity] of held) if (quantity === 0) held.delete(key);
      expect(JSON.stringify([...held].toSorted()), `seed ${seed}`).toBe(JSON.stringify([...counted(is)].toSorted()));
      // What is told the same is the same.
      const alike = is.filter((line) => was.some((old) => JSON.stringify(old) === JSON.stringify(line))).length;
      expect(same, `seed ${seed}`).toBe(alike);
    }
  });

  it('are the same for a manifest and itself', () => {
    for (let seed = 1; seed <= 50; seed += 1) {
      const lines = randomLines(seed);
      expect(lineChanges(lines, lines.toReversed())).toEqual({ changes: [], same: lines.length });
    }
  });

  it('tell added, gone, other quantity, moved and moved in part, and other steps', () => {
    const line = (bag: string, quantity: number, because = ['s']): FrozenLine => ({
      ...{ outing: 'o', item: 'T', bag, quantity, because },
    });
    const told = (was: FrozenLine[], is: FrozenLine[]) =>
      lineChanges(was, is).changes.map(({ kind, was: from, is: to, pieces }) => [kind, from, to, pieces]);
    expect(told([], [line('A', 2)])).toEqual([['added', null, { bag: 'A', quantity: 2 }, 2]]);
    expect(told([line('A', 2)], [])).toEqual([['gone', { bag: 'A', quantity: 2 }, null, -2]]);
    expect(told([line('A', 2)], [line('A', 5)])).toEqual([
      ['quantity', { bag: 'A', quantity: 2 }, { bag: 'A', quantity: 5 }, 3],
    ]);
    expect(told([line('A', 2)], [line('B', 2)])).toEqual([
      ['moved', { bag: 'A', quantity: 2 }, { bag: 'B', quantity: 2 }, 2],
    ]);
    expect(told([line('A', 5)], [line('A', 2), line('B', 2)])).toEqual([
      ['moved', { bag: 'A', quantity: 2 }, { bag: 'B', quantity: 2 }, 2],
      ['quantity', { bag: 'A', quantity: 5 }, { bag: 'A', quantity: 2 }, -1],
    ]);
    expect(told([line('A', 2)], [line('A', 2, ['s', 't'])])).toEqual([
      ['reason', { bag: 'A', quantity: 2 }, { bag: 'A', quantity: 2 }, 0],
    ]);
  });
});

describe('steps out of order', () => {
  it('are the fewest that would have to be moved, whichever list comes first', () => {
    expect([...outOfOrder(['a', 'b', 'c', 'd'], ['a', 'x', 'b', 'c', 'd'])]).toEqual([]);
    expect([...outOfOrder(['a', 'b', 'c', 'd'], ['b', 'c', 'd', 'a'])]).toEqual(['a']);
    for (let seed = 1; seed <= 60; seed += 1) {
      const roll = dice(seed);
      const names = Array.from({ length: 8 }, (_, at) => `s${at}`);
      const other = names
        .map((name) => ({ name, at: roll.roll() }))
        .toSorted((a, b) => a.at - b.at)
        .map(({ name }) => name);
      const moved = outOfOrder(names, other);
      expect([...moved].toSorted()).toEqual([...outOfOrder(other, names)].toSorted());
      const left = (list: string[]): string[] => list.filter((name) => !moved.has(name));
      expect(left(names)).toEqual(left(other));
      // The longest run that grows, tried out on every choice of names.
      let longest = 0;
      for (let mask = 0; mask < 256; mask += 1) {
        const chosen = names.filter((_, at) => (mask >> at) % 2 === 1);
        const grows = chosen.every((name, at) => at === 0 || other.indexOf(chosen[at - 1] ?? '') < other.indexOf(name));
        if (grows) longest = Math.max(longest, chosen.length);
      }
      expect(8 - moved.size, `seed ${seed}`).toBe(longest);
    }
  });
});

describe('two revisions', () => {
  it('of one content differ in nothing', async () => {
    const content = await contentOf();
    const found = compared(content, structuredClone(content));
    expect(changeCount(found)).toBe(0);
    expect(found.same).toEqual({ lines: content.lines.length, things: content.things.length, steps: 3 });
  });

  it('say what came of a longer reach: lines, stack, and no other step', async () => {
    const found = compared(
      await contentOf(),
      await contentOf((plan) => {
        const [, tighten] = plan.steps;
        if (tighten !== undefined)
          Object.assign(tighten, { access: { depth: '7 in', clearDiameter: '1 in', swingDeg: 60 } });
      }),
    );
    expect(found.lines.map(({ kind, item }) => [kind, item])).toContainEqual(['added', 'X-6']);
    expect(found.steps.map(({ code }) => code)).toContain('tighten');
    const fields = found.steps.find(({ code }) => code === 'tighten')?.fields ?? [];
    expect(fields).toContainEqual({ path: 'access.depth', was: '2 in', is: '7 in' });
    expect(fields.find(({ path }) => path === 'stack')?.is).toMatch(/TT-2, .*X-6.*S-9\/16/);
    expect(found.steps.map(({ code }) => code)).not.toContain('cap');
    expect(found.things.map(({ code, kind }) => [code, kind])).toContainEqual(['X-6', 'added']);
  });

  it('say another setting, serial, day of calibration and quantity, each at its thing', async () => {
    const found = compared(
      await contentOf(),
      await contentOf(
        (plan) => {
          const [, tighten, cap] = plan.steps;
          if (tighten !== undefined) Object.assign(tighten, { callout: { min: '32 lbf·ft', max: '37 lbf·ft' } });
          if (cap !== undefined) Object.assign(cap, { gear: [{ id: 'C-1', quantity: 3 }] });
        },
        {
          change: (item) =>
            item.kind === 'torque-tool' ? { ...item, serial: 'N-18', calibrationDue: '2027-01-01' } : item,
        },
      ),
    );
    const tighten = found.steps.find(({ code }) => code === 'tighten')?.fields ?? [];
    expect(tighten.find(({ path }) => path === 'setting')?.is).toMatch(/^3[45](\.5)? lbf·ft$/);
    expect(found.things.find(({ code }) => code === 'TT-2')?.fields).toEqual([
      { path: 'serial', was: null, is: 'N-18' },
      { path: 'calibrationDue', was: null, is: '2027-01-01' },
    ]);
    expect(found.lines).toMatchObject([{ kind: 'quantity', item: 'C-1', pieces: 1, is: { bag: 'B-1', quantity: 3 } }]);
  });

  it('say a step that came, one that went, and one that stands elsewhere', async () => {
    const found = compared(
      await contentOf(),
      await contentOf((plan) => {
        const [loosen, tighten, cap] = plan.steps;
        if (loosen === undefined || tighten === undefined || cap === undefined) throw new Error('it has three steps');
        plan.steps = [cap, tighten, { ...loosen, id: 'loosen-again' }];
      }),
    );
    expect(found.steps.map(({ code, kind }) => [code, kind])).toEqual([
      ['cap', 'changed'],
      ['loosen-again', 'added'],
      ['loosen', 'gone'],
    ]);
    expect(found.steps[0]?.fields).toEqual([{ path: 'number', was: '3', is: '1' }]);
  });

  it('say nothing of lines and stacks where one has no bag, and all of the plan', async () => {
    const content = await contentOf();
    const one = readFrozen({ number: 1, content });
    const { plan, facts } = readFrozen({
      number: 2,
      content: await contentOf((edited) => {
        const [tool] = edited.catalog.torqueTools;
        if (tool !== undefined) tool.mass = '950 g';
      }),
    });
    const found = compareRevisions(one, { plan, facts, result: null, things: [], lines: [] });
    expect(found).toMatchObject({ bags: false, lines: [], things: [], steps: [], whole: [] });
    expect(found.stock).toEqual([
      { code: 'TT-2', name: 'TT-2', kind: 'changed', fields: [{ path: 'mass', was: '900 g', is: '950 g' }] },
    ]);
  });

  it('leave nothing untold that their hashes cover', async () => {
    const { content } = await mapRevision();
    const full: RevisionContent = {
      ...content,
      things: content.things.map((one, index) => ({
        ...{ keptAt: 'shelf 1', serial: `S-${index}`, calibrationDue: '2027-01-01', consumed: false, tag: index + 1 },
        ...one,
      })),
      lines: content.lines.map((line) => ({ ...line, pocket: 'front', apart: [{ pocket: 'net', pieces: 1 }] })),
      places: content.lines.map(({ outing, bag, item }) => ({
        ...{ outing, bag, item, pieces: 1, xMm: 10, yMm: 20, turned: false, pocket: 'front' },
      })),
      facts: content.facts.map((facts) => ({
        ...facts,
        ...{ where: 'A', positions: '1', passes: ['50 %'], carried: ['The stud seizes.'] },
        ifFails: { step: 'turn', how: 'stuck' },
        at: { count: 4, pattern: 'circle 80 mm', order: ['1', '2'], mirrored: false, quarterTurns: 1, desired: 'shut' },
      })),
    };
    const plan = JSON.parse(full.planText) as object;
    let tried = 0;
    for (const [part, told] of [
      ['things', full.things],
      ['lines', full.lines],
      ['places', full.places],
      ['facts', full.facts],
      ['result', full.result],
      ['planText', plan],
    ] as const) {
      for (const path of leavesOf(told)) {
        // Codes tie the parts together: one changed by itself alone is no manifest any more. Lines stand in the answer once more.
        if (/(^|\.)(id|outing|bag|item|step|role|roles|fastener|action|bags|form)(\.|$)/.test(path)) continue;
        // What a thing is called and whether it is used up is said with the thing.
        if (part === 'planText' && /^catalog\.\w+\.\d+\.(name|consumed)$/.test(path)) continue;
        if (part === 'result' && /^outings\.\d+\.(items|steps\.\d+\.(stack|setting))/.test(path)) continue;
        const changed = withOther(told, path);
        const other = { ...full, [part]: part === 'planText' ? JSON.stringify(changed) : changed } as RevisionContent;
        const found = readable(other);
        if (found === null) continue;
        tried += 1;
        expect(
          changeCount(compareRevisions(readFrozen({ number: 1, content: full }), found)),
          `${part} ${path}`,
        ).toBeGreaterThan(0);
      }
    }
    expect(tried).toBeGreaterThan(100);
  });
});

/** Null where the change makes no plan that can be read: it could not have been frozen. */
function readable(content: RevisionContent): ReturnType<typeof readFrozen> | null {
  try {
    return readFrozen({ number: 2, content });
  } catch {
    return null;
  }
}

function leavesOf(value: unknown, path = ''): string[] {
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([name, inner]) => leavesOf(inner, path === '' ? name : `${path}.${name}`));
}

/** The same with one leaf changed: a number is one more, a text is another quantity or has a sign more. */
function withOther(value: unknown, path: string): unknown {
  const copy: unknown = structuredClone(value);
  const names = path.split('.');
  const last = names.pop() ?? '';
  const holder = names.reduce<Record<string, unknown>>(
    (held, name) => held[name] as Record<string, unknown>,
    copy as Record<string, unknown>,
  );
  const leaf = holder[last];
  holder[last] =
    typeof leaf === 'number'
      ? leaf + 1
      : typeof leaf === 'boolean'
        ? !leaf
        : leaf === null
          ? 'x'
          : String(leaf).replace(/\d(?=\D*$)/, (digit) => String((Number(digit) + 1) % 10)) === leaf
            ? `${String(leaf)}x`
            : String(leaf).replace(/\d(?=\D*$)/, (digit) => String((Number(digit) + 1) % 10));
  return copy;
}
