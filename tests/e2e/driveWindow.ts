/** How the window's tests use it, and what they measure in it. */
import type { Page } from 'playwright-core';

/** Chooses a file at the door. What the file would change is shown then; nothing is written yet. */
export async function chooseFile(page: Page, path: string): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await run(page, 'Bring a plan file in…');
  await (await chooser).setFiles(path);
}

/** Writes what is at the door, takes its task in hand and goes to its steps. */
async function takeIn(page: Page): Promise<void> {
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('button', { name: /^Add \d/ }).click();
  await dialog.getByRole('button', { name: 'Open the task' }).click();
  await page.getByRole('heading', { name: 'Still open' }).waitFor();
  await page.evaluate(() => (location.hash = '#/steps'));
}

export async function openFile(page: Page, path: string): Promise<void> {
  await chooseFile(page, path);
  await takeIn(page);
}

/** By the palette, so that no test leans on where a button stands. */
export async function run(page: Page, command: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.getByRole('combobox', { name: 'Find or do' }).fill(command);
  await page.getByRole('option', { name: command, disabled: false }).first().waitFor();
  await page.keyboard.press('Enter');
}

export async function openDemo(page: Page, name: string): Promise<void> {
  await run(page, `Bring in worked example: ${name}…`);
  await takeIn(page);
  await page.getByRole('grid', { name: 'Steps' }).waitFor();
}

export async function planToTheEnd(page: Page): Promise<void> {
  await run(page, 'Plan the bag');
  await page.getByRole('heading', { name: /^(Proved least:|No bag does it)/ }).waitFor({ timeout: 90_000 });
}

/** What can be pressed and is smaller than 24 px either way; links in running text are let off, as the rule does. */
export function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const within = document.querySelector('dialog[open]') ?? document;
    const targets = [
      ...within.querySelectorAll('button, select, input, a[href], [role=row][tabindex], [role=option], summary'),
    ];
    return targets.flatMap((target) => {
      const drawn =
        target instanceof HTMLInputElement && ['radio', 'checkbox'].includes(target.type)
          ? (target.closest('label') ?? target)
          : target;
      const { width, height } = drawn.getBoundingClientRect();
      const inText = target instanceof HTMLAnchorElement && getComputedStyle(target).display === 'inline';
      const hidden = width === 0 || target.classList.contains('bw-skip');
      return hidden || inText || (width >= 24 && height >= 24)
        ? []
        : [`${target.tagName} ${target.className} ${target.textContent?.slice(0, 40)} ${width}×${height}`];
    });
  });
}

export async function tabTo(page: Page, there: () => boolean): Promise<void> {
  for (let stop = 0; stop < 60; stop += 1) {
    if (await page.evaluate(there)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error('no Tab stop was what was looked for');
}

/** The page's own work for a deed, in milliseconds of its thread: what else runs on the machine does not count. */
export async function workMs(page: Page, deed: () => Promise<void>): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const spentS = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN;
  };
  const before = await spentS();
  await deed();
  const after = await spentS();
  await session.detach();
  return (after - before) * 1000;
}

export async function goTo(page: Page, place: string, sign: string): Promise<void> {
  await page.evaluate((to) => (location.hash = to), place);
  await page.locator(sign).first().waitFor();
}
