/** Every screen of catalog, sites, steps, watch-outs and kits and every sheet over them, with names that no column was made for. */
import '../../renderer/styles/fonts.css';
import { afterEach, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { render } from 'vitest-browser-react';
import { axeFaultsInEveryLook } from './support/axe.ts';
import { openCrowded } from './support/crowdedTask.ts';
import { byColourAlone, cutOff, sideways, spaceText, tooSmall } from './support/measures.ts';
import { screens } from './support/taskScreens.ts';

afterEach(() => page.viewport(1280, 800));

const drawn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 60));

/** What is wrong with the page as it stands, each with where. */
const faultsAt = (where: string): string[] =>
  Object.entries({
    sideways: sideways(),
    cutOff: cutOff(),
    tooSmall: tooSmall(),
    byColourAlone: byColourAlone(),
  }).flatMap(([what, found]) => found.map((one) => `${where}, ${what}: ${one}`));

const areaOf = (name: string): string => name.split(',')[0] ?? name;
const areas = [...new Set(screens.map(({ name }) => areaOf(name)))];

it.each(areas)(
  '%s: axe knows no fault in any colours; nothing is cut off, runs out or is too small, zoomed, narrow or spaced',
  async (area) => {
    await page.viewport(1280, 800);
    const at = await openCrowded('#/catalog');
    const faults: string[] = [];
    for (const { name, show, axe } of screens.filter((one) => areaOf(one.name) === area)) {
      await show(at);
      await drawn();
      faults.push(...faultsAt(name));
      if (axe === true) faults.push(...(await axeFaultsInEveryLook()).map((fault) => `${name}: ${fault}`));
      // 640 × 400 is a window of 1280 × 800 at 200 %.
      await page.viewport(640, 400);
      await drawn();
      faults.push(...faultsAt(`${name}, 200 %`));
      await page.viewport(320, 800);
      await drawn();
      faults.push(...faultsAt(`${name}, 320 px`));
      const asBefore = spaceText();
      await drawn();
      faults.push(...faultsAt(`${name}, 320 px, spaced`));
      asBefore();
      await page.viewport(1280, 800);
      await drawn();
    }
    expect(faults).toEqual([]);
  },
);

it('is told of planted faults, so that finding none means something', async () => {
  await render(
    <div>
      <p style={{ width: 2000 }}>too wide</p>
      <p style={{ width: 40, overflow: 'hidden', whiteSpace: 'nowrap' }}>words that are cut off</p>
      <button type="button" style={{ width: 20, height: 20, padding: 0 }}>
        x
      </button>
      <span data-state="reached" style={{ background: 'green' }} />
    </div>,
  );
  expect(faultsAt('here')).toEqual([
    expect.stringContaining('here, sideways: HTML'),
    expect.stringContaining('here, cutOff: p. “words that are cut off”'),
    expect.stringContaining('here, tooSmall: button. “x” 20 × 20'),
    expect.stringContaining('here, byColourAlone: span.'),
  ]);
});
