/**
 * Long work: `npx tsx tests/bench/soak.ts [DEEDS]`. A person's eight hours at the program, a deed every ten seconds, done one
 * right after the other: 2,880 of them, with the production page, the real server and the real store. Looking, searching,
 * editing, undoing, planning, previewing. What the page and the server hold is read before, between and after, each time after
 * the garbage is collected: heap, elements, listeners, workers, open files. Held against what stood after the first tenth.
 */
import { fork, type ChildProcess } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type CDPSession, type Page } from 'playwright-core';
import { roundNominal } from '../../renderer/engine/units/index.ts';
import { journalDesk } from '../../electron/journal/desk.ts';
import { mustDropSandbox, quietArguments } from '../../electron/launch/browserArguments.ts';
import { buildIfNeeded, siteFolder, siteMap } from '../../electron/launch/build.ts';
import { pdfMaker } from '../../electron/launch/pdf.ts';
import { startServer } from '../../electron/launch/server.ts';
import { helloKey } from '../../electron/launch/token.ts';
import { loadSite, readMap } from '../../electron/site/buildMap.ts';
import { goTo, openDemo, planToTheEnd } from '../e2e/driveWindow.ts';
import { chromiumHere } from '../e2e/support/openBuilt.ts';
import { ms, say } from './depot.ts';

const deeds = Number(process.argv[2] ?? 2_880);
const readings = 10;
const growthMost = 50e6;

interface ServerHeld {
  serverBytes: number;
  files: number;
  handles: number;
}

interface Held extends ServerHeld {
  deed: number;
  pageBytes: number;
  elements: number;
  listeners: number;
}

/** The program's server in a process of its own: what drives the browser holds much itself. */
async function serve(): Promise<void> {
  const data = mkdtempSync(join(tmpdir(), 'bagwright-soak-'));
  const pdf = pdfMaker({ browser: chromiumHere() });
  const journal = journalDesk({ folder: join(data, 'journal') });
  const site = loadSite(siteFolder, readMap(siteMap));
  const server = await startServer({
    port: 0,
    site,
    version: '0.0.0-test',
    dataFolder: data,
    helloKey: helloKey(data),
    journal,
    makePdf: pdf.make,
  });
  process.on('message', () => {
    globalThis.gc?.();
    const answer: ServerHeld = {
      serverBytes: process.memoryUsage().heapUsed,
      // On Linux alone; elsewhere the handles of Node stand for them.
      files: process.platform === 'linux' ? readdirSync('/proc/self/fd').length : 0,
      handles: process.getActiveResourcesInfo().length,
    };
    process.send?.(answer);
  });
  process.on('disconnect', () => {
    void Promise.all([server.close(), pdf.close()]).then(() => {
      journal.close();
      rmSync(data, { recursive: true, force: true });
      process.exit(0);
    });
  });
  process.send?.(server.origin);
}

function answerOf<T>(child: ChildProcess): Promise<T> {
  return new Promise((resolve, reject) => {
    const end = (): void => reject(new Error('the server ended'));
    child.once('exit', end);
    child.once('message', (answer) => {
      child.off('exit', end);
      resolve(answer as T);
    });
  });
}

async function held(page: Page, session: CDPSession, server: ChildProcess, deed: number): Promise<Held> {
  await goTo(page, '#/front', 'h1');
  // What finalizers let go of is collected by the second.
  await session.send('HeapProfiler.collectGarbage');
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  const { metrics } = await session.send('Performance.getMetrics');
  const metric = (named: string): number => metrics.find(({ name }) => name === named)?.value ?? Number.NaN;
  const answer = answerOf<ServerHeld>(server);
  server.send('held');
  return {
    deed,
    pageBytes: usedSize,
    elements: metric('Nodes'),
    listeners: metric('JSEventListeners'),
    ...(await answer),
  };
}

type Deed = (page: Page, turn: number) => Promise<void>;

const places = ['front', 'steps', 'outings', 'sites', 'watchouts', 'findings', 'callouts', 'handbook', 'bench', 'kits'];
const saved = (page: Page): Promise<void> =>
  page
    .getByRole('contentinfo')
    .getByText(/^Saved /)
    .waitFor();

const look: Deed = async (page, turn) => {
  await goTo(page, `#/${places[turn % places.length] ?? 'front'}`, 'main');
  await page.waitForTimeout(30);
};

const search: Deed = async (page, turn) => {
  await goTo(page, '#/catalog', '[data-found]');
  const field = page.getByRole('searchbox');
  await field.fill('');
  await field.pressSequentially(['socket 1', 'hex', 'm10', 'nowhere'][turn % 4] ?? '');
  await field.fill('');
};

const itemPage: Deed = async (page, turn) => {
  await goTo(page, '#/catalog', '[data-found]');
  const rows = page.locator('.bw-catalog-table [role=row][tabindex]');
  await rows.nth(turn % 10).click();
  await page.locator('.bw-item #item-heading').waitFor();
};

const edit: Deed = async (page, turn) => {
  await itemPage(page, turn);
  await page.getByRole('button', { name: 'Edit', exact: true }).click();
  await page.getByRole('textbox', { name: /^Name/ }).fill(`Named in turn ${turn}`);
  await page.locator('form button[type=submit]').click();
  await page.locator('.bw-item #item-heading').waitFor();
  await saved(page);
};

const undo: Deed = async (page) => {
  await goTo(page, '#/front', 'h1');
  await page.keyboard.press('Control+z');
  await saved(page);
};

const find: Deed = async (page) => {
  await page.keyboard.press('Control+k');
  await page.getByRole('combobox', { name: 'Find or do' }).fill('torque');
  await page.getByRole('listbox').getByRole('option').first().waitFor();
  await page.keyboard.press('Escape');
};

const walkSteps: Deed = async (page) => {
  await goTo(page, '#/steps', '[role=grid]');
  await page.locator('[role=row][tabindex="0"]').first().focus();
  for (let step = 0; step < 5; step += 1) await page.keyboard.press('ArrowDown');
};

const plan: Deed = (page) => planToTheEnd(page);

const preview: Deed = async (page) => {
  await goTo(page, '#/manifest', 'main');
  await page
    .getByText(/Page 1 of \d+/)
    .first()
    .waitFor({ timeout: 60_000 });
};

/** What is done in turn; planning and printing are seldom. */
const usual: readonly Deed[] = [look, search, itemPage, edit, find, walkSteps, look, edit, undo, look];
const seldom = 96;

const mb = (bytes: number): string => `${roundNominal(bytes / 1e6, 2)} MB`;

async function work(page: Page, server: ChildProcess): Promise<void> {
  await page.getByRole('heading', { name: 'What do you have in front of you?' }).waitFor();
  await openDemo(page, 'Skua Rock light');
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const began = performance.now();
  const found: Held[] = [];
  for (let turn = 0; turn < deeds; turn += 1) {
    if (turn % seldom === 0) {
      await plan(page, turn);
      await preview(page, turn);
    }
    await usual[turn % usual.length]?.(page, turn);
    if ((turn + 1) % Math.ceil(deeds / readings) !== 0 && turn + 1 !== deeds) continue;
    const one = await held(page, session, server, turn + 1);
    found.push(one);
    say(
      `after ${one.deed} deeds`,
      `page ${mb(one.pageBytes)}, ${one.elements} elements, ${one.listeners} listeners; server ${mb(one.serverBytes)}, ${one.files} files, ${one.handles} handles`,
    );
  }
  const [first, last] = [found[0], found.at(-1)];
  if (first === undefined || last === undefined) return;
  const growth = last.pageBytes - first.pageBytes + last.serverBytes - first.serverBytes;
  say('growth since the first tenth', `${mb(growth)}; less than ${mb(growthMost)} asked`);
  say('files open, since then', `${last.files - first.files} more; handles ${last.handles - first.handles} more`);
  say('a deed took', ms((performance.now() - began) / deeds));
  if (growth >= growthMost || last.files > first.files + 2) process.exitCode = 1;
}

async function run(): Promise<void> {
  await buildIfNeeded();
  const server = fork(fileURLToPath(import.meta.url), ['serve'], { execArgv: ['--import', 'tsx', '--expose-gc'] });
  const browser = await chromium.launch({
    executablePath: chromiumHere(),
    headless: true,
    chromiumSandbox: !mustDropSandbox(),
    args: [...quietArguments, '--disable-gpu'],
  });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    page.on('pageerror', (error) => say('error of the page', error.message));
    await page.goto(`${await answerOf<string>(server)}/`);
    await work(page, server);
  } finally {
    await browser.close();
    server.disconnect();
  }
}

await (process.argv[2] === 'serve' ? serve() : run());
