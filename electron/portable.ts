/**
 * Portable: with a marker beside the program, everything it keeps lies in a folder beside it, and nothing elsewhere. What
 * starts other programs (a browser, the PDF's maker) hands them the same places by their environment.
 */
import { existsSync, mkdirSync, openSync, readdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';

type Environment = Record<string, string | undefined>;

/** An empty file of this name makes the program portable. */
export const markerName = 'bagwright-portable';
const keptName = 'bagwright-data';

export interface Portable {
  data: string;
  /** Clears what a run that was cut short left among the temporary files. Only for the one copy that runs. */
  clearTemporary: () => void;
}

/** The folder that the user sees the packed program in: an AppImage and a Mac's bundle are one file to them. */
export function packedIn(
  program: string = process.execPath,
  platform: NodeJS.Platform = process.platform,
  environment: Environment = process.env,
): string {
  const image = environment['APPIMAGE'];
  if (platform === 'linux' && image !== undefined && image !== '') return dirname(image);
  const folder = dirname(program);
  return platform === 'darwin' ? folder.replace(/\/[^/]+\.app\/Contents\/MacOS$/, '') : folder;
}

/** Where the marker says so, moves everything there; null where it does not, or where BAGWRIGHT_DATA names a folder. */
export function goPortable(
  programFolder: string,
  environment: Environment = process.env,
  platform: NodeJS.Platform = process.platform,
): Portable | null {
  const named = environment['BAGWRIGHT_DATA'] ?? '';
  if (named !== '' || !existsSync(join(programFolder, markerName))) return null;
  const data = join(programFolder, keptName);
  const temporary = join(data, 'temporary');
  try {
    mkdirSync(temporary, { recursive: true, mode: 0o700 });
  } catch (cause) {
    const reason = (cause as NodeJS.ErrnoException).code ?? 'unknown reason';
    throw new Error(`The file ${markerName} makes Bagwright portable, but ${data} cannot be made: ${reason}`, {
      cause,
    });
  }
  Object.assign(environment, placesIn(data, shortPath(temporary, platform), environment, platform));
  return {
    data,
    clearTemporary() {
      for (const name of readdirSync(temporary)) rmSync(join(temporary, name), { recursive: true, force: true });
    },
  };
}

function placesIn(data: string, temporary: string, environment: Environment, platform: NodeJS.Platform): Environment {
  const everywhere = { BAGWRIGHT_DATA: data, TMPDIR: temporary, TEMP: temporary, TMP: temporary };
  if (platform !== 'linux') return everywhere;
  // A Linux program keeps settings, caches and certificates where these say; a display's key stays where it is.
  const display = environment['XAUTHORITY'] ?? join(environment['HOME'] ?? '/', '.Xauthority');
  return {
    ...everywhere,
    HOME: data,
    XDG_CONFIG_HOME: join(data, '.config'),
    XDG_CACHE_HOME: join(data, '.cache'),
    XDG_DATA_HOME: join(data, '.local', 'share'),
    XDG_STATE_HOME: join(data, '.local', 'state'),
    GSETTINGS_BACKEND: 'memory',
    ...(existsSync(display) ? { XAUTHORITY: display } : {}),
  };
}

/** A browser makes a socket among its temporary files, and does not start where the system's 107 bytes are not enough for its path. */
const longestBytes = 60;

function shortPath(folder: string, platform: NodeJS.Platform): string {
  if (platform !== 'linux' || Buffer.byteLength(folder) <= longestBytes) return folder;
  // The same folder under a short name, for as long as this process runs; nothing is made anywhere for it.
  return `/proc/${process.pid}/fd/${openSync(folder, 'r')}`;
}
