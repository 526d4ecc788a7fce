import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { manifestDocument } from '../../renderer/features/manifest/manifestDocument.ts';
import { codes, documentRows, expectMargins, listHeader, listParts, listRows, stepHeader } from './printedList.ts';
import type { PrintedPage } from './printedPdf.ts';
import { expectSigned, printing, type PrintedManifest } from './printing.ts';
import { printRequest, type PrintCase } from './printPlan.ts';

const { print } = printing();

function furnitureMissing(page: PrintedPage, index: number, count: number, hash: string): string[] {
  const wanted = [
    `Page ${index + 1} of ${count}`,
    'Manifest: Azimuth drive change, outing 1',
    'Outing: outing 1',
    'Task: SR-01, Azimuth drive change',
    'Revision: not frozen',
    'Data of 2026-11-25 10:42 UTC+01:00',
    'Bagwright 0.1.0',
    `Content ${hash}`,
    'Units as written, the other in brackets. Nominal values rounded half to even, limits inward, applied bands to four digits.',
    `Uncontrolled when printed unless checked against content ${hash}.`,
    'Torque and lifting can hurt people. These values support a qualified person’s decision. They do not replace the approved drawing, procedure, maker’s data or local code; where those differ, those govern. Verify before use; a licensed or certified person decides.',
  ];
  return wanted.filter((text) => !page.text.includes(text));
}

describe.each([
  { lines: 220, paper: 'A4' as const },
  { lines: 220, paper: 'Letter' as const },
  { lines: 1000, paper: 'A4' as const },
])('a manifest of $lines lines on $paper', ({ lines, paper }) => {
  let made: PrintedManifest;
  beforeAll(async () => {
    made = await print({
      lines,
      paper,
      nameOf: (index) => `from${index} cap for the sealing ring of the outer bearing, kept with its pin to${index}`,
    });
  });

  test('P1: says "Page n of m" on every page, and repeats the header over every run of lines', () => {
    const { pages } = made;
    expect(pages.length).toBeGreaterThan(lines / 30);
    expect(pages.map(({ text }, index) => text.includes(`Page ${index + 1} of ${pages.length}`))).toEqual(
      pages.map(() => true),
    );
    const parts = listParts(pages).filter((text) => codes.test(text));
    expect(parts.length).toBeGreaterThan(lines / 30);
    expect(parts.filter((text) => !text.includes(listHeader))).toEqual([]);
    const withSteps = pages.filter(({ text }) => text.includes('Torque B1–B12'));
    expect(withSteps.length).toBeGreaterThan(0);
    expect(withSteps.filter(({ text }) => !text.includes(stepHeader))).toEqual([]);
  });

  test('P1: splits no line over two pages', () => {
    const split = listParts(made.pages).flatMap((text) => {
      const starts = new Set([...text.matchAll(/from(\d+)/g)].map(([, n]) => n));
      const ends = new Set([...text.matchAll(/to(\d+)/g)].map(([, n]) => n));
      return [...new Set([...starts, ...ends])].filter((n) => !starts.has(n) || !ends.has(n));
    });
    expect(split).toEqual([]);
  });

  test('P2, H10: every page carries the whole furniture and the caution', () => {
    const missing = made.pages.map((page, index) => furnitureMissing(page, index, made.pages.length, made.hash));
    expect(missing).toEqual(made.pages.map(() => []));
  });

  test('P3: every line is there once, with its pieces', () => {
    const rows = made.pages.flatMap(listRows);
    expect(rows).toHaveLength(lines);
    expect(new Set(rows.map(({ code }) => code)).size).toBe(lines);
    const { result } = printRequest({ lines });
    const pieces = result.outings[0]?.items.reduce((sum, { quantity }) => sum + quantity, 0);
    expect(rows.reduce((sum, row) => sum + row.pieces, 0)).toBe(pieces);
  });

  test('P4: ends with its count, and the signatures stand whole beside a line', () => {
    expectSigned(made, lines);
  });

  test('P5: nothing lies within 10 mm of the edge, nothing is below 8 pt, lines are at 10 pt', () => {
    expectMargins(made.pages, paper);
    const sizes = made.pages.flatMap(({ texts }) => texts.map(({ sizePt }) => sizePt));
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(8);
    const body = made.pages.flatMap(({ texts }) =>
      texts.filter(({ text, xMm }) => (codes.test(text) && xMm < 16) || /^from\d/.test(text)),
    );
    expect(body.length).toBeGreaterThan(lines);
    expect(body.filter(({ sizePt }) => sizePt < 9.99)).toEqual([]);
  });
});

test('P2: a frozen manifest carries its number and its hash on every page, and who froze it, when and why', async () => {
  const hash = '0123456789abcdef'.repeat(4);
  const { result } = printRequest({ lines: 60 });
  const thing = { id: 'TT-2', name: 'Torque tool', kind: 'torque-tool', parts: 2, tag: 17 } as const;
  const things = [{ ...thing, serial: 'N-17', calibrationDue: '2027-03-01' }];
  const frozen = {
    ...{ number: 12, hash, at: '2026-11-25T10:42:00+01:00', by: { name: 'P. Packer', role: 'packer' } },
    ...{
      why: `Invented. ${'The mast was changed. '.repeat(80)}`,
      content: { planText: '{}', result, things, lines: [], facts: [] },
    },
  };
  const { pages } = await print({ lines: 60, frozen });
  expect(pages.length).toBeGreaterThan(2);
  for (const page of pages) {
    expect(page.text).toContain('Revision: 12');
    expect(page.text).toContain('Content 0123 4567');
    expect(page.text).toContain('unless checked against content 0123 4567');
    expect(page.text).not.toContain('not frozen');
  }
  const first = pages[0]?.text ?? '';
  expect(first).toContain('Revision 12, frozen 2026-11-25 10:42 UTC+01:00 by P. Packer, packer: Invented.');
  expect(first).toContain(hash.replaceAll(/(.{8})(?=.)/g, '$1 '));
  // Beside it in its row stand other cells: it is read line by line.
  const said = pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ');
  for (const words of ['label 17, serial N-17', '2027-03-01', '2 parts each']) expect(said).toContain(words);
  expectMargins(pages, 'A4');
});

describe('P3, P4: 100 manifests of random lengths and pieces', () => {
  const random = fc.record({
    lines: fc.integer({ min: 1, max: 70 }),
    seed: fc.integer({ min: 0, max: 8 }),
    letter: fc.boolean(),
  });
  const cases = fc
    .sample(random, { numRuns: 100, seed: 20_261_125 })
    .toSorted((a, b) => a.lines - b.lines)
    .map(({ lines, seed, letter }): PrintCase => ({
      lines,
      paper: letter ? 'Letter' : 'A4',
      quantityOf: (index) => ((index * 7 + seed) % 9) + 1,
    }));

  function expected(wanted: PrintCase): { rows: string[]; ending: string } {
    const items = printRequest(wanted).result.outings[0]?.items ?? [];
    const total = items.reduce((sum, { quantity }) => sum + quantity, 0);
    return {
      rows: items.map(({ id, quantity }) => `${id} ${quantity}`),
      ending: `End of manifest, ${total} piece${total === 1 ? '' : 's'} in ${wanted.lines} line`,
    };
  }

  test('all 100: the document handed to the printer has every line once, its pieces and their sum', async () => {
    for (const wanted of cases) {
      const { html } = await manifestDocument(printRequest(wanted));
      const { rows, ending } = expected(wanted);
      expect(documentRows(html)).toEqual(rows);
      expect(html.replace(/\s+/g, ' ')).toContain(ending);
    }
  });

  // Where pages end depends on the length: every twenty-fifth is printed, from the shortest to the longest.
  test('every twenty-fifth by length: the PDF has the same lines and sum, and its signatures stand beside a line', async () => {
    for (const wanted of cases.filter((_, index) => index % 25 === 12)) {
      const made = await print(wanted);
      const { rows, ending } = expected(wanted);
      expect(made.pages.flatMap(listRows).map(({ code, pieces }) => `${code} ${pieces}`)).toEqual(rows);
      expect(made.pages.at(-1)?.text).toContain(ending);
      expectSigned(made, wanted.lines);
    }
  });
});

describe('P9: layouts that go wrong first', () => {
  /** Every name of the list is found whole on one page. */
  function expectNames(pages: readonly PrintedPage[], names: readonly string[]): void {
    const loose = (text: string): string => text.normalize('NFKC').replace(/[\s\u00ad]/g, '');
    const found = pages.map((page) => loose(page.text));
    expect(names.filter((name) => !found.some((text) => text.includes(loose(name))))).toEqual([]);
  }

  test('long names wrap in their cells and are cut only in the margins', async () => {
    const name = (index: number): string =>
      `Very long name of piece ${index}, ${'which goes on and on '.repeat(7)}to its end ${index}`;
    const long =
      'Change of the azimuth drive and of everything that has to come off before it can be reached, in two outings';
    const { pages } = await print({ lines: 20, nameOf: name, taskName: long, outingName: `${long}, the first` });
    expectNames(pages, [name(1), name(18), long]);
    expectMargins(pages, 'A4');
    for (const [index, page] of pages.entries()) {
      expect(page.text).toContain(`Page ${index + 1} of ${pages.length}`);
      expect(page.text).toContain('Manifest: Change of the azimuth drive');
      expect(page.text).toContain('Task: SR-01, Change of the azimuth drive');
      expect(page.text).toContain('Outing: Change of the azimuth drive');
    }
    const word = 'x'.repeat(180);
    const unbroken = await print({ lines: 3, nameOf: () => word });
    expectMargins(unbroken.pages, 'A4');
    expectNames(unbroken.pages, [word]);
  });

  test('an id of 16 letters stays on one line, a longer one breaks after a hyphen', async () => {
    const ids = ['sk-i14-7-16-6', 'WW-WWWWWWWW-WWWW', 'WWWWWWWWWWWWWWWW', 'SK-WWWWWWWWWW-WWWWWW'];
    for (const paper of ['A4', 'Letter'] as const) {
      const { pages } = await print({ lines: 6, paper, idOf: (index) => ids[index - 1] ?? '' });
      const codesPrinted = pages.flatMap(({ texts }) => texts.filter(({ xMm }) => xMm < 16).map(({ text }) => text));
      for (const id of [...ids.slice(0, 3), 'SK-WWWWWWWWWW-', 'WWWWWW']) expect(codesPrinted).toContain(id);
      expectMargins(pages, paper);
    }
  });

  test('letters of other scripts are printed, with no replacement signs', async () => {
    const names = ['Ключ на 14', 'Ščítok č. 5', 'Κλειδί ⌀ 14 ≤ 15', 'Clé à pipe nº 14', 'Größe 14 ± 0,1'];
    const { pages } = await print({ lines: 7, nameOf: (index) => names[(index - 1) % names.length] ?? '' });
    expectNames(pages, names);
    expect(pages.some(({ text }) => text.includes('\ufffd'))).toBe(false);
  });

  test('a name written from right to left stays in its cell and turns nothing around it', async () => {
    const { pages } = await print({ lines: 4, nameOf: () => 'מפתח 14', taskName: 'משימה' });
    expect(pages.flatMap(listRows).map(({ code }) => code)).toEqual(['TT-2', 'S-18D', 'G-0001', 'G-0002']);
    const name = pages[0]?.texts.find(({ text }) => text.includes('מ') && !text.includes('מש') && !text.includes(':'));
    const header = pages[0]?.texts.find(({ text }) => text === 'Packed when');
    expect((name?.xMm ?? 0) + (name?.widthMm ?? 0)).toBeLessThanOrEqual(header?.xMm ?? 0);
    expectMargins(pages, 'A4');
  });

  test('no lines: says that there is nothing to pack, and is still signed', async () => {
    const made = await print({ lines: 0 });
    expect(made.pages[0]?.text).toContain('Nothing to pack: no step of this outing needs a piece.');
    expectSigned(made, 0);
  });

  test('one line', async () => {
    const made = await print({ lines: 1 });
    expect(made.pages.flatMap(listRows)).toHaveLength(1);
    expectSigned(made, 1);
    expect(made.pages.at(-1)?.text).toContain('in 1 line.');
  });

  test('exactly one full page: one line more, and the list takes a second page with a line beside its signatures', async () => {
    const pagesOfList = async (lines: number): Promise<{ made: PrintedManifest; pages: number }> => {
      const made = await print({ lines });
      return { made, pages: made.pages.filter((page) => listRows(page).length > 0).length };
    };
    // The list takes one page up to some length and two from there on; halving finds the length.
    let [full, over] = [5, 13];
    const first = await pagesOfList(full);
    let made = first.made;
    expect(first.pages).toBe(1);
    let next = await pagesOfList(over);
    expect(next.pages).toBeGreaterThan(1);
    while (over - full > 1) {
      const middle = Math.floor((full + over) / 2);
      const tried = await pagesOfList(middle);
      if (tried.pages > 1) [over, next] = [middle, tried];
      else [full, made] = [middle, tried.made];
    }
    expectSigned(next.made, over);
    expect(full).toBeGreaterThan(5);
    expect(made.pages.slice(0, 1).flatMap(listRows)).toHaveLength(full);
    expectSigned(made, full);
  });
});
