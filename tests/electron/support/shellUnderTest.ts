/** The whole shell, started on the stand-in with a small build and a data folder of its own. */
import { existsSync } from 'node:fs';
import { vi } from 'vitest';
import { startShell } from '../../../electron/shell.ts';
import { BrowserWindow, channels, sender } from './electronStandIn.ts';
import { sampleBuild, scratchFolder } from './site.ts';
import { patience } from '../../support/patience.ts';

export interface StartedShell {
  window: BrowserWindow;
  data: string;
}

/** A message from the program's own page, as Electron describes one. */
export function genuineEvent(window: BrowserWindow): unknown {
  return { sender: window.webContents, senderFrame: { parent: null, url: 'app://bagwright/' } };
}

export async function shellUnderTest(): Promise<StartedShell> {
  const data = scratchFolder();
  process.env['BAGWRIGHT_DATA'] = data;
  BrowserWindow.made.length = 0;
  startShell(sampleBuild());
  await vi.waitFor(() => {
    if (channels.size === 0 || BrowserWindow.made[0]?.loaded.length !== 1) throw new Error('not started');
  }, patience);
  const window = BrowserWindow.made[0];
  if (window === undefined || !existsSync(data)) throw new Error('the shell showed no window');
  await new Promise((resolve) => setImmediate(resolve));
  sender.event = () => genuineEvent(window);
  return { window, data };
}
