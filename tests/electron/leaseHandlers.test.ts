/** The right to write belongs to one loading of the page in the desktop shell, and ends with it. */
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { journalHandlers } from '../../electron/handlers/journal.ts';
import { journalDesk, type JournalDesk } from '../../electron/journal/desk.ts';
import { BrowserWindow, ipcRenderer } from './support/electronStandIn.ts';
import { request } from './support/journalUnderTest.ts';
import { scratchFolder } from './support/site.ts';

vi.mock('electron', () => import('./support/electronStandIn.ts'));

/** As the handlers know a window; here the stand-in's. */
type RealWindow = Parameters<ReturnType<typeof journalHandlers>['journalLease']>[0];

let desk: JournalDesk;
let handlers: ReturnType<typeof journalHandlers>;
let lost: unknown[] = [];
const hear = (_event: unknown, message: unknown): void => void lost.push(message);

beforeEach(async () => {
  desk = journalDesk({ folder: join(scratchFolder(), 'journal') });
  handlers = journalHandlers(desk);
  await desk.open();
  lost = [];
  ipcRenderer.on('leaseLost', hear);
});
afterEach(() => {
  ipcRenderer.off('leaseLost', hear);
  desk.close();
});

function newWindow(): { shown: BrowserWindow; given: RealWindow } {
  const shown = new BrowserWindow({ webPreferences: {} });
  return { shown, given: shown as unknown as RealWindow };
}

const lease = async (window: RealWindow, takeOver = false): Promise<string | null> =>
  (await handlers.journalLease(window, { takeOver })) as string | null;

const mayWrite = async (window: RealWindow, id: string | null, seq: number): Promise<boolean> =>
  await handlers.journalAppend(window, { ...request(seq), lease: id ?? '' }).then(
    () => true,
    () => false,
  );

const navigation = (more: object = {}): unknown => ({ isMainFrame: true, isSameDocument: false, ...more });

describe('a lease', () => {
  it('is one at a time, and whoever takes it over leaves the former with the reason', async () => {
    const [first, second] = [newWindow(), newWindow()];
    const id = await lease(first.given);
    expect(id).toMatch(/^[0-9a-f]{32}$/);
    expect(await lease(second.given)).toBeNull();
    expect(await mayWrite(first.given, id, 1)).toBe(true);
    const taken = await lease(second.given, true);
    expect(lost).toEqual([{ lease: id, reason: 'Another window of Bagwright saves now.' }]);
    expect(await mayWrite(first.given, id, 2)).toBe(false);
    expect(await mayWrite(second.given, taken, 2)).toBe(true);
  });

  it('is not told to a window that is gone', async () => {
    const [first, second] = [newWindow(), newWindow()];
    await lease(first.given);
    first.shown.destroyed = true;
    expect(await lease(second.given, true)).not.toBeNull();
    expect(lost).toEqual([]);
  });

  it.each(['destroyed', 'render-process-gone'])('ends when the page is gone: %s', async (event) => {
    const [first, second] = [newWindow(), newWindow()];
    const id = await lease(first.given);
    first.shown.webContents.emit(event, {}, { reason: 'crashed' });
    expect(await mayWrite(first.given, id, 1)).toBe(false);
    expect(await lease(second.given)).not.toBeNull();
  });

  it('ends when the page is loaded again, and the new one has its own', async () => {
    const { shown, given } = newWindow();
    const id = await lease(given);
    shown.webContents.emit('did-start-navigation', navigation());
    shown.webContents.emit('did-navigate', {}, 'app://bagwright/');
    expect(await mayWrite(given, id, 1)).toBe(false);
    const next = await lease(given);
    expect(await mayWrite(given, next, 1)).toBe(true);
    expect(lost).toEqual([]);
  });

  it('of the new page stays, where word of the former page’s end comes late', async () => {
    const { shown, given } = newWindow();
    await lease(given);
    shown.webContents.emit('did-start-navigation', navigation());
    const next = await lease(given);
    shown.webContents.emit('did-navigate', {}, 'app://bagwright/');
    expect(await mayWrite(given, next, 1)).toBe(true);
  });

  it.each([
    ['a navigation that was begun and refused', navigation()],
    ['a step within the page', navigation({ isSameDocument: true })],
    ['a frame in the page', navigation({ isMainFrame: false })],
  ])('stays through %s', async (_what, begun) => {
    const { shown, given } = newWindow();
    const id = await lease(given);
    shown.webContents.emit('did-start-navigation', begun);
    expect(await mayWrite(given, id, 1)).toBe(true);
  });

  it('given back is free', async () => {
    const [first, second] = [newWindow(), newWindow()];
    const id = await lease(first.given);
    await handlers.journalEndLease(first.given, id ?? '');
    expect(await mayWrite(first.given, id, 1)).toBe(false);
    expect(await lease(second.given)).not.toBeNull();
    expect(lost).toEqual([]);
  });
});
