import type { HostInfo } from '../../shared-types/host.ts';
import type { PrivateTemporary } from '../files/privateTemporary.ts';
import type { Handlers } from '../ipc.ts';
import type { JournalDesk } from '../journal/desk.ts';
import { info } from './info.ts';
import { journalHandlers } from './journal.ts';
import { makePdf } from './makePdf.ts';
import { openText } from './openText.ts';
import { printPdf } from './printPdf.ts';
import { saveFile } from './saveFile.ts';
import { snapshotHandlers } from './snapshots.ts';

export interface ShellMeans {
  info: HostInfo;
  temporary: PrivateTemporary;
  journal: JournalDesk;
  /** The user's own file mask: files they save are theirs to share, unlike the program's data. */
  usersMask: number;
}

export function handlersFor(means: ShellMeans): Handlers {
  return {
    info: info(means.info),
    openText,
    saveFile: saveFile(means.usersMask),
    makePdf: makePdf(),
    printPdf: printPdf(means.temporary),
    ...journalHandlers(means.journal),
    ...snapshotHandlers(means.journal.snapshots),
  };
}
