/** For tests in the browser: what axe finds on the page under test, from outside of it. */
import { AxeBuilder } from '@axe-core/playwright';
import type { BrowserCommand } from 'vitest/node';

const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** Each violation as its rule and the elements it stands at; none is an empty list. */
export const axe: BrowserCommand<[]> = async ({ page }) => {
  const builder = new AxeBuilder({ page }).setLegacyMode(true).include(['iframe[data-vitest]', 'body']);
  // What is right needs no list of its elements, which takes longer to make than the violations.
  const found = await builder
    .options({ resultTypes: ['violations'] })
    .withTags(tags)
    .analyze();
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`);
};
