/** The journal's channels. The right to write belongs to one loading of the page, and ends with it. */
import type { BrowserWindow } from 'electron';
import type { LeaseLost } from '../../shared-types/ipc.ts';
import type { Handlers } from '../ipc.ts';
import type { JournalDesk } from '../journal/desk.ts';
import type { HeldLease } from '../journal/lease.ts';

type JournalChannel = Extract<keyof Handlers, `journal${string}`>;

export function journalHandlers(desk: JournalDesk): Pick<Handlers, JournalChannel> {
  const heldBy = leasesByWindow();
  return {
    journalOpen: () => desk.open(),
    journalAppend: (_window, request) => desk.append(request),
    journalRead: (_window, request) => desk.read(request),
    journalSetDatabase: (_window, request) => desk.setDatabase(request),
    journalBeginAgain: (_window, request) => desk.beginAgain(request),
    async journalLease(window, { takeOver }) {
      const held = heldBy(window);
      // A page that asks anew has forgotten the lease it had: it was loaded again.
      held.endAll();
      let id = '';
      const lease = desk.lease.take({ takeOver }, (reason) => {
        if (!window.isDestroyed()) window.webContents.send('leaseLost', { lease: id, reason } satisfies LeaseLost);
      });
      if (lease === null) return null;
      id = lease.id;
      held.add(lease);
      return id;
    },
    async journalEndLease(_window, id) {
      desk.lease.end(id);
    },
  };
}

interface WindowLeases {
  add(lease: HeldLease): void;
  endAll(): void;
}

/** What each window holds, given up when its page goes: closed, crashed, or loaded again. */
function leasesByWindow(): (window: BrowserWindow) => WindowLeases {
  const known = new WeakMap<BrowserWindow, WindowLeases>();
  return (window) => {
    const before = known.get(window);
    if (before !== undefined) return before;
    const leases = watch(window);
    known.set(window, leases);
    return leases;
  };
}

function watch(window: BrowserWindow): WindowLeases {
  let held: HeldLease[] = [];
  let leaving: HeldLease[] = [];
  const end = (leases: HeldLease[]): void => leases.forEach((lease) => lease.end());
  const endAll = (): void => end(held.splice(0));
  window.webContents.on('destroyed', endAll);
  window.webContents.on('render-process-gone', endAll);
  // A navigation that was begun may still be refused; once it has happened, what the former page held is free.
  window.webContents.on('did-start-navigation', ({ isMainFrame, isSameDocument }) => {
    if (isMainFrame && !isSameDocument) leaving = [...held];
  });
  window.webContents.on('did-navigate', () => end(leaving.splice(0)));
  return {
    add: (lease) => {
      held = [lease];
    },
    endAll,
  };
}
