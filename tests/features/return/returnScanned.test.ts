import { describe, expect, it } from 'vitest';
import type { Deed } from '../../../shared-types/records/revision.ts';
import { returnState } from '../../../renderer/engine/return/index.ts';
import { readTag, tagText } from '../../../renderer/engine/tag/index.ts';
import type { Tag } from '../../../renderer/engine/tag/index.ts';
import { lastOf } from '../../../renderer/features/return/lastOf.ts';
import { returnScanned } from '../../../renderer/features/return/returnScanned.ts';
import { lineMark, totalsOf, totalsText } from '../../../renderer/features/return/returnWords.ts';
import { eventsOf, twoContent, twoRevision, wentOut } from '../../support/outAndBack.ts';

const things = twoContent.things.map((thing) => (thing.id === 'C' ? { ...thing, tag: 70 } : thing));
const label = (piece: number, kind: Tag['kind'] = 'item', tag = 7): string => tagText({ kind, tag, piece });
/** The first tether by its label, two by number. */
const out = wentOut.map((deed): Deed =>
  deed.kind === 'counted' && deed.label !== undefined ? { ...deed, label: label(1) } : deed,
);
const after = (...deeds: Deed[]) => returnState(twoRevision, eventsOf([...out, ...deeds]), 'o');
const scan = (text: string, state = after()) => returnScanned(readTag(text), { state, things });
const tether = { bag: 'C', item: 'T-07' };

describe('a label read on a return', () => {
  it('counts the piece that went out by it, and shows a bag', () => {
    expect(scan(label(1))).toMatchObject({ line: { item: 'T-07', bag: 'C' }, label: label(1) });
    expect(scan(label(0, 'bag', 70))).toEqual({ bag: 'C' });
  });

  it('takes a piece packed by number for one of those, as long as one is open', () => {
    expect(scan(label(2))).toMatchObject({ line: { item: 'T-07' }, label: label(2) });
    const byLabels = out.filter(
      (deed) => !(deed.kind === 'counted' && deed.item === 'T-07' && deed.label === undefined),
    );
    const state = returnState(twoRevision, eventsOf(byLabels), 'o');
    expect(scan(label(2), state)).toEqual({
      refused: 'Piece 2 of T-07 did not go out on this outing: its label was not read when it was packed.',
    });
  });

  it('refuses what is of nothing here, in words', () => {
    const words = (text: string, state = after()) => {
      const found = scan(text, state);
      return 'refused' in found ? found.refused : '';
    };
    expect(words('100000700129')).toContain('check digits');
    expect(words(label(1, 'item', 9))).toBe('Label 9 is of nothing on this manifest.');
    expect(words(label(0, 'manifest', 2))).toBe('This is the label of manifest revision 2, and of no piece.');
    expect(words(label(1, 'bag'))).toBe('Label 7 is of nothing on this manifest.');
    const home = after({ kind: 'back', ...tether, pieces: 3, parts: 6, place: 'shop' });
    expect(words(label(0), home)).toBe('Every piece of T-07 that went out is accounted for.');
  });
});

describe('a line in words', () => {
  const markOf = (...deeds: Deed[]) => {
    const state = after(...deeds);
    const line = state.lines.find(({ item }) => item === 'T-07');
    return line === undefined ? null : lineMark(line, state);
  };
  const some = (kind: 'back' | 'left', pieces: number, place: string): Deed => ({
    kind,
    ...tether,
    pieces,
    parts: pieces * 2,
    place,
  });

  it('has its state as a word and a shape', () => {
    expect(markOf()).toEqual({ state: 'out', text: 'Out' });
    expect(markOf(some('back', 1, 'shop'))).toEqual({ state: 'out', text: '2 pieces out' });
    expect(markOf(some('back', 3, 'shop'))).toEqual({ state: 'back', text: 'Back' });
    expect(markOf(some('back', 3, 'boat'))).toEqual({ state: 'back', text: 'Back, not in the shop' });
    expect(markOf(some('back', 1, 'shop'), some('left', 2, 'foot'))).toEqual({ state: 'set-down', text: 'Set down' });
    expect(markOf(some('back', 1, 'shop'), { kind: 'return-closed' })).toEqual({
      state: 'missing',
      text: '2 pieces missing',
    });
  });

  it('counts parts of pieces that are back without them', () => {
    const state = after(
      { kind: 'back', bag: 'L', item: 'R-38', pieces: 1, parts: 2, place: 'shop' },
      some('left', 2, 'foot'),
    );
    expect(totalsOf(state.lines)).toEqual({ out: 7, back: 1, left: 2, used: 0, open: 4, openParts: 1 });
    expect(totalsText(totalsOf(state.lines))).toBe('2 left on purpose, 4 pieces and 1 part open');
    const all = after(
      ...out.flatMap((deed): Deed[] => (deed.kind === 'counted' ? [{ ...deed, kind: 'back', place: 'shop' }] : [])),
    );
    expect(totalsText(totalsOf(all.lines))).toBe('nothing open');
  });

  it('names the last thing that was said of it and holds', () => {
    const events = eventsOf([...out, some('left', 2, 'foot'), some('back', 1, 'shop'), { kind: 'taken-back', of: 8 }]);
    const of = { events, outing: 'o' };
    expect(lastOf(of, tether, ({ kind }) => `Said ${kind}`)).toEqual({ no: 7, words: 'event 7, said left' });
    expect(lastOf(of, { bag: 'L', item: 'R-38' }, String)).toBeNull();
  });
});
