/**
 * What keeping costs, with the production page, the real server and a profile on the disk: `npx tsx tests/bench/saving.ts`.
 * Everything in one run, with the machine's own sync beside it, so that runs on other machines compare. A number
 * behind the command sets how many items are kept; else 50 000.
 */
import { closeSync, fdatasyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { buildIfNeeded, siteFolder } from '../../electron/launch/build.ts';
import { roundNominal } from '../../renderer/engine/units/index.ts';
import { fillOf, setUp } from '../e2e/support/burst/acts.ts';
import { buildBurstSite } from '../e2e/support/burstSite.ts';
import { KeptProgram } from '../e2e/support/keptProgram.ts';
import { damages } from '../e2e/support/profileDamage.ts';
import { dice } from '../reference/dice.ts';

declare global {
  interface Window {
    /** From each key to the frame that shows it, in milliseconds. */
    keyToPaintMs?: number[];
  }
}

const items = Number(process.argv[2] ?? 50_000);
const samples = 240;
const patienceMs = 300_000;
const ms = (value: number): string => `${roundNominal(value, 1)} ms`;
const say = (what: string, text: string): void => void process.stdout.write(`${what.padEnd(46)} ${text}\n`);

function share(values: readonly number[], part: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)] ?? Number.NaN;
}

const spread = (values: readonly number[]): string =>
  `p50 ${ms(share(values, 0.5))}, p95 ${ms(share(values, 0.95))}, p98 ${ms(share(values, 0.98))}, of ${values.length}`;

async function timed(work: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

/** One line appended and synced, without anything of the program. */
function syncsMs(folder: string): number[] {
  const file = openSync(join(folder, 'plain'), 'a');
  const line = Buffer.alloc(1_500, 'x');
  const times = Array.from({ length: samples }, () => {
    const began = performance.now();
    writeSync(file, line);
    fdatasyncSync(file);
    return performance.now() - began;
  });
  closeSync(file);
  return times;
}

/** One commit after the other, each from the call to Saved. */
function commitsMs(page: Page, label: string): Promise<number[]> {
  return page.evaluate(
    async ({ count, name }) => {
      const times: number[] = [];
      for (let n = 0; n < count; n += 1) {
        const put = { id: `${name}-${n}`, rev: 0, name: `${name} ${n}` };
        const began = performance.now();
        await window.burst.commit({
          action: 'add',
          title: 'Add',
          proposals: [{ table: 'sites', put: { ...put, code: put.id } }],
        });
        times.push(performance.now() - began);
      }
      return times;
    },
    { count: samples, name: label },
  );
}

async function keysMs(page: Page, press: (n: number) => Promise<void>, throttle: number): Promise<number[]> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: throttle });
  await page.evaluate(() => {
    const times: number[] = [];
    window.keyToPaintMs = times;
    document.addEventListener(
      'keydown',
      ({ timeStamp }) =>
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          // After the frame has been handed on: the next task after it.
          port1.addEventListener('message', () => void times.push(performance.now() - timeStamp));
          port1.start();
          port2.postMessage(null);
        }),
      { capture: true },
    );
  });
  for (let n = 0; n < samples; n += 1) await press(n);
  await page.waitForTimeout(500);
  const times = await page.evaluate(() => window.keyToPaintMs ?? []);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  await session.detach();
  return times;
}

const searched = 'filled 41S-13 mm62 g';
const scratch = mkdtempSync(join(tmpdir(), 'bagwright-bench-'));
await buildIfNeeded();
const burst = await buildBurstSite(scratch);
const program = await KeptProgram.inNewFolder();

try {
  const syncs = syncsMs(program.folders.data);
  const { page } = await program.start(burst);
  await page.goto(program.address);
  await page.evaluate(() => window.burst.open());
  const empty = await commitsMs(page, 'early');
  await page.evaluate((act) => window.burst.commit(act), setUp);
  const fillMs = await timed(async () => {
    for (const act of fillOf(items, 3)) await page.evaluate((one) => window.burst.commit(one), act);
  });
  const full = await commitsMs(page, 'late');
  const middle = share(syncs, 0.5);
  say('a line of 1 500 bytes, appended and synced', spread(syncs));
  say('one commit, nothing kept yet', `${spread(empty)}; × ${roundNominal(share(empty, 0.5) / middle, 1)} of a sync`);
  say(`one commit, ${items} items kept`, `${spread(full)}; × ${roundNominal(share(full, 0.5) / middle, 1)} of a sync`);
  say(`${items} items in acts of 500`, `${ms(fillMs)}, ${ms((fillMs / items) * 500)} an act`);
  await program.stop();

  let began = performance.now();
  const { page: sheet } = await program.start(siteFolder);
  const serverMs = performance.now() - began;
  const shown = (at: Page): Promise<void> => at.getByText(`${items} shown`).waitFor({ timeout: patienceMs });
  const startMs = await timed(async () => {
    await sheet.goto(`${program.address}#/catalog`);
    await shown(sheet);
  });
  const again: number[] = [];
  for (let n = 0; n < 5; n += 1) {
    again.push(
      await timed(async () => {
        await sheet.reload();
        await shown(sheet);
      }),
    );
  }
  say('server and browser started', ms(serverMs));
  say('address given to all items shown', `${ms(startMs)}; loaded again: ${spread(again)}`);

  const search = sheet.getByRole('searchbox');
  const form = sheet.getByLabel('Name, optional');
  for (const throttle of [1, 4]) {
    await search.click();
    const inSearch = await keysMs(
      sheet,
      async (n) => await sheet.keyboard.press(n % 5 === 4 ? 'Backspace' : (searched[n % searched.length] ?? 'a')),
      throttle,
    );
    await search.fill('');
    await shown(sheet);
    await sheet.getByRole('button', { name: 'Add item' }).click();
    await form.click();
    const inForm = await keysMs(sheet, async (n) => await sheet.keyboard.press('abcdefgh'[n % 8] ?? 'a'), throttle);
    await sheet.reload();
    await shown(sheet);
    say(`key to paint in the search, CPU × 1/${throttle}`, spread(inSearch));
    say(`key to paint in a form, CPU × 1/${throttle}`, spread(inForm));
  }
  await program.stop();

  damages['folder deleted']({ profile: program.folders.browserProfile, port: program.port, dice: dice(1) });
  const { page: mended } = await program.start(siteFolder);
  const rebuild = mended.getByRole('button', { name: 'Build the working copy again' });
  began = performance.now();
  await mended.goto(`${program.address}#/catalog`);
  await rebuild.waitFor({ timeout: patienceMs });
  const pageMs = performance.now() - began;
  const rebuildMs = await timed(async () => {
    await rebuild.click();
    await shown(mended);
  });
  say('recovery page after its folder was deleted', ms(pageMs));
  say(
    `${items} items recovered from the journal`,
    `${ms(rebuildMs)}; × ${roundNominal(rebuildMs / fillMs, 2)} of writing them`,
  );
} finally {
  await program.end();
  rmSync(scratch, { recursive: true, force: true });
}
