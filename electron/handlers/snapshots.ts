/** The snapshots' channels. The second folder is chosen in the shell's dialogue: the page learns its name, and never gives one. */
import { dialog } from 'electron';
import type { Handlers } from '../ipc.ts';
import type { SnapshotKeeper } from '../journal/snapshots/keeper.ts';

type SnapshotChannel = Extract<keyof Handlers, `snapshots${string}`>;

export function snapshotHandlers(keeper: SnapshotKeeper): Pick<Handlers, SnapshotChannel> {
  return {
    snapshotsList: () => keeper.list(),
    snapshotsMake: (_window, { why }) => keeper.make(why),
    snapshotsRead: (_window, request) => keeper.read(request),
    snapshotsMeant: (_window, request) => keeper.meant(request),
    async snapshotsChooseSecond(window) {
      const chosen = await dialog.showOpenDialog(window, { properties: ['openDirectory', 'createDirectory'] });
      const [folder] = chosen.filePaths;
      if (chosen.canceled || folder === undefined) return null;
      await keeper.setSecond(folder);
      return folder;
    },
    snapshotsNoSecond: () => keeper.setSecond(null),
  };
}
