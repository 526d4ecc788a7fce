import { expect } from 'vitest';
import { commands } from 'vitest/browser';
import type { Look } from '../../support/look.ts';

declare module 'vitest/internal/browser' {
  interface BrowserCommands {
    axe: (rules?: string[]) => Promise<string[]>;
    look: (look: Look) => Promise<void>;
  }
}

/** What axe finds on the page as it stands: each violation as its rule and the elements it stands at. */
export function axeFaults(): Promise<string[]> {
  return commands.axe();
}

const light: Look = { colorScheme: 'light', forcedColors: 'none' };
const others: Look[] = [
  { colorScheme: 'dark', forcedColors: 'none' },
  { colorScheme: 'light', forcedColors: 'active' },
];

/** The page follows what the system asks for by itself, a moment later. */
async function followed({ colorScheme }: Look): Promise<void> {
  await expect.poll(() => document.documentElement.dataset['mantineColorScheme']).toBe(colorScheme);
  await new Promise((resolve) => setTimeout(resolve, 50));
}

/** Light is checked whole; dark and forced colours change nothing but colours, so that only the rules of colour can fall there. */
export async function axeFaultsInEveryLook(): Promise<string[]> {
  const found = await commands.axe();
  for (const look of others) {
    await commands.look(look);
    await followed(look);
    const faults = await commands.axe(['color-contrast', 'link-in-text-block']);
    found.push(...faults.map((fault) => `${look.colorScheme}, forced ${look.forcedColors}: ${fault}`));
  }
  await commands.look(light);
  await followed(light);
  return found;
}
