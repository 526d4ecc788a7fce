/** For tests in the browser: the colours that the system asks for, from outside of the page. */
import type { BrowserCommand } from 'vitest/node';

export interface Look {
  colorScheme: 'light' | 'dark';
  forcedColors: 'none' | 'active';
}

export const look: BrowserCommand<[Look]> = async ({ frame }, { colorScheme, forcedColors }) =>
  (await frame()).page().emulateMedia({ colorScheme, forcedColors });
