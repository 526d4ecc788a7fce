import { describe, expect, it } from 'vitest';
import type { OutingEvent } from '../../../shared-types/records/revision.ts';
import { createDesk } from '../../../renderer/features/pack/packingDesk.ts';
import type { DeskSetup } from '../../../renderer/features/pack/packingDesk.ts';
import type { Done } from '../../../renderer/features/revisions/appendEvents.ts';
import { packState } from '../../../renderer/engine/packing/index.ts';
import { readTag, tagText } from '../../../renderer/engine/tag/index.ts';
import { ann, counted, outing, packingContent, takenBack } from '../../engine/packing/packingEvents.ts';

const things = Array.from({ length: 30 }, (_, index) => `I-${index}`);
const content = {
  ...packingContent,
  things: [...things.map((id) => ({ id, name: id, kind: 'gear' as const, parts: 1 })), ...packingContent.things],
  lines: [
    ...things.map((id) => ({ outing, bag: 'L', item: id, quantity: 20, because: ['turn'] })),
    ...packingContent.lines,
  ],
};
const revision = { id: 'r', number: 3, hash: 'ab'.repeat(32), content };
const tags = new Map([
  ...things.map((id, index): [number, string] => [index + 100, id]),
  [11, 'R-38'],
  [13, 'T-07'],
  [1, 'L'],
  [2, 'C'],
]);
const label = (tag: number, piece: number) => readTag(tagText({ kind: 'item', tag, piece }));
const bagLabel = (tag: number) => readTag(tagText({ kind: 'bag', tag, piece: 0 }));

/** A disk that takes its time, and now and then is full. */
function disk() {
  const kept: OutingEvent[] = [];
  const batches: number[] = [];
  let full = false;
  const append = async (done: readonly Done[]): Promise<OutingEvent[]> => {
    await new Promise((resolve) => setTimeout(resolve, 3));
    if (full) throw new Error('the disk is full');
    batches.push(done.length);
    const events = done.map((one, index) => ({
      ...{
        ...one,
        id: `e${kept.length + index}`,
        rev: 1,
        revision: 'r',
        no: kept.length + index + 1,
        prev: '',
        hash: '',
      },
    }));
    kept.push(...events);
    return events;
  };
  return { kept, batches, append, fill: (is: boolean) => void (full = is) };
}

function desk(setup: Partial<DeskSetup> = {}) {
  const held = disk();
  const made = createDesk({
    ...{ revision, outing, kept: [], append: held.append, at: () => '2026-11-25T10:00:00+00:00' },
    ...setup,
  });
  made.know({ doer: ann, tags, before: [], elsewhere: () => null });
  return { desk: made, ...held };
}

describe('the desk at which an outing is packed', () => {
  // U17: twenty codes in a second for half a minute.
  it('loses none of 600 codes that come faster than the disk takes them, and keeps them in their order', async () => {
    const { desk: one, kept, batches } = desk();
    one.open('L');
    for (let piece = 1; piece <= 20; piece += 1) {
      for (let tag = 100; tag < 130; tag += 1) one.read(label(tag, piece));
      await new Promise((resolve) => setTimeout(resolve));
    }
    await one.settled();
    expect(one.state()).toMatchObject({ unsaved: 0, queued: 0, stop: null });
    expect(kept.map(({ deed }) => deed.kind === 'counted' && deed.label)).toEqual(
      Array.from({ length: 600 }, (_, at) =>
        tagText({ kind: 'item', tag: 100 + (at % 30), piece: 1 + Math.floor(at / 30) }),
      ),
    );
    expect(batches.length).toBeLessThan(600);
    expect(one.state().packing.totals.packed).toBe(600);
    // What is on the disk says the same by itself.
    expect(packState({ content }, kept, outing).totals).toEqual(one.state().packing.totals);
  });

  it('stops at a code that is wrong, holds what comes after it, and goes on once it is seen', async () => {
    const { desk: one, kept } = desk();
    one.open('L');
    for (const reading of [label(100, 1), label(13, 1), label(101, 1), label(101, 1), label(102, 1)]) one.read(reading);
    expect(one.state()).toMatchObject({
      stop: { word: 'Not counted', words: 'T-07 belongs in C, not in L' },
      queued: 3,
    });
    one.goOn();
    expect(one.state().stop?.words).toBe('I-1, piece 1, is counted already, in L');
    expect(one.state().queued).toBe(1);
    one.goOn();
    await one.settled();
    expect(one.state()).toMatchObject({ stop: null, queued: 0 });
    expect(kept.map(({ deed }) => 'item' in deed && deed.item)).toEqual(['I-0', 'I-1', 'I-2']);
  });

  it('waits while it asks for parts; a bag’s label opens it', async () => {
    const { desk: one, kept } = desk();
    one.read(bagLabel(1));
    one.read(label(11, 1));
    one.read(bagLabel(2));
    expect(one.state()).toMatchObject({ bag: 'L', asked: { item: 'R-38', ask: 'parts' }, queued: 1 });
    expect(one.act([counted('L', 'R-38', 1, 2)])).toBeNull();
    one.goOn();
    expect(one.state()).toMatchObject({ bag: 'C', asked: null, queued: 0 });
    await one.settled();
    expect(kept).toHaveLength(1);
  });

  it('says what is not kept, counts none of it, and waits', async () => {
    const { desk: one, kept, fill } = desk();
    one.open('L');
    one.read(label(100, 1));
    await one.settled();
    fill(true);
    one.read(label(100, 2));
    one.read(label(100, 3));
    expect(one.state().packing.totals.packed).toBe(3);
    await one.settled();
    expect(one.state().stop).toEqual({ word: 'NOT SAVED', words: 'The last 2 deeds are not kept: the disk is full' });
    expect(one.state().packing.totals.packed).toBe(1);
    one.read(label(100, 4));
    expect(one.state()).toMatchObject({ queued: 1, unsaved: 0 });
    fill(false);
    one.goOn();
    await one.settled();
    expect(kept.map(({ deed }) => deed.kind === 'counted' && deed.label?.slice(7, 10))).toEqual(['001', '004']);
  });

  it('counts once what another window or the disk tells of before its own answer', async () => {
    const kept: OutingEvent[] = [];
    const { desk: one } = desk({
      append: async (done) => {
        const events = done.map((part, index) => ({
          ...part,
          id: `e${kept.length + index}`,
          rev: 1,
          revision: 'r',
          no: kept.length + index + 1,
          prev: '',
          hash: '',
        }));
        kept.push(...events);
        one.tell([...kept]);
        await Promise.resolve();
        return events;
      },
    });
    // The same twice within a second are two.
    expect(one.act([counted('C', 'T-07', 1)])).toBeNull();
    expect(one.act([counted('C', 'T-07', 1)])).toBeNull();
    await one.settled();
    one.tell([...kept]);
    expect(one.state().packing.totals.packed).toBe(2);
    expect(one.state().unsaved).toBe(0);
    expect(one.act([takenBack(2)])).toBeNull();
    await one.settled();
    expect(one.state().packing.totals.packed).toBe(1);
  });

  it('does not count what is known to be elsewhere', () => {
    const { desk: one } = desk();
    const asked: unknown[] = [];
    const elsewhere = (x: object): string | null => {
      asked.push(x);
      return 'two of it lie at the mast foot';
    };
    one.know({ doer: ann, tags, before: [], elsewhere });
    expect(one.act([counted('C', 'T-07', 3)])).toBe('two of it lie at the mast foot');
    expect(asked).toEqual([{ item: 'T-07', counted: 0, pieces: 3 }]);
    expect(one.state().packing.totals.packed).toBe(0);
  });

  it('holds what is read until someone has a name', async () => {
    const { desk: one, kept } = desk();
    one.know({ doer: { name: '', role: '' }, tags, before: [], elsewhere: () => null });
    one.read(bagLabel(1));
    one.read(label(100, 1));
    expect(one.state()).toMatchObject({ queued: 2, bag: null });
    one.know({ doer: ann, tags, before: [], elsewhere: () => null });
    await one.settled();
    expect(one.state()).toMatchObject({ queued: 0, bag: 'L' });
    expect(kept.map(({ by }) => by)).toEqual([ann]);
  });

  it('does several deeds or none of them', async () => {
    const { desk: one, kept } = desk();
    expect(one.act([counted('C', 'T-07', 3), counted('C', 'T-07', 2)])).toBe('T-07: 5 would be counted of 4');
    await one.settled();
    expect(kept).toEqual([]);
    expect(one.state().packing.totals.packed).toBe(0);
  });
});
