/** `npm start`: the program in the best window this machine has, and plain words about which. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { identity } from '../../shared-types/ipc.ts';
import { mustDropSandbox } from './browserArguments.ts';
import { loadSite, readMap } from '../site/buildMap.ts';
import { buildIfNeeded, root, siteFolder, siteMap } from './build.ts';
import { runBrowserWindow } from './browserWindow.ts';
import { dataFolder, foldersIn, keepPrivate, makeFolders } from './dataFolder.ts';
import { deadlineS, electronBinary, fetchElectron, wasTried } from './electronBinary.ts';
import { findBrowser } from './findBrowser.ts';
import { launch, type Launcher } from './launch.ts';
import { goPortable, markerName, type Portable } from '../portable.ts';
import { noteSecondFolder } from '../journal/snapshots/notes.ts';
import { stopSignals } from './stopSignals.ts';

const say = (words: string): void => void process.stdout.write(`${words}\n`);

function thisLauncher(portable: Portable | null): Launcher {
  return {
    say,
    platform: process.platform,
    environment: process.env,
    build: () => buildIfNeeded(say),
    electronBinary: () => electronBinary(),
    fetchElectron: () => fetchElectron(deadlineS()),
    deadlineS: deadlineS(),
    wasTried: () => wasTried(),
    runElectron: (binary) => runElectron(binary, portable !== null),
    findBrowser: () => findBrowser(),
    async keepSecondFolder(folder) {
      try {
        await noteSecondFolder(foldersIn(dataFolder()).snapshots, folder);
        return null;
      } catch (cause) {
        return cause instanceof Error ? cause.message : String(cause);
      }
    },
    runBrowserWindow: ({ browser }) => {
      const folders = foldersIn(dataFolder());
      makeFolders(folders);
      return runBrowserWindow({
        browser,
        folders,
        port: identity.browserPort,
        version: ownVersion(),
        site: () => loadSite(siteFolder, readMap(siteMap)),
        say,
        stop: stopSignals(),
        onAlone: () => portable?.clearTemporary(),
      });
    },
  };
}

function ownVersion(): string {
  return (JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string }).version;
}

function runElectron(binary: string, portable: boolean): Promise<{ code: number; lastedMs: number }> {
  const started = Date.now();
  const { ELECTRON_RUN_AS_NODE: _asNode, NODE_OPTIONS: _options, ...environment } = process.env;
  // The shell finds the marker itself, and then clears up too.
  if (portable) delete environment['BAGWRIGHT_DATA'];
  // Electron, like Chromium, will not start as root on Linux with its sandbox on.
  const given = mustDropSandbox() ? [root, '--no-sandbox'] : [root];
  const shell = spawn(binary, given, { stdio: 'inherit', env: environment });
  const stop = stopSignals();
  stop.addEventListener('abort', () => shell.kill('SIGTERM'));
  return new Promise((resolve) => {
    const ended = (code: number): void => resolve({ code: stop.aborted ? 0 : code, lastedMs: Date.now() - started });
    shell.on('error', () => ended(1));
    shell.on('exit', (code) => ended(code ?? 1));
  });
}

async function start(): Promise<number> {
  keepPrivate();
  let portable: Portable | null;
  try {
    portable = goPortable(root);
  } catch (cause) {
    say(cause instanceof Error ? cause.message : String(cause));
    return 1;
  }
  if (portable !== null) say(`Portable (by the file ${markerName}): everything is kept in ${portable.data}.`);
  return await launch(process.argv.slice(2), thisLauncher(portable));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = await start();
