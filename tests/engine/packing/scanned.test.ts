import { describe, expect, it } from 'vitest';
import type { Deed } from '../../../shared-types/records/revision.ts';
import {
  beginPacking,
  carryOver,
  packOn,
  packState,
  scanned,
  stateOf,
} from '../../../renderer/engine/packing/index.ts';
import { manifestTag } from '../../../renderer/engine/tag/manifestTag.ts';
import { readTag, tagText } from '../../../renderer/engine/tag/tag.ts';
import { counted, eventsOf, missing, outing, packingContent, revision } from './packingEvents.ts';

const tags = new Map([
  [1, 'L'],
  [2, 'C'],
  [11, 'R-38'],
  [12, 'S-13'],
  [13, 'T-07'],
  [14, 'W-10'],
  [15, 'Z'],
]);
const packed = { number: 3, hash: 'ab'.repeat(32) };
const item = (tag: number, piece = 1) => tagText({ kind: 'item', tag, piece });
const read = (code: string, deeds: Deed[] = [], bag: string | null = 'L') =>
  scanned(readTag(code), { state: packState(revision, eventsOf(deeds), outing), bag, tags, revision: packed });

describe('a code that is read', () => {
  it.each<[string, string, Deed[], string | null, object]>([
    ['one piece', item(12), [], 'L', { kind: 'count', bag: 'L', item: 'S-13', label: item(12) }],
    [
      'with no bag at hand, the first that lacks it',
      item(12),
      [counted('L', 'S-13', 2)],
      null,
      { kind: 'count', bag: 'C', item: 'S-13' },
    ],
    ['a thing of several parts asks for them', item(11), [], 'L', { kind: 'ask', item: 'R-38', ask: 'parts' }],
    ['a label of all pieces asks how many', item(13, 0), [], 'C', { kind: 'ask', item: 'T-07', ask: 'pieces' }],
    ['and counts the only one', item(13, 0), [counted('C', 'T-07', 3)], 'C', { kind: 'count', item: 'T-07' }],
    ['a bag opens it', tagText({ kind: 'bag', tag: 2, piece: 0 }), [], 'L', { kind: 'open-bag', bag: 'C' }],
  ])('%s', (_, code, deeds, bag, expected) => {
    expect(read(code, deeds, bag)).toMatchObject(expected);
  });

  it.each<[string, string, Deed[], string, string]>([
    ['no code of ours', 'ABC', [], 'unknown', '“ABC” is no label number: that is 12 digits'],
    ['a number nobody has', item(99), [], 'unknown', 'Label 99 is of nothing that the catalog or the manifest knows'],
    ['another bag’s', item(13), [], 'wrong-bag', 'T-07 belongs in C, not in L'],
    [
      'this bag’s is full, another’s is not',
      item(12, 3),
      [counted('L', 'S-13', 2)],
      'wrong-bag',
      'S-13 belongs in C, not in L',
    ],
    [
      'the same piece again',
      item(12),
      [counted('L', 'S-13', 1, 1, item(12))],
      'counted-already',
      'S-13, piece 1, is counted already, in L',
    ],
    [
      'the same piece, in another bag',
      item(12),
      [counted('C', 'S-13', 1, 1, item(12))],
      'counted-already',
      'S-13, piece 1, is counted already, in C',
    ],
    [
      'one more than there are',
      item(12, 4),
      [counted('L', 'S-13', 1), missing('L', 'S-13', 1), counted('C', 'S-13', 1)],
      'counted-already',
      'S-13: 1 of 2 counted already, 1 named missing',
    ],
    ['another outing’s', item(14), [], 'not-of-outing', 'W-10 is not packed on outing o'],
    [
      'a bag that stays here',
      tagText({ kind: 'bag', tag: 15, piece: 0 }),
      [],
      'not-of-outing',
      'Bag Z does not go on outing o',
    ],
    [
      'into a closed bag',
      item(12),
      [
        { kind: 'bag-closed', bag: 'L', reason: 'so', second: { name: 'Ben', role: 'second' } },
        counted('C', 'S-13', 1),
      ],
      'closed',
      'Bag L is closed: open it first',
    ],
    [
      'another manifest',
      tagText(manifestTag({ number: 2, hash: packed.hash })),
      [],
      'another-manifest',
      'This is manifest revision 2; packed is revision 3',
    ],
  ])('stops at %s', (_, code, deeds, why, words) => {
    expect(read(code, deeds)).toEqual({ kind: 'refused', why, words });
  });

  it('many of them, each twice, are as many pieces, and none of them two', () => {
    const things = Array.from({ length: 30 }, (_, index) => `I-${index}`);
    const lines = things.map((id) => ({ outing, bag: 'L', item: id, quantity: 20, because: ['turn'] }));
    const many = {
      content: {
        ...packingContent,
        lines,
        things: things.map((id) => ({ id, name: id, kind: 'gear' as const, parts: 1 })),
      },
    };
    const known = new Map(things.map((id, index) => [index + 1, id]));
    const fold = beginPacking(many, outing);
    let state = stateOf(fold);
    const stopped: string[] = [];
    for (let piece = 1; piece <= 3; piece += 1)
      for (let tag = 1; tag <= 30; tag += 1)
        for (const code of [item(tag, piece), item(tag, piece)]) {
          const found = scanned(readTag(code), { state, bag: 'L', tags: known, revision: packed });
          if (found.kind === 'count') {
            const deed = counted(found.bag, found.item, 1, 1, found.label);
            state = stateOf(packOn(fold, eventsOf([deed], fold.lastNo + 1)));
          } else stopped.push(found.kind === 'refused' ? found.why : found.kind);
        }
    expect(state.totals).toMatchObject({ packed: 90, open: 510 });
    expect(state.refused).toEqual([]);
    expect(stopped).toEqual(Array(90).fill('counted-already'));
  });
});

describe('what is counted goes along to the next revision', () => {
  it('as far as that asks for it, with its labels and with the parts that it lacks', () => {
    const deeds = [
      counted('L', 'R-38', 1, 2),
      counted('L', 'S-13', 1, 1, 'a'),
      counted('L', 'S-13', 1, 1, 'b'),
      counted('C', 'T-07', 3),
    ];
    const state = packState(revision, eventsOf(deeds), outing);
    const lines = packingContent.lines.flatMap((line) =>
      line.item === 'T-07' ? [] : line.bag === 'L' && line.item === 'S-13' ? [{ ...line, quantity: 1 }] : [line],
    );
    const next = { content: { ...packingContent, lines } };
    const { deed, takeOut } = carryOver(state, 'r0', next);
    expect(takeOut).toEqual([
      { bag: 'L', item: 'S-13', pieces: 1 },
      { bag: 'C', item: 'T-07', pieces: 3 },
    ]);
    const after = packState(next, eventsOf([deed]), outing);
    expect(after.refused).toEqual([]);
    expect(after.bags[0]?.lines.map(({ counted: held, labels }) => [held.pieces, held.parts, labels])).toEqual([
      [1, 2, []],
      [1, 1, []],
    ]);
  });

  it('whole, labels and all, where nothing has changed', () => {
    const state = packState(revision, eventsOf([counted('L', 'S-13', 1, 1, 'a'), counted('L', 'R-38', 1, 3)]), outing);
    const { deed, takeOut } = carryOver(state, 'r0', revision);
    const after = packState(revision, eventsOf([deed]), outing);
    expect(takeOut).toEqual([]);
    expect(after.totals).toEqual(state.totals);
    expect(after.bags[0]?.lines[1]?.labels).toEqual(['a']);
  });
});
