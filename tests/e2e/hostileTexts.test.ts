/**
 * Texts that mean something to a browser, in every field that takes words, brought in by file and by table and shown at every
 * place of the window: acceptance line S21, and S19 for
 * the window's thread. What prints is looked at by the tests of manifest, cards, report and labels.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateSync } from 'fflate';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { hostileTexts } from '../browser/hostileTexts.ts';
import { scratchFolder } from '../electron/support/site.ts';
import { book, bookParts, packed, textRow } from '../engine/sheet/xlsx/packed.ts';
import { chooseFile, workMs } from './driveWindow.ts';
import { openBuilt, type OpenedBuild } from './support/openBuilt.ts';

/** Fields of a plan that are for a person's words alone. */
const wordy = new Set(['name', 'notes', 'site', 'crew', 'about', 'calloutSource', 'watchOuts']);

let at = 0;
const nextText = (): string => hostileTexts[at++ % hostileTexts.length] ?? '';

function withHostile(value: unknown, field = ''): unknown {
  if (Array.isArray(value)) return value.map((one) => withHostile(one, field));
  if (typeof value === 'string') return wordy.has(field) ? nextText() : value;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, held]) => [name, withHostile(held, name)]));
}

let built: OpenedBuild;
let page: Page;
const dialogs: string[] = [];
beforeAll(async () => {
  built = await openBuilt({ blank: true });
  page = built.page;
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  await page.addInitScript(`
    window.violations = [];
    addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI }) =>
      window.violations.push(effectiveDirective + ' ' + blockedURI));
  `);
  await page.goto(`${built.origin}/`);
  await page.getByRole('heading', { name: 'What do you have in front of you?' }).waitFor();
});
afterAll(() => built.close());

/** What no text of ours may become; the program's own page has none of these. */
const made =
  'iframe, object, embed, base, marquee, video, template, noscript p, math, details[ontoggle], meta[http-equiv], foreignObject, ' +
  'svg style, body script, link[href*=example], form[action], img[src=x], [onerror], [onload], [onclick], [onfocus], [onmouseover], [onstart]';

async function strange(): Promise<string[]> {
  const found = await page.evaluate(
    (selector) =>
      [...document.querySelectorAll(selector)].map(({ tagName, className, textContent }) =>
        `${tagName}.${String(className)} ${textContent}`.slice(0, 200),
      ),
    made,
  );
  const links = await page.evaluate(() =>
    [...document.querySelectorAll('a[href]')]
      .map((link) => link.getAttribute('href') ?? '')
      .filter((href) => !/^(?:#|blob:|\/document\/)/.test(href)),
  );
  return [...found, ...links, ...((await page.evaluate('window.violations')) as string[])];
}

const settle = (): Promise<void> => page.waitForTimeout(150);

it(`tries ${hostileTexts.length} texts in every field of words, at every place: nothing becomes of them but text`, async () => {
  expect(hostileTexts.length).toBeGreaterThanOrEqual(60);
  const plan: unknown = JSON.parse(readFileSync('data/demo/skua-rock-light.json', 'utf8'));
  const file = join(scratchFolder(), 'plan <img src=x onerror=alert(1)>.json'.replaceAll('/', ''));
  writeFileSync(file, JSON.stringify(withHostile(plan)));
  expect(at).toBeGreaterThan(2 * hostileTexts.length);
  await chooseFile(page, file);
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('button', { name: /^Add \d/ }).waitFor();
  expect(await strange()).toEqual([]);
  await dialog.getByRole('button', { name: /^Add \d/ }).click();
  await dialog.getByRole('button', { name: 'Open the task' }).click();
  await page.getByRole('heading', { name: 'Still open' }).waitFor();

  await page.evaluate(() => (location.hash = '#/callouts'));
  await page.getByRole('button', { name: 'Import…' }).first().click();
  const cell = (text: string): string => `"'${text.replaceAll('"', '""')}"`;
  const rows = hostileTexts
    .filter((text) => text.length < 200)
    .map((text, row) => `C-${row},M10x1.5,40 N·m,50 N·m,${cell(text)}`);
  await page.getByLabel(/^A file/).setInputFiles({
    ...{ name: '<svg onload=alert(1)>.csv', mimeType: 'text/csv' },
    buffer: Buffer.from([`id,thread,torqueMin,torqueMax,"<img src=x onerror=alert(1)>"`, ...rows].join('\r\n')),
  });
  await page.getByRole('button', { name: 'Try all rows' }).click();
  const add = page.getByRole('button', { name: `Add ${rows.length} callouts` });
  await add.waitFor();
  expect(await strange()).toEqual([]);
  await add.click();
  await page.getByRole('heading', { name: `Added ${rows.length} callouts` }).waitFor();
  await page.getByRole('button', { name: 'Close' }).last().click();

  const places = await page.evaluate(() =>
    [...document.querySelectorAll('nav a[href^="#/"]')].map((link) => link.getAttribute('href') ?? ''),
  );
  expect(new Set(places).size).toBeGreaterThan(8);
  for (const place of new Set(places)) {
    await page.evaluate((to) => (location.hash = to), place);
    await settle();
    expect(await strange(), place).toEqual([]);
    // What is in hand has its sheet beside the list.
    const row = page.locator('[role=row][tabindex]').nth(1);
    if (await row.isVisible()) {
      await row.click();
      await settle();
      expect(await strange(), `${place}, a row in hand`).toEqual([]);
    }
  }
  await page.keyboard.press('Control+k');
  await page.getByRole('combobox', { name: 'Find or do' }).fill('<img src=x onerror=alert(1)>');
  await settle();
  expect(await strange()).toEqual([]);
  await page.keyboard.press('Escape');
  expect(await page.title()).not.toContain('\u202e');

  expect(dialogs).toEqual([]);
  expect(built.requestsOutside).toEqual([]);
  expect(built.pageErrors).toEqual([]);
  // And what does not belong there is seen.
  await page.evaluate(
    `document.body.insertAdjacentHTML('beforeend', '<p id="planted"><img src=x onerror=alert(1)></p>'); 0`,
  );
  expect(await strange()).not.toEqual([]);
  await page.evaluate(`document.querySelector('#planted').remove(); window.violations.length = 0; 0`);
});

/** Workbooks that cost their reader most, each with the reason it is refused for. */
const costly: [string, () => Uint8Array, RegExp][] = [
  [
    'ten thousand times what it says',
    () =>
      packed(
        bookParts({ rows: textRow(1, ['id']) }).map((part) =>
          part.name === 'xl/worksheets/sheet1.xml'
            ? {
                ...part,
                content: 'x',
                packed: deflateSync(new Uint8Array(60e6)),
                says: { unpackedBytes: 5000, crc: 0 },
              }
            : part,
        ),
      ),
    /has more/,
  ],
  ['tags within tags', () => book({ sheetXml: `<worksheet>${'<a>'.repeat(1_000_000)}` }), /nested deeper|grows/],
  [
    'a reach over every cell',
    () => book({ rows: textRow(1, ['id']), before: '<dimension ref="A1:XFD1048576"/>' }),
    /cells/,
  ],
];

it('leaves the window’s own thread free while it refuses a workbook that would burst it', async () => {
  await page.evaluate(() => (location.hash = '#/callouts'));
  await page.getByRole('button', { name: 'Import…' }).first().click();
  const choose = (buffer: Uint8Array): Promise<void> =>
    page.getByLabel(/^A file/).setInputFiles({ name: 'list.xlsx', mimeType: '', buffer: Buffer.from(buffer) });
  const good = book({ rows: `${textRow(1, ['id', 'thread'])}${textRow(2, ['C-1', 'M10'])}` });
  const usualMs = await workMs(page, async () => {
    await choose(good);
    await page.getByRole('button', { name: 'Try all rows' }).waitFor();
  });
  for (const [what, make, reason] of costly) {
    const bytes = make();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    await page.getByRole('button', { name: 'Import…' }).first().click();
    const spentMs = await workMs(page, async () => {
      await choose(bytes);
      await page.getByText(reason).first().waitFor();
    });
    // Of the page's own thread; what a worker does is not in it.
    expect(spentMs, what).toBeLessThan(usualMs + 200);
  }
  expect(built.pageErrors.filter((error) => !/inline event handler|Content Security Policy|404/.test(error))).toEqual(
    [],
  );
});
