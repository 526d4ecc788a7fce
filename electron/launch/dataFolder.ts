/** Where this copy keeps what belongs to its user: theirs alone to read. */
import { chmodSync, mkdirSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';

type Environment = Readonly<Record<string, string | undefined>>;

export interface Folders {
  data: string;
  journal: string;
  snapshots: string;
  browserProfile: string;
  electronProfile: string;
}

/** The one setting that moves the folder: a stick, a test. */
const dataVariable = 'BAGWRIGHT_DATA';

export function dataFolder(
  environment: Environment = process.env,
  platform: NodeJS.Platform = process.platform,
  home: string = homedir(),
): string {
  const chosen = environment[dataVariable];
  if (chosen !== undefined && chosen !== '') return chosen;
  if (platform === 'win32') return join(environment['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'), 'bagwright');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'bagwright');
  // An empty or relative XDG path is to be ignored, says its specification.
  const shared = environment['XDG_DATA_HOME'];
  return join(shared?.startsWith('/') === true ? shared : join(home, '.local', 'share'), 'bagwright');
}

/** The database lies in a profile, so the profiles' names may never change. */
export function foldersIn(data: string): Folders {
  return {
    data,
    journal: join(data, 'journal'),
    snapshots: join(data, 'snapshots'),
    browserProfile: join(data, 'browser'),
    electronProfile: join(data, 'electron'),
  };
}

/** Makes the folders, and closes ones that stand open to others. */
export function makeFolders(folders: Folders): void {
  for (const folder of Object.values(folders)) {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    if (process.platform !== 'win32' && (statSync(folder).mode & 0o077) !== 0) chmodSync(folder, 0o700);
  }
}

/** From here on every file this process and its children make is the user's own. Returns the user's former mask. */
export function keepPrivate(): number {
  return process.umask(0o077);
}
