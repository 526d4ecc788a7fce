/** For tests in the browser: what axe finds on the page under test, from outside of it. */
import { AxeBuilder } from '@axe-core/playwright';
import type { BrowserCommand } from 'vitest/node';

const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** Each violation as its rule and the elements it stands at; none is an empty list. */
export const axe: BrowserCommand<[]> = async ({ page }) => {
  const found = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .include(['iframe[data-vitest]', 'body'])
    .withTags(rules)
    .analyze();
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`);
};
