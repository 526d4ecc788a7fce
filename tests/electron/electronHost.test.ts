import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { electronHost } from '../../renderer/host/electronHost.ts';
import type { Bridge, LeaseLost } from '../../shared-types/ipc.ts';
import { hostContract, type HostUnderTest } from '../host/hostContract.ts';
import { app, BrowserWindow, dialog, exposed, shell } from './support/electronStandIn.ts';
import { shellUnderTest } from './support/shellUnderTest.ts';
import { scratchFolder } from './support/site.ts';
import { patience } from '../support/patience.ts';

vi.mock('electron', () => import('./support/electronStandIn.ts'));

async function open(): Promise<HostUnderTest> {
  await shellUnderTest();
  await import('../../electron/preload.ts');
  const host = electronHost(exposed.get('bagwright') as Bridge);
  let saved: { name: string; path: string } | null = null;
  dialog.showSaveDialog.mockImplementation((_window: unknown, { defaultPath }: { defaultPath: string }) => {
    saved = { name: defaultPath, path: join(scratchFolder(), 'saved') };
    return Promise.resolve({ canceled: false, filePath: saved.path });
  });
  shell.openPath.mockResolvedValue('');
  return {
    host,
    choose(file) {
      const path = file === null ? null : join(scratchFolder(), file.name);
      if (file !== null && path !== null) writeFileSync(path, file.bytes);
      dialog.showOpenDialog.mockResolvedValue({ canceled: path === null, filePaths: path === null ? [] : [path] });
    },
    saved: () => (saved === null ? null : { name: saved.name, bytes: readFileSync(saved.path) }),
    printed: () => Promise.resolve(readFileSync(String(shell.openPath.mock.lastCall?.[0]))),
    close: () => Promise.resolve(),
  };
}

hostContract('electron', open);

const host = (): ReturnType<typeof electronHost> => electronHost(exposed.get('bagwright') as Bridge);

describe('what only the desktop shell does', () => {
  const plain = { name: 'a.txt', mediaType: 'text/plain', bytes: Uint8Array.of(1, 2, 3) } as const;
  afterEach(() => void vi.clearAllMocks());

  it('answers false where saving is put off, and writes nothing', async () => {
    dialog.showSaveDialog.mockResolvedValueOnce({ canceled: true, filePath: '' });
    expect(await host().saveFile(plain)).toBe(false);
  });

  it('replaces a file whole and leaves nothing beside it', async () => {
    const folder = scratchFolder();
    const path = join(folder, 'old.txt');
    writeFileSync(path, 'old');
    dialog.showSaveDialog.mockResolvedValueOnce({ canceled: false, filePath: path });
    await host().saveFile(plain);
    expect([...readFileSync(path)]).toEqual([1, 2, 3]);
    expect(readdirSync(folder)).toEqual(['old.txt']);
  });

  it('says why a file could not be saved, and leaves nothing beside it', async () => {
    const folder = scratchFolder();
    dialog.showSaveDialog.mockResolvedValueOnce({ canceled: false, filePath: folder });
    await expect(host().saveFile(plain)).rejects.toThrow(/a\.txt could not be saved: E/);
    expect(readdirSync(join(folder, '..')).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('prints from a file that is the user’s alone, under a name that is safe', async () => {
    shell.openPath.mockResolvedValueOnce('');
    await host().printPdf({ name: '../../CON', bytes: new TextEncoder().encode('%PDF-1.7') });
    const path = String(shell.openPath.mock.lastCall?.[0]);
    expect(basename(path)).toBe('-..-CON.pdf');
    expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(statSync(join(path, '..')).mode & 0o777).toBe(0o700);
  });

  it('says so where no program opens the PDF', async () => {
    shell.openPath.mockResolvedValueOnce('no application');
    await expect(host().printPdf({ name: 'a', bytes: new TextEncoder().encode('%PDF-1.7') })).rejects.toThrow(
      /no application/,
    );
  });

  it('leaves no printed file behind when it ends', async () => {
    shell.openPath.mockResolvedValueOnce('');
    await host().printPdf({ name: 'a', bytes: new TextEncoder().encode('%PDF-1.7') });
    const path = String(shell.openPath.mock.lastCall?.[0]);
    expect(existsSync(path)).toBe(true);
    app.emit('will-quit', { preventDefault: () => undefined });
    expect(existsSync(join(path, '..'))).toBe(false);
  });
});

describe('the right to write, in the desktop shell', () => {
  it('that was taken away is told to the page that had it, once, and to no other', async () => {
    const { journal } = host();
    const lost: string[] = [];
    const first = await journal.lease({ takeOver: false }, (reason) => void lost.push(`first: ${reason}`));
    // The page loaded again asks for itself; what it had before is free without a word.
    const second = await journal.lease({ takeOver: false }, (reason) => void lost.push(`second: ${reason}`));
    expect(second?.id).not.toBe(first?.id);
    const page = BrowserWindow.made[0]?.webContents;
    page?.send('leaseLost', { lease: first?.id, reason: 'a' });
    page?.send('leaseLost', { lease: second?.id, reason: 'b' });
    page?.send('leaseLost', { lease: second?.id, reason: 'again' });
    expect(lost).toEqual(['first: a', 'second: b']);
  });

  it('that was lost before its answer came is told once it has come', async () => {
    const bridge = exposed.get('bagwright') as Bridge;
    let tell: (lost: LeaseLost) => void = () => undefined;
    const { journal } = electronHost({
      ...bridge,
      onLeaseLost: (listener) => {
        tell = listener;
      },
      journalLease: () => {
        tell({ lease: 'ab', reason: 'too late' });
        return Promise.resolve({ ok: true, value: 'ab' });
      },
    });
    const onLost = vi.fn();
    expect(await journal.lease({ takeOver: false }, onLost)).not.toBeNull();
    await vi.waitFor(() => expect(onLost).toHaveBeenCalledExactlyOnceWith('too late'), patience);
  });

  it('that was given back is not told of any more', async () => {
    const { journal } = host();
    const onLost = vi.fn();
    const lease = await journal.lease({ takeOver: true }, onLost);
    lease?.end();
    BrowserWindow.made[0]?.webContents.send('leaseLost', { lease: lease?.id, reason: 'a' });
    expect(onLost).not.toHaveBeenCalled();
  });
});
