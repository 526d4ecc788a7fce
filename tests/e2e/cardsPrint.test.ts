/** Step cards as PDF, printed by the installed Chromium. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { cardsAsked, cardsDocument } from '../../renderer/features/cards/cardsDocument.ts';
import { cardRoom } from '../../renderer/features/cards/cardRoom.ts';
import { sceneOf } from '../../renderer/features/cards/cardStacks.ts';
import { faceWidth } from '../../renderer/features/cards/faceWidths.ts';
import { hostileTexts } from '../browser/hostileTexts.ts';
import { cardSource, heldSource, type CardCase } from '../engine/cards/cardTask.ts';
import { expectMargins } from './printedList.ts';
import { openBrowser, printed, readPages, type PrintedPage } from './printedPdf.ts';
import { printFonts } from './printPlan.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

type Paper = 'A4' | 'Letter';

function documentOf(wanted: CardCase, paper: Paper, role: string | null = null) {
  const request = { ...cardSource(wanted), role, fileName: 'plan.json' };
  const print = {
    paper,
    dataTime: '2026-11-25T10:42:00+01:00',
    appVersion: '0.1.0',
    person: 'I. Maro',
    fonts: printFonts,
  };
  return { cards: cardsAsked(request), document: cardsDocument({ ...request, ...print }) };
}

async function pagesOf(wanted: CardCase, paper: Paper, role: string | null = null) {
  const { cards, document } = documentOf(wanted, paper, role);
  const { bytes, asked } = await printed(browser, await document);
  expect(asked).toEqual([]);
  return { cards, pages: await readPages(bytes) };
}

function furnitureMissing({ text }: PrintedPage, index: number, count: number): string[] {
  const hash = /Content ([0-9a-f]{4} [0-9a-f]{4})/.exec(text)?.[1] ?? 'no hash';
  const wanted = [
    `Page ${index + 1} of ${count}`,
    'Task: SR-01, Azimuth drive change',
    'Sheet: Step cards',
    'Outing: outing 1',
    'Revision: not frozen',
    'Data of 2026-11-25 10:42 UTC+01:00',
    'Bagwright 0.1.0',
    'Units as written, the other in brackets.',
    `Uncontrolled when printed unless checked against content ${hash}.`,
    'Torque and lifting can hurt people.',
  ];
  return wanted.filter((one) => !text.includes(one));
}

describe.each(['A4', 'Letter'] as const)('cards on %s', (paper) => {
  let pages: PrintedPage[];
  let cards: ReturnType<typeof documentOf>['cards'];
  beforeAll(async () => {
    ({ pages, cards } = await pagesOf({}, paper));
  });

  test('P1, P2, H2, H10: a page for each card, with its furniture, its caution and who has done it', () => {
    expect(cards.length).toBeGreaterThan(3);
    expect(pages).toHaveLength(cards.length);
    expect(pages.map((page, index) => furnitureMissing(page, index, pages.length))).toEqual(pages.map(() => []));
    const lines = cards.reduce((sum, { lineCount }) => sum + lineCount, 0);
    expect(pages.at(-1)?.text).toContain(`End of cards: ${cards.length} cards, ${lines} lines.`);
    for (const [index, card] of cards.entries()) {
      const { text } = pages[index] ?? { text: '' };
      expect(text).toContain(`Step card · ${card.role} · outing 1`);
      expect(text).toMatch(/done(?:, goes on|, (?:its 1|all \d+) lines?:)/);
      for (const part of card.parts) for (const { where } of part.lines) expect(text).toContain(where);
    }
  });

  test('P5: nothing lies within 10 mm of the edge, nothing is below 8 pt, settings stand at 18 pt', () => {
    expectMargins(pages, paper);
    const texts = pages.flatMap((page) => page.texts);
    expect(Math.min(...texts.map(({ sizePt }) => sizePt))).toBeGreaterThanOrEqual(7.99);
    const settings = texts.filter(({ text }) => /^(?:22|40|45)$/.test(text));
    expect(settings.map(({ text }) => text).toSorted()).toEqual(['22', '40', '45']);
    expect(settings.every(({ sizePt }) => sizePt >= 17.9)).toBe(true);
  });

  // The page itself, printed by Chromium, is what lines and heights are held against.
  test('P5: no card is taller, and no text wider, than was reckoned for it', () => {
    const source = cardSource({});
    const room = cardRoom(
      (part) => sceneOf(source, part),
      () => true,
    );
    const mm = 25.4 / 72;
    for (const [index, { parts, boxes }] of cards.entries()) {
      const texts = pages[index]?.texts ?? [];
      const top = texts.find(({ text }) => text.startsWith('Step card'))?.yMm ?? Number.NaN;
      const done = texts.findLast(({ text }) => /done.*:$/.test(text))?.yMm ?? Number.NaN;
      // The caution stands on the first page alone, and in the margin of the others.
      if (index > 0) expect(done - top).toBeLessThan(room.of(parts, boxes));
      // Codes in small have a face of their own.
      const inFace = texts.filter(({ sizePt }) => sizePt > 9);
      const wide = inFace.filter(({ text, widthMm, sizePt }) => widthMm > faceWidth(text, sizePt * mm, 'bold') * 1.01);
      expect(wide).toEqual([]);
    }
  });

  test('H10: signal words stand before the first line of their step, the gravest first', () => {
    const { text } = pages[0] ?? { text: '' };
    const at = ['WARNING', 'NOTICE', 'Watch-out', 'Joined, tool to head'].map((word) => text.indexOf(word));
    expect(at.every((place) => place >= 0)).toBe(true);
    expect(at).toEqual(at.toSorted((a, b) => a - b));
  });
});

test('both papers have the same cards and the same hash; their drawings are greys alone', async () => {
  const [a4, letter] = await Promise.all(
    (['A4', 'Letter'] as const).map(async (paper) => (await documentOf({}, paper).document).html),
  );
  const body = (text: string | undefined) => text?.slice(text.indexOf('<body>'));
  expect(body(a4)).toBe(body(letter));
  expect((await documentOf({}, 'A4').document).html).toBe(a4);
  const colours = [...(a4 ?? '').matchAll(/(?:fill|stroke|color|background)[:="]+\s*#([0-9a-f]{3,6})\b/gi)].map(
    ([, hex]) => hex ?? '',
  );
  expect(colours.length).toBeGreaterThan(10);
  const grey = (hex: string): boolean => new Set(hex.length === 3 ? hex : (hex.match(/../g) ?? [])).size === 1;
  expect(colours.filter((hex) => !grey(hex))).toEqual([]);
});

test('P9: many positions have pages of their own, no card is more than its page', async () => {
  const { cards, pages } = await pagesOf({ count: 60, mirrored: true }, 'Letter');
  // The positions drawn, and 24 rows of boxes a page. Four of them are loosened, and drawn on that step's own card.
  expect(pages).toHaveLength(cards.length + 1 + 3);
  expect(pages.filter(({ text }) => text.includes('drawn as you see them, from behind'))).toHaveLength(2);
  expectMargins(pages, 'Letter');
});

test.each(['1 in', '70 in'])(
  'P9: two stacks on a card, one held %s deep, leave its lines on the page',
  async (depth) => {
    const request = { ...heldSource(depth), fileName: 'plan.json' };
    const means = { dataTime: '2026-11-25T10:42:00+01:00', appVersion: '0.1.0', person: '', fonts: printFonts };
    const { bytes } = await printed(browser, await cardsDocument({ ...request, ...means, paper: 'Letter' }));
    expect(await readPages(bytes)).toHaveLength(cardsAsked(request).length);
  },
);

test('P9: long names, right-to-left names and texts of marks stay texts, on the page', async () => {
  const watchOuts = [...hostileTexts.slice(0, 6), 'מפתח ⌀ 14 לא מתאים', 'تحذير', 'x'.repeat(300)];
  const stepName = `Very long name of a step, ${'which goes on and on '.repeat(6)}to its end`;
  const { pages } = await pagesOf({ watchOuts, stepName, taskName: stepName }, 'A4');
  expectMargins(pages, 'A4');
  const all = pages.map(({ text }) => text).join(' ');
  expect(all).toContain('<script>alert(1)</script>');
  expect(all.replaceAll(' ', '')).toContain('x'.repeat(300));
  expect(pages.every(({ text }, index) => text.includes(`Page ${index + 1} of ${pages.length}`))).toBe(true);
});

test('P9: a role without steps has one page that says so', async () => {
  const { cards, pages } = await pagesOf({ deep: false }, 'A4', 'Winch');
  expect(cards).toEqual([]);
  expect(pages).toHaveLength(1);
  expect(pages[0]?.text).toContain('Winch has no step on outing 1.');
});
