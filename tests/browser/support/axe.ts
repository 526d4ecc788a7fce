import { commands } from 'vitest/browser';

declare module 'vitest/internal/browser' {
  interface BrowserCommands {
    axe: () => Promise<string[]>;
  }
}

/** What axe finds on the page as it stands: each violation as its rule and the elements it stands at. */
export function axeFaults(): Promise<string[]> {
  return commands.axe();
}
