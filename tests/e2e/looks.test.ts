/** Every screen of the production build, looked at in light, dark and forced colours. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { asText, refusedPlan, shownPlan } from '../browser/fixtures/plans.ts';
import { axeIn } from '../support/axeIn.ts';
import { chooseFile, goTo, openFile, planToTheEnd, run, smallTargets } from './driveWindow.ts';
import { openBuilt } from './support/openBuilt.ts';
import type { OpenedBuild } from './support/openBuilt.ts';

const folder = mkdtempSync(join(tmpdir(), 'bagwright-looks-'));
const planFile = (name: string, plan: unknown): string => {
  const path = join(folder, name);
  writeFileSync(path, asText(plan));
  return path;
};
const shown = planFile('shown.json', shownPlan());
const refused = planFile('refused.json', refusedPlan(60));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function showForm(page: Page, button: string, save: string): Promise<void> {
  await page.getByRole('button', { name: button, exact: true }).first().click();
  await page.getByRole('button', { name: save, exact: true }).waitFor();
}

async function leaveForm(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Leave', exact: true }).click();
  await page.locator('form').waitFor({ state: 'detached' });
}

/** Every screen, by name, from a window that has the plan with a step out of reach open. */
const screens: [string, (page: Page) => Promise<void>][] = [
  ['first page', async (page) => run(page, 'First page')],
  ['front sheet', async (page) => goTo(page, '#/front', '.bw-front')],
  ['steps, reached', async (page) => goTo(page, '#/steps/tighten', '.bw-setting')],
  ['steps, not reached', async (page) => goTo(page, '#/steps/deep', '.bw-closest')],
  ['steps, by hand', async (page) => goTo(page, '#/steps/cap', '.bw-gear')],
  [
    'step, its form',
    async (page) => {
      await goTo(page, '#/steps/tighten', '.bw-setting');
      await run(page, 'Edit the step in hand');
      await page.getByRole('button', { name: /^Save/ }).first().waitFor();
    },
  ],
  [
    'step, its form left',
    async (page) => {
      await page.getByRole('button', { name: 'Leave', exact: true }).click();
      await page.locator('.bw-setting').waitFor();
    },
  ],
  ['outings', async (page) => goTo(page, '#/outings', '[role=grid]')],
  ['outing, its form', async (page) => showForm(page, 'Edit outing', 'Save outing')],
  [
    'the task’s facts, their form',
    async (page) => {
      await leaveForm(page);
      await goTo(page, '#/front', '.bw-front');
      await showForm(page, 'Edit facts', 'Save task');
    },
  ],
  [
    'catalog',
    async (page) => {
      await leaveForm(page);
      await goTo(page, '#/catalog', '[role=grid]');
    },
  ],
  [
    'catalog, an item',
    async (page) => {
      await page.getByRole('row', { name: /TT-2/ }).click();
      await page.getByRole('heading', { name: /TT-2/ }).waitFor();
    },
  ],
  ['catalog, its form', async (page) => showForm(page, 'Edit', 'Save TT-2')],
  [
    'sites, none yet',
    async (page) => {
      await leaveForm(page);
      await goTo(page, '#/sites', 'h1');
    },
  ],
  ['bench, a drawing', async (page) => goTo(page, '#/bench/setting', '.bw-bench-formulas')],
  ['bench, a plot', async (page) => goTo(page, '#/bench/preload', '.bw-bench-formulas svg, figure svg')],
  [
    'handbook, a row',
    async (page) => goTo(page, '#/handbook/torque-faa-ac-43.13-fine/1%2F4-28', '.bw-handbook-callouts'),
  ],
  ['handbook, a thread', async (page) => goTo(page, '#/handbook/thread/7%2F16-20', '.bw-bands')],
  ['bag, not planned', async (page) => goTo(page, '#/bag', '.bw-plan-form')],
  ['bag, infeasible', async (page) => planToTheEnd(page)],
  [
    'bag, planned',
    async (page) => {
      await openFile(page, planFile('reachable.json', { ...shownPlan(), steps: shownPlan().steps.slice(0, 3) }));
      await page.getByRole('heading', { level: 1, name: /Loosen the cover/ }).waitFor();
      await planToTheEnd(page);
    },
  ],
  ['manifest', async (page) => goTo(page, '#/manifest', 'h1')],
  ['cards', async (page) => goTo(page, '#/cards', '.bw-cards-choice')],
  [
    'refused file',
    async (page) => {
      await chooseFile(page, refused);
      await page.getByRole('heading', { name: /was not brought in/ }).waitFor();
    },
  ],
  [
    'palette',
    async (page) => {
      await page.keyboard.press('Escape');
      await page.keyboard.press('Control+k');
    },
  ],
  [
    'keys',
    async (page) => {
      await page.keyboard.press('Escape');
      await run(page, 'Keys');
      await page.getByRole('dialog', { name: 'Keys' }).waitFor();
    },
  ],
  [
    'settings',
    async (page) => {
      await page.keyboard.press('Escape');
      await run(page, 'Settings');
      await page.getByRole('dialog', { name: 'Settings' }).waitFor();
    },
  ],
];

/** Light is checked whole; the others change nothing but colours, so that only the rules of colour can fall there. */
const looks = [
  { colorScheme: 'light', forcedColors: 'none', rules: null },
  { colorScheme: 'dark', forcedColors: 'none', rules: ['color-contrast', 'link-in-text-block'] },
  { colorScheme: 'light', forcedColors: 'active', rules: ['color-contrast', 'link-in-text-block'] },
] as const;

describe('every screen in light, dark and forced colours', () => {
  let at: OpenedBuild;
  beforeAll(async () => {
    at = await openBuilt();
    await at.page.getByRole('heading', { level: 1 }).waitFor();
    await openFile(at.page, shown);
    await at.page.getByRole('grid', { name: 'Steps' }).waitFor();
  });
  afterAll(async () => at.close());

  it.each(screens)('%s: no violation of WCAG 2.2 AA, targets of 24 px, states with a word', async (_, show) => {
    const { page } = at;
    await show(page);
    for (const { colorScheme, forcedColors, rules } of looks) {
      await page.emulateMedia({ colorScheme, forcedColors });
      await page.waitForTimeout(150);
      // The size of targets is measured below: to axe, one that is scrolled half under the bar of a form is a small one.
      const found = await axeIn(page, rules === null ? { except: ['target-size'] } : { rules });
      expect(found.map((fault) => `${colorScheme}, forced ${forcedColors}, ${fault}`)).toEqual([]);
    }
    expect(page.frames().filter((frame) => !frame.url().startsWith(at.origin))).toEqual([]);
    expect(await smallTargets(page)).toEqual([]);
    const wordless = await page.evaluate(
      () =>
        [...document.querySelectorAll('[data-state]')].filter(
          (mark) => mark.textContent?.trim() === '' || mark.querySelector('svg') === null,
        ).length,
    );
    expect(wordless).toBe(0);
  });
});
