/**
 * The whole way of a bag, on the production build: planned, frozen, packed by a reader that types, the browser killed in the middle, counted a
 * second time, issued, counted in with one part missing, and what the next outing's manifest then says. All figures invented.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildIfNeeded, siteFolder } from '../../electron/launch/build.ts';
import { tagText } from '../../renderer/engine/tag/index.ts';
import { printed as verify } from '../electron/headless/inProcess.ts';
import { twoSource } from '../support/outAndBack.ts';
import { openFile, planToTheEnd, run } from './driveWindow.ts';
import { KeptProgram } from './support/keptProgram.ts';

const folder = mkdtempSync(join(tmpdir(), 'bagwright-out-and-back-'));
let program: KeptProgram;
beforeAll(async () => {
  await buildIfNeeded();
  program = await KeptProgram.inNewFolder();
});
afterAll(async () => {
  await program.end();
  rmSync(folder, { recursive: true, force: true });
});

/** The second outing takes a tether along too, and fetches what the first left at the mast foot. */
const [turn, wipe, fetch] = twoSource.steps;
const plan = { ...twoSource, steps: [turn, wipe, { ...fetch, gear: [{ id: 'T-07', quantity: 1 }] }] };

const press = (page: Page, name: string | RegExp): Promise<void> =>
  page
    .getByRole('button', { name, ...(typeof name === 'string' ? { exact: true } : {}) })
    .last()
    .click();
const go = (page: Page, place: string): Promise<void> => page.evaluate((to) => void (location.hash = to), place);

/** As a reader types: twelve digits and Enter in one go, however busy the machine is. */
function scan(page: Page, text: string): Promise<void> {
  return page.evaluate(
    (keys) => {
      for (const key of keys) {
        const code = key === 'Enter' ? key : `Digit${key}`;
        const at = document.activeElement ?? document.body;
        at.dispatchEvent(new KeyboardEvent('keydown', { key, code, bubbles: true, cancelable: true }));
      }
    },
    [...text, 'Enter'],
  );
}

async function bytesOf(page: Page, button: string): Promise<Buffer> {
  const waiting = page.waitForEvent('download');
  await press(page, button);
  const file = await waiting;
  const path = join(folder, file.suggestedFilename());
  await file.saveAs(path);
  return readFileSync(path);
}

/** Numbers every tether, and gives the ratchet three parts. */
async function prepareItems(page: Page): Promise<void> {
  await go(page, '#/catalog');
  await page.getByLabel(/^Find an item/).fill('R-38');
  await page.getByRole('row', { name: /R-38/ }).first().click();
  await press(page, 'Edit');
  await page.getByLabel(/^Parts to one piece/).fill('3');
  await page.keyboard.press('Control+Enter');
  await page.getByLabel(/^Parts to one piece/).waitFor({ state: 'detached' });
  await page.getByLabel(/^Find an item/).fill('');
  await go(page, '#/labels');
  await page.getByLabel('Find a thing: code or name').fill('T-07');
  await page.getByRole('row', { name: /T-07/ }).first().click();
  await press(page, 'Give 1 label number…');
  await press(page, /^Give /);
  await page.getByRole('dialog').waitFor({ state: 'detached' });
}

const openRows = (page: Page) => page.locator('.bw-pack-row:not([data-state="packed"])');

/** Presses line after line of a bag until all of it is packed, with all of its parts. */
async function packBag(page: Page, bag: string): Promise<void> {
  await go(page, `#/pack/o/${bag}`);
  await page.getByRole('heading', { name: new RegExp(`^Packing .*${bag}$`) }).waitFor();
  for (let left = await openRows(page).count(); left > 0; left = await openRows(page).count()) {
    const row = openRows(page).first();
    const was = await row.textContent();
    await row.click();
    const dialog = page.getByRole('dialog');
    if (await dialog.isVisible()) await dialog.getByRole('button', { name: /^All / }).first().click();
    await page.waitForFunction(
      (text) => [...document.querySelectorAll('.bw-pack-row')].every((one) => one.textContent !== text),
      was,
    );
  }
}

/** Another person counts a bag again, blind, as the manifest has it. */
async function countAgain(page: Page, bag: string, lines: Map<string, number[]>): Promise<void> {
  await go(page, `#/pack/o/${bag}/again`);
  await page.getByLabel('Your name').fill('S. Second');
  await page.getByLabel('Your role').fill('second counter');
  await press(page, 'Begin to count');
  for (const [item, [pieces = 0, parts = 0]] of lines) {
    await page.getByLabel(`Pieces of ${item}`, { exact: true }).fill(String(pieces));
    if (parts !== pieces) await page.getByLabel(new RegExp(`^Parts of ${item},`)).fill(String(parts));
    const keep = `Keep the count of ${item}`;
    await press(page, keep);
    await page.getByRole('button', { name: keep, exact: true }).waitFor({ state: 'detached' });
  }
  await press(page, 'Back to packing');
}

/** What a record file says of its revision's lines on an outing, and of its events. */
interface Saved {
  revision: { content: { lines: { outing: string; bag: string; item: string; quantity: number }[] } };
  events: { no: number; deed: { kind: string; label?: string } }[];
}

it('a bag is planned, frozen, packed, left, counted in, and what is missing is known to the next outing', async () => {
  const file = join(folder, 'mast.json');
  writeFileSync(file, JSON.stringify(plan));
  let { page } = await program.start(siteFolder);
  await page.goto(program.address);
  await page.getByRole('heading', { name: 'What do you have in front of you?' }).waitFor();
  await openFile(page, file);
  await prepareItems(page);
  await planToTheEnd(page);

  await run(page, 'Freeze the manifest as the next revision…');
  await page.getByLabel('Your name').fill('P. Packer');
  await page.getByLabel('Your role').fill('packer');
  await page.getByLabel('Why it is frozen').fill('First issue');
  await press(page, 'Freeze as revision 1');
  await page
    .getByRole('heading', { name: /Revision 1/ })
    .first()
    .waitFor();
  const readRecord = async (): Promise<Saved> => {
    await go(page, '#/record/1');
    return JSON.parse((await bytesOf(page, 'Save manifest with its record…')).toString('utf8')) as Saved;
  };
  const { lines } = (await readRecord()).revision.content;
  const bags = [...new Set(lines.filter(({ outing }) => outing === 'o').map(({ bag }) => bag))];
  const tetherBag = lines.find(({ outing, item }) => outing === 'o' && item === 'T-07')?.bag ?? '';

  // Two tethers by their labels, one of them read twice; then the browser is killed, all of its processes at once.
  await go(page, `#/pack/o/${tetherBag}`);
  await openRows(page).first().waitFor();
  const [first, second] = [1, 2].map((piece) => tagText({ kind: 'item', tag: 1, piece }));
  for (const label of [first, second, first]) await scan(page, label ?? '');
  await page
    .getByRole('dialog')
    .getByText(/piece 1, is counted already/)
    .waitFor();
  await press(page, 'I have seen it: go on');
  const tether = page.locator('.bw-pack-row', { hasText: 'T-07' });
  await tether.getByText('2 of 3').waitFor();
  await page.getByRole('status').filter({ hasText: 'Saved' }).waitFor();
  await program.killBrowser();
  ({ page } = await program.start(siteFolder));
  await page.goto(`${program.address}#/pack/o/${tetherBag}`);
  await page.locator('.bw-pack-row[aria-current="step"]', { hasText: 'T-07' }).getByText('2 of 3').waitFor();

  for (const bag of bags) {
    await packBag(page, bag);
    await press(page, 'Close bag');
  }
  for (const bag of bags) {
    const own = lines.filter((line) => line.outing === 'o' && line.bag === bag);
    const counts = own.map(({ item, quantity }): [string, number[]] => [
      item,
      [quantity, quantity * (item === 'R-38' ? 3 : 1)],
    ]);
    await countAgain(page, bag, new Map(counts));
  }
  await go(page, `#/pack/o/${bags[0] ?? ''}/issue`);
  await press(page, /^Issue First outing/);
  await page.getByText('First outing is out').waitFor();

  // Everything comes home but a part of the ratchet; two tethers stay on purpose, as planned.
  await go(page, '#/return/o');
  await page.getByRole('heading', { name: 'Return of First outing' }).waitFor();
  for (const bag of bags) {
    await page.locator('.bw-return-bags button', { hasText: bag }).last().click();
    for (const { item, quantity } of lines.filter((line) => line.outing === 'o' && line.bag === bag)) {
      const other = page.getByRole('button', { name: `${item}: Otherwise…` });
      await other.click();
      const dialog = page.getByRole('dialog');
      if (item === 'R-38') await dialog.getByLabel('Parts in all').fill('2');
      if (item === 'T-07' && bag !== tetherBag) {
        await dialog.getByText('It stays out there on purpose').click();
        await dialog.getByRole('button', { name: 'Leave T-07' }).click();
        await page.getByText(`${quantity} pieces left at Mast foot`).waitFor();
        continue;
      }
      await dialog.getByRole('button', { name: `Count in ${item}` }).click();
      await page.locator('.bw-return-row', { hasText: item }).getByText(`${quantity} of ${quantity} back`).waitFor();
    }
  }
  await press(page, 'Close the return…');
  await page.getByLabel('Reason').fill('A pawl fell into the water');
  await page.getByLabel('Second name').fill('S. Second');
  await page.getByLabel('Role of the second person').fill('skipper');
  await press(page, 'Close with 1 discrepancy');
  await page.getByText(/by P. Packer and S. Second/).waitFor();

  // The next outing knows: where it is packed, before anything is counted.
  await go(page, '#/pack/p');
  const known = page.locator('.bw-pack');
  await known.getByText(/2 pieces of T-07 Tool tether lie at Mast foot since First outing/).waitFor();
  await known.getByText(/1 part of R-38 Ratchet is missing since First outing, discrepancy D-1/).waitFor();

  // The record is whole, in the program and in the file that it hands on; one changed byte is found, with its number.
  await go(page, '#/record/1');
  await press(page, 'Verify record and journal');
  await page.getByText('Record whole').waitFor();
  await page.getByText('Journal whole').waitFor();
  const saved = await bytesOf(page, 'Save manifest with its record…');
  const record = join(folder, 'whole.json');
  writeFileSync(record, saved);
  const whole = JSON.parse(saved.toString('utf8')) as Saved;
  expect(whole.events.filter(({ deed }) => deed.label === first)).toHaveLength(1);
  expect((await verify('verify', record)).exit).toBe(0);
  const counted = whole.events.find(({ deed }) => deed.label === second)?.no ?? 0;
  writeFileSync(record, saved.toString('utf8').replace(second ?? '', first ?? ''));
  const broken = await verify('verify', record);
  expect(broken.exit).toBe(1);
  expect(JSON.parse(broken.out)).toMatchObject({ whole: false, fault: { number: counted } });
  expect(await verify('verify', program.folders.data)).toMatchObject({ exit: 0 });
});
