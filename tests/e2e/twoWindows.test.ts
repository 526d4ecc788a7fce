/** Two windows on one store: the first one saves, the second says that it does not. */
import { expect, it } from 'vitest';
import { openDemo } from './driveWindow.ts';
import { openBuilt } from './support/openBuilt.ts';

const banner = 'Open in another window: this one does not save.';

it('lets the first window save, tells it in the second, and hands over once the first is closed', async () => {
  const built = await openBuilt();
  try {
    const { page: first, context, origin } = built;
    const firstPage = { name: 'What do you have in front of you?' };
    await first.getByRole('heading', firstPage).waitFor();
    const second = await context.newPage();
    await second.goto(`${origin}/`);
    await second.getByText(banner).waitFor();
    expect(await first.getByText(banner).count()).toBe(0);

    await openDemo(second, 'Tarn array');
    const strip = second.getByRole('contentinfo');
    expect(await strip.textContent()).toContain('NOT SAVED here: other window');
    expect(await strip.textContent()).not.toMatch(/Saved \d|Nothing to save/);

    // The first is not a stranger to itself after a reload, and nothing of the second has reached the store.
    await first.reload();
    await first.getByRole('heading', firstPage).waitFor();
    expect(await first.getByText(banner).count()).toBe(0);
    await openDemo(first, 'Skua Rock light');
    await first
      .getByRole('contentinfo')
      .getByText(/^Saved \d\d:\d\d$/)
      .waitFor();

    await first.close();
    second.on('dialog', (dialog) => void dialog.accept());
    await second.reload();
    await second
      .getByRole('button', { name: /Skua Rock/ })
      .first()
      .waitFor();
    expect(await second.getByText(banner).count()).toBe(0);
  } finally {
    await built.close();
  }
});
