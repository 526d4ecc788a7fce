/** What `servedProgram.ts` runs: the browser window's own server and journal, with the folder, port and page it is told. */
import { mkdirSync } from 'node:fs';
import { journalDesk } from '../../../electron/journal/desk.ts';
import { foldersIn, keepPrivate, makeFolders } from '../../../electron/launch/dataFolder.ts';
import { startServer } from '../../../electron/launch/server.ts';
import { helloKey } from '../../../electron/launch/token.ts';
import { listFiles, loadSite } from '../../../electron/site/buildMap.ts';
import type { ServeOptions } from './servedProgram.ts';

const { data, port, site } = JSON.parse(process.argv[2] ?? '{}') as ServeOptions;
keepPrivate();
mkdirSync(data, { recursive: true });
const folders = foldersIn(data);
makeFolders(folders);
const journal = journalDesk({ folder: folders.journal });
const server = await startServer({
  port,
  site: loadSite(site, listFiles(site)),
  version: '0.0.0-test',
  dataFolder: data,
  helloKey: helloKey(data),
  journal,
  // Faults of the disk are tried here; what prints would take longer to load than all the rest.
  makePdf: () => Promise.reject(new Error('this server prints nothing')),
});
journal.begin();

const end = async (): Promise<void> => {
  await server.close();
  journal.close();
  process.exit(0);
};
process.on('SIGTERM', () => void end());
// The test's own process holds the other end: where that is gone, nobody needs a server.
process.stdin.on('end', () => process.exit(0)).resume();
process.stdout.write('serving\n');
