/** The program's one drawing as a picture of the size that every system's icons are made from. */
import { readFileSync } from 'node:fs';
import { chromium } from 'playwright-core';
import { mustDropSandbox, quietArguments } from '../launch/browserArguments.ts';

const iconPx = 1024;

export async function drawIcon(svgFile: string, browser: string): Promise<Buffer> {
  const drawing = readFileSync(svgFile, 'utf8').replace('<svg ', `<svg width="${iconPx}" height="${iconPx}" `);
  const running = await chromium.launch({
    executablePath: browser,
    chromiumSandbox: !mustDropSandbox(),
    args: [...quietArguments],
  });
  try {
    const page = await running.newPage({ viewport: { width: iconPx, height: iconPx }, javaScriptEnabled: false });
    await page.setContent(`<!doctype html><html><body style="margin:0">${drawing}</body></html>`);
    return await page.screenshot({ type: 'png' });
  } finally {
    await running.close();
  }
}
