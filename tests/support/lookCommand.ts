/** For tests in the browser: the colours that the system asks for, from outside of the page. */
import type { BrowserCommand } from 'vitest/node';
import type { Look } from './look.ts';

export const look: BrowserCommand<[Look]> = async ({ page }, { colorScheme, forcedColors }) =>
  page.emulateMedia({ colorScheme, forcedColors });
