/** An installed browser that can show the program in a window of its own. */
import { accessSync, constants } from 'node:fs';
import { posix, win32 } from 'node:path';

export interface Machine {
  environment: Readonly<Record<string, string | undefined>>;
  platform: NodeJS.Platform;
  exists: (path: string) => boolean;
}

const browserVariable = 'BAGWRIGHT_BROWSER';

export const thisMachine: Machine = { environment: process.env, platform: process.platform, exists: isRunnable };

const onWindows = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
  'Chromium\\Application\\chrome.exe',
  'BraveSoftware\\Brave-Browser\\Application\\brave.exe',
];
const onMac = ['Google Chrome', 'Microsoft Edge', 'Chromium', 'Brave Browser'];
const elsewhere = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
  'brave-browser',
];

/** The browser named by the user, else the first of the usual places; null where there is none. */
export function findBrowser(machine: Machine = thisMachine): string | null {
  const chosen = machine.environment[browserVariable];
  if (chosen !== undefined && chosen !== '') return machine.exists(chosen) ? chosen : null;
  return usualPlaces(machine).find((place) => machine.exists(place)) ?? null;
}

function usualPlaces({ environment, platform }: Machine): string[] {
  const set = (names: string[]): string[] => names.map((name) => environment[name] ?? '').filter((base) => base !== '');
  if (platform === 'win32') {
    const bases = set(['LOCALAPPDATA', 'PROGRAMFILES', 'PROGRAMFILES(X86)']);
    return onWindows.flatMap((program) => bases.map((base) => win32.join(base, program)));
  }
  if (platform === 'darwin') {
    const bases = ['/Applications', ...set(['HOME']).map((home) => posix.join(home, 'Applications'))];
    return onMac.flatMap((name) => bases.map((base) => posix.join(base, `${name}.app/Contents/MacOS/${name}`)));
  }
  // Only absolute folders: a relative one in PATH would run whatever lies in the present folder.
  const folders = (environment['PATH'] ?? '').split(':').filter((folder) => folder.startsWith('/'));
  return elsewhere.flatMap((name) => folders.map((folder) => posix.join(folder, name)));
}

function isRunnable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
