/** A depot of invented items for the benches: its table, brought in through the page's own import; and how figures are said. */
import type { Page } from 'playwright-core';
import { exactCsvText } from '../../renderer/engine/sheet/csvText.ts';
import { roundNominal } from '../../renderer/engine/units/index.ts';

export const patienceMs = 300_000;
export const say = (what: string, text: string): void => void process.stdout.write(`${what.padEnd(40)} ${text}\n`);
export const ms = (value: number): string => `${roundNominal(value, 0)} ms`;

/** The value that such a part of them does not exceed. */
export function share(values: readonly number[], part: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)] ?? Number.NaN;
}

/** Sizes, names and places as varied as a depot's; every figure is invented. */
export function tableOf(count: number, from: number): string {
  const columns = ['code', 'kind', 'name', 'drive', 'opening', 'openingSize', 'length', 'outsideDiameter'];
  const more = ['ratedTorque', 'mass', 'onHand', 'keptAt', 'notes', 'thread', 'head', 'acrossFlats'];
  const rows = Array.from({ length: count }, (_, at) => {
    const n = from + at;
    const place = `tray ${n % 400}`;
    if (n % 3 === 0)
      return [
        `F-${n}`,
        'fastener',
        `Bolt ${n} of row ${n % 97}`,
        '',
        '',
        '',
        '',
        '',
        '',
        '0.02 kg',
        String(n % 40),
        place,
        `Invented ${n}.`,
        `M${6 + (n % 5) * 2}`,
        'hex',
        `${10 + (n % 9)} mm`,
      ];
    const size = `${8 + (n % 24)} mm`;
    return [
      `S-${n}`,
      'socket',
      `Socket ${n}, bay ${n % 31}`,
      '3/8 in',
      'hex6',
      size,
      `${20 + (n % 180)} mm`,
      '22 mm',
      '100 N·m',
      '0.15 kg',
      String(n % 9),
      place,
      `Invented ${n}.`,
      '',
      '',
      '',
    ];
  });
  return exactCsvText([...columns, ...more], rows);
}

export async function bringIn(
  page: Page,
  file: string,
): Promise<{ triedMs: number; keptMs: number; openedMs: number }> {
  await page.getByRole('button', { name: 'Bring in…' }).click();
  const dialog = page.getByRole('dialog', { name: 'Bring items in' });
  const input = dialog.locator('input[type=file]');
  await input.waitFor({ state: 'attached', timeout: patienceMs });
  let began = performance.now();
  await input.setInputFiles(file);
  const tryAll = dialog.getByRole('button', { name: 'Try all rows' });
  await tryAll.waitFor({ timeout: patienceMs });
  const openedMs = performance.now() - began;
  began = performance.now();
  await tryAll.click();
  const write = dialog.getByRole('button', { name: /^Add \d+ items/ });
  await write.waitFor({ timeout: patienceMs });
  const triedMs = performance.now() - began;
  began = performance.now();
  await write.click();
  await dialog.getByRole('heading', { name: /^Added/ }).waitFor({ timeout: patienceMs });
  const keptMs = performance.now() - began;
  await dialog.getByRole('button', { name: 'Close' }).last().click();
  return { triedMs, keptMs, openedMs };
}

/** The catalog with one empty shelf, ready for a file. */
export async function openDepot(page: Page): Promise<void> {
  await page.evaluate(() => (location.hash = '#/catalog'));
  await page.getByRole('button', { name: 'Add shelf' }).first().click();
  await page.getByRole('textbox', { name: /^Name/ }).fill('Depot');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Bring in…' }).waitFor();
}
