/** What the printed file is: its boxes, fonts and greys, what it may open, and the sheets that are no whole manifest. */
import { writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { hostileTexts } from '../browser/hostileTexts.ts';
import { colourMap, greyMap, listRows } from './printedList.ts';
import { poppler } from './printedPdf.ts';
import { printing } from './printing.ts';

const { print, scratch } = printing();

describe('what the PDF is', () => {
  test('P5: boxes to tick are at least 5 mm, measured on the printed page', async (context) => {
    const { bytes, pages } = await print({ lines: 12 });
    const file = scratch('boxes.pdf');
    writeFileSync(file, bytes);
    const picture = poppler('pdftoppm', ['-r', '300', '-gray', '-f', '1', '-l', '1', file]);
    if (picture === null) return context.skip('poppler is not installed: the printed boxes were not measured');
    const { width, grey } = greyMap(picture);
    const header = pages[0]?.texts.find(({ text }) => text === 'Out');
    if (header === undefined) throw new Error('The list has a column Out.');
    const pxPerMm = 300 / 25.4;
    const x = Math.round((header.xMm + header.widthMm / 2) * pxPerMm);
    const fromY = Math.round((header.yMm + 1) * pxPerMm);
    // Down the column's middle: a box is a run of white between its two dark borders, lying between lines of the table.
    const dark = (y: number): boolean => (grey[y * width + x] ?? 255) < 110;
    const borders: number[] = [];
    for (let y = fromY; y < fromY + 200 * pxPerMm; y += 1) if (dark(y) && !dark(y - 1)) borders.push(y);
    const boxes = borders
      .slice(1)
      .map((y, index) => (y - (borders[index] ?? 0)) / pxPerMm)
      .filter((mm) => mm > 4.2 && mm < 7);
    expect(boxes.length).toBeGreaterThanOrEqual(12);
    expect(Math.min(...boxes)).toBeGreaterThanOrEqual(5 - 0.1);
    return undefined;
  });

  test('P11: tagged, titled, its fonts within it, nothing linked, small', async (context) => {
    const { bytes, pages, asked } = await print({ lines: 220 });
    expect(asked).toEqual([]);
    expect(bytes.length).toBeLessThanOrEqual((1_000_000 * Math.max(10, pages.length)) / 10);
    expect(Buffer.from(bytes).toString('latin1')).not.toMatch(/\/URI|\/Launch|\/JavaScript|\/EmbeddedFile/);
    const file = scratch('file.pdf');
    writeFileSync(file, bytes);
    const info = poppler('pdfinfo', [file])?.toString();
    const fonts = poppler('pdffonts', [file])?.toString();
    if (info === undefined || fonts === undefined)
      return context.skip('poppler is not installed: fonts, tags and title were not looked at');
    expect(info).toMatch(/Title:\s+Manifest: Azimuth drive change, outing 1/);
    expect(info).toMatch(/Tagged:\s+yes/);
    expect(info).toMatch(/JavaScript:\s+no/);
    const rows = fonts.trimEnd().split('\n').slice(2);
    expect(rows.length).toBeGreaterThan(1);
    // Columns from the right: object ID (two words), uni, sub, emb.
    expect(rows.map((row) => row.trim().split(/\s+/).at(-5))).toEqual(rows.map(() => 'yes'));
    return undefined;
  });

  test('greys only: no colour reaches the paper', async (context) => {
    const { bytes } = await print({ lines: 15 });
    const file = scratch('grey.pdf');
    writeFileSync(file, bytes);
    const picture = poppler('pdftoppm', ['-r', '50', file]);
    if (picture === null) return context.skip('poppler is not installed: colours were not looked at');
    const { samples } = colourMap(picture);
    let coloured = 0;
    for (let at = 0; at + 2 < samples.length; at += 3) {
      const [r = 0, g = 0, b = 0] = samples.subarray(at, at + 3);
      if (Math.max(r, g, b) - Math.min(r, g, b) > 2) coloured += 1;
    }
    expect(coloured).toBe(0);
    return undefined;
  });

  test(
    'texts typed to do harm open nothing, fetch nothing and leave the furniture whole',
    { timeout: 300_000 },
    async () => {
      const short = hostileTexts.filter((text) => text.length < 120);
      const { pages, asked } = await print({
        lines: short.length + 2,
        nameOf: (index) => short[index - 1] ?? '',
      });
      expect(asked).toEqual([]);
      expect(pages.flatMap(listRows)).toHaveLength(short.length + 2);
      // Two texts a sheet, one for the task and one for its outing: both stand in the heading and in the margins.
      for (let at = 0; at < 12; at += 2) {
        const [taskName = '', outingName = ''] = short.slice(at, at + 2);
        const made = await print({ lines: 1, taskName, outingName });
        expect(made.asked).toEqual([]);
        for (const [index, page] of made.pages.entries()) {
          expect(page.text).toContain(`Page ${index + 1} of ${made.pages.length}`);
          expect(page.text).toContain('Revision: not frozen');
          expect(page.text).toContain('Torque and lifting can hurt people.');
        }
      }
    },
  );

  test('a stopped and an infeasible answer print what they are, with the caution', async () => {
    const stopped = await print({
      lines: 5,
      result: { status: 'stopped', objective: { minimised: 'mass', value: 2, unit: 'kg', bound: 1.5, gap: 0.25 } },
    });
    expect(stopped.pages[0]?.text).toContain('Not proved least');
    expect(stopped.pages[0]?.text).not.toContain('Proved least mass');
    const none = await print({
      lines: 5,
      result: {
        status: 'infeasible',
        objective: null,
        outings: [],
        infeasible: [
          {
            step: 'b-final',
            reason: 'No stack reaches',
            closest: [{ stack: ['TT-2', 'S-18D'], fails: [{ check: 'reach', have: '2.1 in', need: '6.44 in' }] }],
          },
        ],
      },
    });
    expect(none.pages[0]?.text).toContain('No bag does every step');
    expect(none.pages[0]?.text).toContain('reach: has 2.1 in, needs 6.44 in');
    expect(none.pages.some(({ text }) => text.includes('Packed by'))).toBe(false);
    for (const { text } of none.pages) expect(text).toContain('Torque and lifting can hurt people.');
  });
});
