/** A reader that types told from a person: everything a reader does wrong, everything a person does beside it. */
import { describe, expect, it } from 'vitest';
import { drawsOf } from '../../../renderer/engine/chance/draws.ts';
import { groupedTag, tagText, usualReader } from '../../../renderer/engine/tag/index.ts';
import type { ReaderSettings, Tag } from '../../../renderer/engine/tag/index.ts';
import { keys, played } from './typing.ts';
import type { Layout } from './typing.ts';

const draws = drawsOf(41);
const upTo = (most: number): number => Math.floor(draws.uniform() * (most + 1));
const someTag = (): Tag => ({ kind: upTo(9) === 0 ? 'bag' : 'item', tag: 1 + upTo(999_998), piece: upTo(999) });

const enter = usualReader;
const tab: ReaderSettings = { before: '', after: 'tab' };
const bare: ReaderSettings = { before: '', after: 'none' };
const framed: ReaderSettings = { before: ']C1', after: 'enter' };

describe('a code', () => {
  const speeds = [5, 12, 20, 35, 50];
  const layouts: Layout[] = ['own', 'azerty', 'pad', 'no-places', 'moved'];
  const frames: [string, ReaderSettings, string, string][] = [
    ['Enter behind it', enter, '', '⏎'],
    ['Tab behind it', tab, '', '⇥'],
    ['nothing around it', bare, '', ''],
    ['signs before it and Enter behind it', framed, ']C1', '⏎'],
    ['an Enter that was not told of', bare, '', '⏎'],
    ['two Enters', enter, '', '⏎⏎'],
    ['no Enter where one was told of', enter, '', ''],
  ];

  it.each(frames)(
    'with %s is read at every speed, in every layout, in a field and outside',
    (_name, settings, before, after) => {
      for (const everyMs of speeds)
        for (const layout of layouts)
          for (const field of [false, true]) {
            const tag = someTag();
            const strokes = keys(before + tagText(tag) + after, 1000, everyMs, { layout, field });
            expect(played(settings, strokes), `${everyMs} ms, ${layout}, field ${String(field)}`).toEqual({
              tags: [tag],
              refused: [],
              page: '',
              heldMs: 0,
            });
          }
    },
  );

  it('is read at an uneven speed', () => {
    for (let round = 0; round < 100; round += 1) {
      const tag = someTag();
      const strokes = keys(`${tagText(tag)}⏎`, 0, () => 5 + upTo(45), { field: round % 2 === 0 });
      expect(played(enter, strokes)).toEqual({ tags: [tag], refused: [], page: '', heldMs: 0 });
    }
  });

  it('is read with Caps Lock and Shift going down among its keys', () => {
    const tag = someTag();
    const [first, ...rest] = keys(`${tagText(tag)}⏎`, 0, 10, { layout: 'azerty', field: true });
    const silent = (key: string, timeMs: number) => ({
      key,
      code: key,
      timeMs,
      repeat: false,
      chord: false,
      field: true,
    });
    const strokes = [silent('CapsLock', 0), ...(first === undefined ? [] : [first]), silent('Shift', 5), ...rest];
    expect(played(enter, strokes)).toMatchObject({ tags: [tag], refused: [], page: 'CapsLockShift' });
  });

  it('is read with an Enter anywhere in its middle, and no part of it lands in a field', () => {
    for (const field of [false, true])
      for (let at = 1; at < 12; at += 1) {
        const tag = someTag();
        const text = tagText(tag);
        const strokes = keys(`${text.slice(0, at)}⏎${text.slice(at)}⏎`, 0, 20, { field });
        expect(played(enter, strokes), `Enter after ${at}`).toEqual({ tags: [tag], refused: [], page: '', heldMs: 0 });
      }
  });
});

describe('a machine that hears a reader late', () => {
  it('waits for the rest of a code that has begun, and reads it whole', () => {
    for (let at = 5; at < 12; at += 1) {
      const tag = someTag();
      const text = `${tagText(tag)}⏎`;
      const strokes = [
        ...keys(text.slice(0, at), 0, 8, { field: true }),
        ...keys(text.slice(at), 8 * at + 200, 8, { field: true }),
      ];
      expect(played(enter, strokes), `late after ${at}`).toEqual({ tags: [tag], refused: [], page: '', heldMs: 0 });
    }
  });
});

describe('twenty codes in a second', () => {
  it('are all read for half a minute, with every layout, none twice and in their order', () => {
    const tags = Array.from({ length: 600 }, someTag);
    const strokes = tags.flatMap((tag, at) => keys(`${tagText(tag)}⏎`, at * 50, 50 / 13, { field: at % 2 === 0 }));
    expect(played(enter, strokes)).toEqual({ tags, refused: [], page: '', heldMs: 0 });
  });

  it('are read around one that lost a digit, which is refused', () => {
    for (let at = 0; at < 12; at += 1) {
      const tags = [someTag(), someTag(), someTag()];
      const texts = tags.map(tagText);
      const [first = '', broken = '', last = ''] = texts;
      const strokes = keys(`${first}⏎${broken.slice(0, at)}${broken.slice(at + 1)}⏎${last}⏎`, 0, 4, { field: true });
      const { tags: read, refused, page } = played(enter, strokes);
      expect(read).toEqual([tags[0], tags[2]]);
      expect(refused).toEqual([expect.stringContaining('11 digits')]);
      expect(page).toBe('');
    }
  });
});

describe('a code that is not whole', () => {
  it.each([
    ['Enter', enter, '⏎'],
    ['Tab', tab, '⇥'],
    ['nothing', bare, ''],
  ] as const)('is refused with any digit lost or doubled, with %s behind it', (_name, settings, after) => {
    let tried = 0;
    for (let round = 0; round < 20; round += 1) {
      const text = tagText(someTag());
      for (let at = 0; at < 12; at += 1)
        for (const wrong of [text.slice(0, at) + text.slice(at + 1), text.slice(0, at + 1) + text.slice(at)]) {
          const { tags, refused, page } = played(settings, keys(wrong + after, 0, 15, { field: true }));
          if (tags.length > 0 || refused.length !== 1 || page !== '') throw new Error(`${wrong} is not refused`);
          tried += 1;
        }
    }
    expect(tried).toBe(20 * 24);
  });

  it('is refused with a digit wrong or two swapped', () => {
    for (let round = 0; round < 20; round += 1) {
      const text = tagText(someTag());
      const at = upTo(10);
      const other = String((Number(text[at]) + 1 + upTo(8)) % 10);
      const swapped = text.slice(0, at) + (text[at + 1] ?? '') + (text[at] ?? '') + text.slice(at + 2);
      for (const wrong of [text.slice(0, at) + other + text.slice(at + 1), swapped]) {
        if (wrong === text) continue;
        const { tags, refused, page } = played(enter, keys(`${wrong}⏎`, 0, 15, { field: true }));
        expect([tags.length, refused.length, page], wrong).toEqual([0, 1, '']);
      }
    }
  });

  it.each([
    ['somebody else’s goods', '4006381333931⏎', '13 digits'],
    ['letters', 'ABC-1234⏎', 'no label number'],
    ['two run together', `${tagText({ kind: 'item', tag: 1, piece: 1 }).repeat(2)}⏎`, '24 digits'],
  ])('is refused and presses no shortcut: %s', (_name, text, reason) => {
    const { tags, refused, page } = played(enter, keys(text, 0, 10));
    expect([tags, page]).toEqual([[], '']);
    expect(refused).toEqual([expect.stringContaining(reason)]);
  });

  it('is refused where it holds in both layouts and says two things', () => {
    // Two numbers at once, by the keys' meaning and by their places.
    const [one, other] = [tagText({ kind: 'item', tag: 5, piece: 1 }), tagText({ kind: 'bag', tag: 77, piece: 0 })];
    const strokes = [...one].map((key, at) => ({
      ...{ key, code: `Digit${other[at] ?? ''}`, timeMs: at * 10 },
      ...{ repeat: false, chord: false, field: false },
    }));
    expect(played(bare, strokes)).toMatchObject({ tags: [], refused: [expect.stringContaining(other)] });
  });
});

describe('a person', () => {
  it('types into a field without losing or swapping a sign, and waits for none noticeably', () => {
    const words = [
      '3/8 in, 12 pieces⏎',
      'M10x1.25 45 lbf·ft',
      '007⌫⌫42⇥',
      `${groupedTag(tagText(someTag()))}⏎`,
      '5⏎',
      ']C1 a',
    ];
    for (const text of words)
      for (const settings of [enter, tab, bare, framed])
        for (let round = 0; round < 40; round += 1) {
          // Fast typists have 60 to 250 ms between keys (common practice, no source); now and then two roll together.
          const strokes = keys(text, 0, () => (upTo(9) === 0 ? 30 : 90 + upTo(200)), { field: true });
          const { tags, refused, page, heldMs } = played(settings, strokes);
          expect([tags, refused, page]).toEqual([[], [], text]);
          // What a person takes for at once is 100 ms (guidance on responsiveness, from memory).
          expect(heldMs).toBeLessThanOrEqual(100);
        }
  });

  it('presses shortcuts outside of fields, one after another and at once', () => {
    for (const everyMs of [40, 150]) expect(played(enter, keys('gp', 0, everyMs)).page).toBe('gp');
    expect(played(enter, keys(' ⏎', 0, 300))).toMatchObject({ page: ' ⏎', heldMs: 0 });
  });

  it('holds a digit down', () => {
    const strokes = keys('111111111111111', 0, 33, { field: true }).map((stroke, at) => ({
      ...stroke,
      repeat: at > 0,
    }));
    expect(played(enter, strokes)).toMatchObject({ tags: [], refused: [], page: '111111111111111' });
  });

  it('undoes with Ctrl, which no code has', () => {
    const [five, z] = keys('5z', 0, 20, { field: true });
    const strokes = five === undefined || z === undefined ? [] : [five, { ...z, chord: true }];
    expect(played(enter, strokes).page).toBe('5z');
  });

  it('types a digit and scans at once after: the digit stays, the code is read', () => {
    const tag = someTag();
    const strokes = [...keys('7', 0, 0, { field: true }), ...keys(`${tagText(tag)}⏎`, 100, 10, { field: true })];
    expect(played(enter, strokes)).toMatchObject({ tags: [tag], refused: [], page: '7' });
  });
});
