/** Labels as printed: read back by another program at a printer's dots, measured in dots, laid out with hostile names. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { drawsOf } from '../../renderer/engine/chance/draws.ts';
import { code128Widths, groupedTag, qrModules, tagText } from '../../renderer/engine/tag/index.ts';
import type { PrinterDpi } from '../../renderer/engine/tag/index.ts';
import { headingMm, labelPlaces, usualSizes } from '../../renderer/features/labels/labelForm.ts';
import type { LabelForm, LabelPlaces, LabelSymbols } from '../../renderer/features/labels/labelForm.ts';
import { labelsDocument, labelSheets } from '../../renderer/features/labels/labelsDocument.ts';
import type { Label } from '../../renderer/features/labels/labels.ts';
import { hostileTexts } from '../browser/hostileTexts.ts';
import { cutOut, hasReader, rasterised, readSymbols, runsAlong } from './labelRaster.ts';
import type { Raster } from './labelRaster.ts';
import { colourMap } from './printedList.ts';
import { openBrowser, poppler, printed, readPages } from './printedPdf.ts';
import { printFonts } from './printPlan.ts';

/** So many labels are read back at each density; the long form asks for 1000. */
const wanted = Number(process.env['BAGWRIGHT_LABELS'] ?? 108);
const noPoppler = 'not run here: poppler is not installed';
const noReader = 'not run here: zbarimg is not installed (Debian: apt-get install zbar-tools)';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  browser = await openBrowser();
  folder = mkdtempSync(join(tmpdir(), 'bagwright-labels-'));
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

function manyLabels(count: number, name: (at: number) => string = (at) => `Socket ${at}, 3/8 in drive`): Label[] {
  const draws = drawsOf(8);
  const upTo = (most: number): number => Math.floor(draws.uniform() * (most + 1));
  return Array.from({ length: count }, (_, at) => ({
    text: tagText({ kind: at % 5 === 0 ? 'bag' : 'item', tag: 1 + upTo(999_998), piece: upTo(999) }),
    ...{ code: `S-${at}`, name: name(at), said: `piece ${1 + (at % 9)} of 9` },
  }));
}

const formOf = (symbols: LabelSymbols, dpi: PrinterDpi, on: LabelForm['on'] = 'sheet'): LabelForm => ({
  ...{ symbols, dpi, on },
  ...usualSizes[symbols],
});

async function printedLabels(labels: readonly Label[], form: LabelForm, paper: 'A4' | 'Letter' = 'A4') {
  const document = await labelsDocument({
    ...{ labels, form, paper, source: 'Shelf Crew', revision: '—', dataTime: '2026-11-25T10:42:00+01:00' },
    ...{ fonts: printFonts, appVersion: '0.1.0', journal: null },
  });
  const { bytes, asked } = await printed(browser, document);
  expect(asked).toEqual([]);
  return bytes;
}

/** Margins of every printed document: 13 mm on the left, 12 or 29 mm above. [mm] */
const leftMm = 13;
const topMm = (page: number): number => (page === 0 ? 12 + headingMm : 29);

/** Where each label lies on its page, in dots of the raster. */
function placed(labels: readonly Label[], form: LabelForm, dotsPerMm: number) {
  const sheets = labelSheets({ labels, form, paper: 'A4' });
  if ('fault' in sheets) throw new Error(sheets.fault);
  const { pages, places, columns } = sheets;
  const [wideMm, highMm] = [places.width * places.dots.dotMm, places.height * places.dots.dotMm];
  return pages.flatMap((page, number) =>
    page.map((label, at) => {
      const x = (leftMm + (at % columns) * wideMm) * dotsPerMm;
      const y = (topMm(number) + Math.floor(at / columns) * highMm) * dotsPerMm;
      return { label, page: number, x, y, width: wideMm * dotsPerMm, height: highMm * dotsPerMm, places };
    }),
  );
}

/** Labels that are not read as what they are, of those cut out of the pages one by one. */
function misread(pages: readonly Raster[], labels: readonly Label[], form: LabelForm, dpi: number): string[] {
  const cut = placed(labels, form, dpi / 25.4).map(({ label, page, x, y, width, height }, at) => {
    const file = join(folder, `label-${at}.pgm`);
    const raster = pages[page];
    if (raster === undefined) throw new Error(`no page ${page + 1}`);
    const corner = { x: Math.round(x), y: Math.round(y) };
    cutOut(raster, { ...corner, width: Math.round(width), height: Math.round(height) }, file);
    return { label, file };
  });
  const read = readSymbols(cut.map(({ file }) => file));
  return cut.flatMap(({ label, file }) => {
    const found = (read.get(file) ?? []).toSorted();
    const due = [
      ...(form.symbols === 'square' ? [] : [`CODE-128:${label.text}`]),
      ...(form.symbols === 'bars' ? [] : [`QR-Code:${label.text}`]),
    ];
    return JSON.stringify(found) === JSON.stringify(due) ? [] : [`${label.text}: ${found.join(', ')}`];
  });
}

/** How many dots from a symbol's edge on are white, going one way; the first of them may have a rest of the edge's grey. */
function whiteFrom(raster: Raster, at: { x: number; y: number }, step: { x: number; y: number }): number {
  if (raster.at(at.x, at.y) < 128) return 0;
  let count = 1;
  while (count < 400 && raster.at(at.x + count * step.x, at.y + count * step.y) > 235) count += 1;
  return count;
}

interface Measured {
  /** Symbols whose dots are not those of their digits. */
  wrong: string[];
  barQuiet: number;
  moduleQuiet: number;
}

/** Bars and squares of every label, dot by dot: each line's runs of dark and light, and the white around. */
function measured(pages: readonly Raster[], labels: readonly Label[], form: LabelForm, places: LabelPlaces): Measured {
  const { dots, bars, square } = places;
  const found: Measured = { wrong: [], barQuiet: Infinity, moduleQuiet: Infinity };
  for (const { label, page, x, y, width } of placed(labels, form, 1 / dots.dotMm)) {
    const raster = pages[page];
    if (raster === undefined || bars === null || square === null) throw new Error('both symbols are measured');
    const inside = { from: Math.round(x) + 4, to: Math.round(x + width) - 4 };
    const barsY = Math.round(y + bars.y + bars.height / 2);
    const along = runsAlong(raster, barsY, inside);
    const due = code128Widths(label.text).map((modules) => modules * dots.bar);
    if (along.runs.join(' ') !== due.join(' ')) found.wrong.push(`bars of ${label.text}: ${along.runs.join(' ')}`);
    const lastX = along.firstX + along.runs.reduce((sum, run) => sum + run, 0);
    const bothSides = [
      whiteFrom(raster, { x: along.firstX - 1, y: barsY }, { x: -1, y: 0 }),
      whiteFrom(raster, { x: lastX, y: barsY }, { x: 1, y: 0 }),
    ];
    found.barQuiet = Math.min(found.barQuiet, ...bothSides);

    const size = 21 * dots.module;
    const left = { from: Math.round(x) + 4, to: Math.round(x + square.x) + size + 8 };
    const modules = qrModules(label.text);
    const top = Math.round(y + square.y);
    // The finders' outer edges: the square's corner, to the dot.
    const firstX = runsAlong(raster, top + 2 * dots.module, left).firstX;
    let firstY = top - 6;
    while (raster.at(firstX + 1, firstY) > 128) firstY += 1;
    for (const [row, line] of modules.entries()) {
      const rowY = firstY + row * dots.module;
      for (const edgeY of [rowY, rowY + dots.module - 1]) {
        const seen = line.map((_, at) =>
          [firstX + at * dots.module, firstX + (at + 1) * dots.module - 1].map((edgeX) => raster.at(edgeX, edgeY)),
        );
        const isSame = line.every((isDark, at) => seen[at]?.every((value) => value < 128 === isDark) ?? false);
        if (!isSame) found.wrong.push(`row ${row + 1} of the square of ${label.text}`);
      }
    }
    const [midX, midY] = [firstX + 3 * dots.module, firstY + 3 * dots.module];
    const lastModule = firstY + size - 4 * dots.module;
    const around = [
      whiteFrom(raster, { x: firstX - 1, y: midY }, { x: -1, y: 0 }),
      whiteFrom(raster, { x: firstX + size, y: midY }, { x: 1, y: 0 }),
      whiteFrom(raster, { x: midX, y: firstY - 1 }, { x: 0, y: -1 }),
      whiteFrom(raster, { x: midX, y: lastModule + 4 * dots.module }, { x: 0, y: 1 }),
    ];
    found.moduleQuiet = Math.min(found.moduleQuiet, ...around);
  }
  return found;
}

describe.each([203, 300] as const)('P8: on a printer of %i dots to the inch', (dpi) => {
  test('bars and square of every label are read, and the digits below them are theirs', async (context) => {
    const labels = manyLabels(wanted);
    const form = formOf('both', dpi);
    const bytes = await printedLabels(labels, form);
    const texts = (await readPages(bytes)).map(({ text }) => text).join(' ');
    expect(labels.filter(({ text }) => !texts.includes(groupedTag(text)))).toEqual([]);
    if (!hasReader) return context.skip(noReader);
    const pages = rasterised(bytes, dpi, folder);
    if (pages === null) return context.skip(noPoppler);
    expect(misread(pages, labels, form, dpi)).toEqual([]);
    return undefined;
  }, 900_000);

  test('bars and modules are whole dots, and the white around is as wide as it must be', async (context) => {
    const form = formOf('both', dpi);
    // Two pages: the first has a heading above.
    const labels = manyLabels(24);
    const places = labelPlaces(form);
    const pages = rasterised(await printedLabels(labels, form), 25.4 / places.dots.dotMm, folder);
    if (pages === null) return context.skip(noPoppler);
    const { wrong, barQuiet, moduleQuiet } = measured(pages, labels, form, places);
    expect(wrong).toEqual([]);
    // ISO/IEC 15417: 10 X; ISO/IEC 18004: 4 modules.
    expect(barQuiet).toBeGreaterThanOrEqual(10 * places.dots.bar);
    expect(moduleQuiet).toBeGreaterThanOrEqual(4 * places.dots.module);
    return undefined;
  });

  test.for(['bars', 'square'] as const)(
    'a label with its %s alone, printed by itself, is read too',
    async (symbols, context) => {
      if (!hasReader) return context.skip(noReader);
      const labels = manyLabels(6);
      const singles = rasterised(await printedLabels(labels, formOf(symbols, dpi, 'single')), dpi, folder);
      if (singles === null) return context.skip(noPoppler);
      const heads = singles.length - labels.length;
      expect(heads).toBeGreaterThanOrEqual(1);
      const files = singles.slice(heads).map((single, at) => {
        const file = join(folder, `single-${at}.pgm`);
        cutOut(single, { x: 0, y: 0, width: single.width, height: single.height }, file);
        return file;
      });
      const read = readSymbols(files);
      const kind = symbols === 'bars' ? 'CODE-128' : 'QR-Code';
      expect(files.map((file) => read.get(file))).toEqual(labels.map(({ text }) => [`${kind}:${text}`]));
      return undefined;
    },
  );
});

const spread = (pixel: Buffer): number => Math.max(...pixel) - Math.min(...pixel);

describe('P9: sheets', () => {
  const names = [
    ...hostileTexts,
    'x'.repeat(10_000),
    'مفتاح ربط الصمام الرئيسي',
    'Ключ торцевой 3/8',
    '\u202egpj.exe',
    'a\u0000b\ud800',
    '',
  ];

  test('keep names of every kind within their labels, and run nothing of them', async () => {
    const labels = manyLabels(names.length, (at) => names[at] ?? '').map((label, at) => ({
      ...label,
      code: at % 7 === 0 ? `C-${'W'.repeat(78)}` : label.code,
    }));
    for (const symbols of ['both', 'square'] as const) {
      const form = formOf(symbols, 203);
      const pages = await readPages(await printedLabels(labels, form));
      const own = placed(labels, form, 1);
      for (const { label, page, x, y, width, height } of own) {
        const texts = pages[page]?.texts ?? [];
        const digits = texts.filter(
          ({ text }) => groupedTag(label.text).startsWith(text) || text.includes(groupedTag(label.text)),
        );
        const there = digits.find(({ xMm, yMm }) => xMm >= x && xMm < x + width && yMm >= y && yMm <= y + height);
        expect(there, `${symbols}: the digits of ${label.code} in its place`).toBeDefined();
      }
      const small = pages.flatMap(({ texts }) => texts).filter(({ sizePt }) => sizePt < 7.9);
      expect(small).toEqual([]);
      expect(pages.map(({ text }) => text).join(' ')).not.toContain('\u202e');
    }
  });

  test.each([
    ['none', 0, 1],
    ['one', 1, 1],
    ['exactly a full page', 18, 1],
    ['one more', 19, 2],
  ])('hold %s', async (_name, count, pageCount) => {
    const labels = manyLabels(count);
    const pages = await readPages(await printedLabels(labels, formOf('both', 203)));
    expect(pages.length).toBe(pageCount);
    expect(pages[0]?.text).toContain(count === 0 ? 'No label: nothing chosen has a label number.' : 'Print at 100 %');
    for (const [at, { text }] of pages.entries()) {
      expect(text).toContain(`Page ${at + 1} of ${pageCount}`);
      expect(text).toContain('Torque and lifting can hurt people.');
      expect(text).toContain('Journal: not read');
    }
    const all = pages.map(({ text }) => text).join(' ');
    expect(all.match(/\b[12] \d{6} \d{3} \d{2}\b/g) ?? []).toEqual(labels.map(({ text }) => groupedTag(text)));
  });

  test('hold fewer on Letter, and a label that is larger than a sheet is refused', async () => {
    const form = formOf('both', 300);
    const pages = await readPages(await printedLabels(manyLabels(16), form, 'Letter'));
    expect(pages.length).toBe(2);
    const large = { ...form, heightMm: 179, widthMm: 179 };
    expect(labelSheets({ labels: [], form: large, paper: 'Letter' })).toHaveProperty('pages');
    expect(labelSheets({ labels: [], form: { ...form, widthMm: 20 }, paper: 'A4' })).toEqual({
      fault: expect.stringContaining('20 mm wide: its symbols, their white and its words need'),
    });
    await expect(printedLabels([], { ...form, on: 'single' })).rejects.toThrow('no label to print');
  });

  test('P11: are tagged, titled, grey, with their fonts in them, link to nothing and are small', async (context) => {
    const bytes = await printedLabels(manyLabels(180), formOf('both', 203));
    expect(bytes.length).toBeLessThanOrEqual(1_000_000);
    const source = Buffer.from(bytes).toString('latin1');
    expect(source).not.toMatch(/\/URI|\/JavaScript|\/Launch/);
    const pages = rasterised(bytes, 40, folder);
    if (pages === null) return context.skip(noPoppler);
    const file = join(folder, 'labels.pdf');
    const { samples } = colourMap(poppler('pdftoppm', ['-r', '40', '-l', '2', file]) ?? Buffer.alloc(0));
    const coloured = samples.filter((_, at) => at % 3 === 0 && spread(samples.subarray(at, at + 3)) > 2).length;
    expect(coloured).toBe(0);
    const info = poppler('pdfinfo', [file])?.toString() ?? '';
    expect(info).toMatch(/^Tagged:\s+yes/m);
    expect(info).toMatch(/^Title:\s+Labels: Shelf Crew/m);
    const fonts = (poppler('pdffonts', [file])?.toString() ?? '').split('\n').slice(2).filter(Boolean);
    expect(fonts.length).toBeGreaterThan(0);
    expect(fonts.filter((line) => !/\syes\s+(?:yes|no)\s+(?:yes|no)\s+\d+\s+\d+\s*$/.test(line))).toEqual([]);
    return undefined;
  });
});
