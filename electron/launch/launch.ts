/** Which window, decided from what the machine has; everything it touches is handed in. */
import { alreadyRefused } from '../exitCodes.ts';
import type { Machine } from './findBrowser.ts';

export interface Launcher {
  say: (words: string) => void;
  platform: NodeJS.Platform;
  environment: Machine['environment'];
  build: () => Promise<void>;
  electronBinary: () => string | null;
  fetchElectron: () => Promise<boolean>;
  deadlineS: number;
  /** It could not be fetched when this installation was started before. */
  wasTried: () => boolean;
  runElectron: (binary: string) => Promise<{ code: number; lastedMs: number }>;
  findBrowser: () => string | null;
  /** Null puts it off. Answers why it is not taken, or null. */
  keepSecondFolder: (folder: string | null) => Promise<string | null>;
  /** Serves the program, and shows it in a window of `browser` where one is given. */
  runBrowserWindow: (how: { browser: string | null }) => Promise<number>;
}

/** An Electron that ends this soon with a failure never showed its window. */
const startUpMs = 10_000;

const usage = `npm start               the program in its own window
npm start -- --browser  in a window of an installed browser
npm start -- --serve    no window: only serve it to a browser on this machine
npm start -- --second-folder=FOLDER   from now on each snapshot is copied there too; with no FOLDER, not any more`;

const secondFolder = '--second-folder=';

export async function launch(given: readonly string[], launcher: Launcher): Promise<number> {
  const isKnown = (word: string): boolean =>
    word === '--browser' || word === '--serve' || word.startsWith(secondFolder);
  const unknown = given.find((word) => !isKnown(word));
  if (unknown !== undefined) {
    launcher.say(`Bagwright does not know "${unknown}".\n${usage}`);
    return 2;
  }
  const second = given.find((word) => word.startsWith(secondFolder))?.slice(secondFolder.length);
  if (second !== undefined) {
    const refused = await launcher.keepSecondFolder(second === '' ? null : second);
    if (refused !== null) {
      launcher.say(refused);
      return 1;
    }
    launcher.say(
      second === '' ? 'Snapshots are copied to no second folder.' : `Each snapshot is copied to ${second} too.`,
    );
  }
  try {
    await launcher.build();
  } catch (cause) {
    launcher.say(`Bagwright could not be built: ${cause instanceof Error ? cause.message : String(cause)}`);
    return 1;
  }
  if (given.includes('--serve')) return await launcher.runBrowserWindow({ browser: null });
  if (!hasDisplay(launcher)) {
    launcher.say('There is no display here, so no window can open.');
    return await launcher.runBrowserWindow({ browser: null });
  }
  if (!given.includes('--browser')) {
    const code = await tryElectron(launcher);
    if (code !== null) return code;
  }
  const browser = launcher.findBrowser();
  if (browser === null) launcher.say('No Chrome, Edge, Brave or Chromium was found on this machine.');
  else launcher.say(`Opening Bagwright in a window of ${browser}.`);
  return await launcher.runBrowserWindow({ browser });
}

/** Electron's exit code, or null where the browser window has to stand in. */
async function tryElectron(launcher: Launcher): Promise<number | null> {
  let binary = launcher.electronBinary();
  if (binary === null && launcher.deadlineS > 0 && !launcher.wasTried()) {
    launcher.say(`Electron is not installed yet; fetching it (at most ${launcher.deadlineS} s) …`);
    if (await launcher.fetchElectron()) binary = launcher.electronBinary();
  }
  if (binary === null) {
    launcher.say('Electron is not here and could not be fetched; npm ci, and the next start tries again.');
    return null;
  }
  const { code, lastedMs } = await launcher.runElectron(binary);
  if (code === 0 || code === alreadyRefused || lastedMs >= startUpMs) return code;
  launcher.say(`Electron did not start on this machine (code ${code}).`);
  return null;
}

function hasDisplay({ platform, environment }: Launcher): boolean {
  if (platform === 'win32' || platform === 'darwin') return true;
  return ['DISPLAY', 'WAYLAND_DISPLAY'].some((name) => (environment[name] ?? '') !== '');
}
