/** How the program is packed for each system: what goes in, as what it comes out. Nothing is published, nothing updates itself. */
import { join } from 'node:path';
import type { AfterPackContext, Configuration } from 'electron-builder';
import { setFuses } from './fuses.ts';

/** What the packed program consists of, and nothing else: everything is bundled, so no package is taken along. */
const packedFiles = [
  'package.json',
  'dist/files.json',
  'dist/main/**',
  'dist/preload/**',
  'dist/renderer/**',
  '!**/node_modules/**',
] as const;

export interface PackingMeans {
  /** The folder of the unpacked Electron of this system. */
  electronFolder: string;
  /** A square picture, 1024 px wide. */
  icon: string;
  /** The licences of what is bundled. */
  notices: string;
  output: string;
}

export function packingOf({ electronFolder, icon, notices, output }: PackingMeans): Configuration {
  return {
    appId: 'bagwright.desktop',
    productName: 'Bagwright',
    directories: { output },
    files: [...packedFiles],
    extraFiles: [{ from: notices, to: 'LICENSES.bundled.txt' }],
    asar: true,
    // What is there is packed: to fetch another Electron unseen is nobody's wish.
    electronDist: electronFolder,
    npmRebuild: false,
    nodeGypRebuild: false,
    publish: null,
    afterPack: (packed) => setFuses(programIn(packed)),
    linux: { target: ['AppImage'], category: 'Engineering', executableName: 'bagwright', icon },
    win: { target: ['zip', 'nsis'], icon },
    nsis: {
      oneClick: false,
      perMachine: false,
      allowToChangeInstallationDirectory: true,
      deleteAppDataOnUninstall: false,
      differentialPackage: false,
    },
    mac: { target: ['zip', 'dmg'], category: 'public.app-category.productivity', icon, hardenedRuntime: false },
    dmg: { writeUpdateInfo: false },
  };
}

/** The file that starts the packed program; on a Mac the bundle, whose framework holds the fuses. */
export function programIn({ appOutDir, electronPlatformName, packager }: AfterPackContext): string {
  const { productFilename } = packager.appInfo;
  if (electronPlatformName === 'darwin') return join(appOutDir, `${productFilename}.app`);
  if (electronPlatformName === 'win32') return join(appOutDir, `${productFilename}.exe`);
  return join(appOutDir, 'bagwright');
}
