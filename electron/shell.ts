/** The shell's start: refuse what would open it up, lock everything, then show the one window. */
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { app } from 'electron';
import { identity } from '../shared-types/ipc.ts';
import { alreadyRefused } from './exitCodes.ts';
import { privateTemporary } from './files/privateTemporary.ts';
import { forbiddenSwitch } from './forbiddenSwitches.ts';
import { handlersFor } from './handlers/index.ts';
import { answerChannels } from './ipc.ts';
import { journalDesk } from './journal/desk.ts';
import { dataFolder, foldersIn, keepPrivate, makeFolders } from './launch/dataFolder.ts';
import { lockContents, lockSession } from './lockdown.ts';
import { claimScheme, serveScheme } from './scheme.ts';
import { goPortable, packedIn, type Portable } from './portable.ts';
import { loadSite, mapFileName, readMap } from './site/buildMap.ts';
import { showWindow, type ShownWindow } from './window.ts';

/** `built` is the folder of the finished build: the page, its list of files, the preload script. */
export function startShell(built: string): void {
  const forbidden = forbiddenSwitch(process.argv, process.execArgv, process.env, (name) =>
    app.commandLine.hasSwitch(name),
  );
  if (forbidden !== null) return refuse(`Bagwright does not start with ${forbidden}: it would let other programs in.`);

  const usersMask = keepPrivate();
  let portable: Portable | null;
  try {
    portable = goPortable(app.isPackaged ? packedIn() : join(built, '..'));
  } catch (cause) {
    return refuse(cause instanceof Error ? cause.message : 'Bagwright could not start.');
  }
  const folders = foldersIn(dataFolder());
  makeFolders(folders);
  app.setPath('userData', folders.electronProfile);
  if (portable !== null) app.setPath('temp', tmpdir());
  app.enableSandbox();
  claimScheme();
  if (!app.requestSingleInstanceLock()) return app.quit();
  portable?.clearTemporary();

  let shown: ShownWindow | null = null;
  const temporary = privateTemporary();
  const journal = journalDesk({ folder: folders.journal });
  app.on('second-instance', () => shown?.focus());
  app.on('window-all-closed', () => app.quit());
  let leaving = false;
  app.on('will-quit', (event) => {
    temporary.remove();
    if (leaving) return;
    // A last snapshot first; it gives up by itself where that takes long.
    leaving = true;
    event.preventDefault();
    void journal.leave().finally(() => app.quit());
  });
  app.on('web-contents-created', (_event, contents) => lockContents(contents));
  app
    .whenReady()
    .then(async () => {
      lockSession();
      journal.begin(app.getVersion());
      serveScheme(loadSite(join(built, 'renderer'), readMap(join(built, mapFileName))));
      const info = { kind: 'electron', version: app.getVersion(), dataFolder: folders.data } as const;
      answerChannels(handlersFor({ info, temporary, journal, usersMask }), () => shown?.window ?? null);
      shown = await showWindow(join(built, 'preload', 'preload.cjs'), `${identity.electronOrigin}/`);
    })
    .catch((cause: unknown) => refuse(cause instanceof Error ? cause.message : 'Bagwright could not start.'));
}

function refuse(words: string): void {
  process.stderr.write(`${words}\n`);
  app.exit(alreadyRefused);
}
