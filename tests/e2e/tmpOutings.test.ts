import { it } from 'vitest';
import { openBuilt } from './support/openBuilt.ts';
import { openFile } from './driveWindow.ts';
it('looks', async () => {
  for (const [scheme, width, height] of [['light', 1280, 800], ['dark', 1920, 1080]] as const) {
    const b = await openBuilt({ viewport: { width, height }, colorScheme: scheme });
    const { page } = b;
    try {
      await page.getByRole('heading', { name: /in front of you/ }).waitFor();
      await openFile(page, 'data/demo/tarn-array.json');
      await page.evaluate(() => (location.hash = '#/outings/t3-close'));
      await page.getByRole('heading', { name: 'Problems' }).waitFor({ timeout: 20000 });
      await page.screenshot({ path: `/tmp/shots/np-${scheme}.png` });
      await page.evaluate(() => (location.hash = '#/bag'));
      await page.getByRole('button', { name: /^Plan (the bag|again|the least)|^Plan/ }).first().click();
      await page.getByText(/Proved least/).first().waitFor({ timeout: 90000 });
      await page.evaluate(() => (location.hash = '#/outings/t3-close'));
      await page.getByRole('heading', { name: 'Proposals' }).waitFor({ timeout: 60000 });
      const tall = await page.evaluate(() => [...document.querySelectorAll('*')].map((e) => [e.className, e.scrollHeight, e.clientHeight]).filter(([, s, c]) => (s as number) > (c as number) + 200).map(String));
      console.log(tall.slice(0, 6));
      await page.screenshot({ path: `/tmp/shots/p-${scheme}.png` });
      for (const name of ['The clock', 'Loose pieces', 'Chance of finishing in time', 'Proposals']) {
        await page.getByRole('heading', { name }).scrollIntoViewIfNeeded();
        await page.getByRole('heading', { name }).evaluate((e) => e.scrollIntoView());
        await page.screenshot({ path: `/tmp/shots/${name.split(' ')[0]}-${scheme}.png` });
      }
      await page.evaluate(() => (location.hash = '#/outings/t1-open'));
      await page.waitForTimeout(1500);
      await page.screenshot({ path: `/tmp/shots/t1-${scheme}.png` });
      console.log(b.pageErrors);
    } finally { await b.close(); }
  }
}, 280000);
