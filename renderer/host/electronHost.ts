/** The host of the desktop shell: the preload script's promises, their refusals turned back into exceptions. */
import type { Host, JournalHost } from '../../shared-types/host.ts';
import type { Answer, Bridge } from '../../shared-types/ipc.ts';
import { RefusedError } from '../engine/errors.ts';

export function electronHost(bridge: Bridge): Host {
  return {
    info: () => unwrap(bridge.info()),
    openText: (request) => unwrap(bridge.openText(request)),
    saveFile: (file) => unwrap(bridge.saveFile(file)),
    makePdf: (document) => unwrap(bridge.makePdf(document)),
    printPdf: (file) => unwrap(bridge.printPdf(file)),
    journal: journalOf(bridge),
    snapshots: {
      list: () => unwrap(bridge.snapshotsList()),
      make: (request) => unwrap(bridge.snapshotsMake(request)),
      read: (request) => unwrap(bridge.snapshotsRead(request)),
      meant: (request) => unwrap(bridge.snapshotsMeant(request)),
      chooseSecond: () => unwrap(bridge.snapshotsChooseSecond()),
      noSecond: () => unwrap(bridge.snapshotsNoSecond()),
    },
  };
}

function journalOf(bridge: Bridge): JournalHost {
  const losers = new Map<string, (reason: string) => void>();
  // A lease may be taken away before the answer that grants it is here.
  const lostEarly = new Map<string, string>();
  bridge.onLeaseLost(({ lease, reason }) => {
    const loser = losers.get(lease);
    if (loser === undefined) lostEarly.set(lease, reason);
    else loser(reason);
    losers.delete(lease);
  });
  return {
    open: () => unwrap(bridge.journalOpen()),
    append: (request) => unwrap(bridge.journalAppend(request)),
    read: (request) => unwrap(bridge.journalRead(request)),
    setDatabase: (request) => unwrap(bridge.journalSetDatabase(request)),
    beginAgain: (request) => unwrap(bridge.journalBeginAgain(request)),
    async lease(request, onLost) {
      const id = await unwrap(bridge.journalLease(request));
      if (id === null) return null;
      const already = lostEarly.get(id);
      if (already === undefined) losers.set(id, onLost);
      else queueMicrotask(() => onLost(already));
      return {
        id,
        end() {
          losers.delete(id);
          void bridge.journalEndLease(id);
        },
      };
    },
  };
}

async function unwrap<T>(pending: Promise<Answer<T>>): Promise<T> {
  const answer = await pending;
  if (!answer.ok) throw new RefusedError(answer.refusal);
  return answer.value;
}
