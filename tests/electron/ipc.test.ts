/** The gate between page and shell: acceptance line S8. */
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import fc from 'fast-check';
import { channelArguments, type Answer, type Channel } from '../../shared-types/ipc.ts';
import { app, BrowserWindow, channels, dialog, shell } from './support/electronStandIn.ts';
import { genuineEvent, shellUnderTest } from './support/shellUnderTest.ts';

vi.mock('electron', () => import('./support/electronStandIn.ts'));

const names = Object.keys(channelArguments) as Channel[];
let window: BrowserWindow;

afterAll(() => void app.emit('will-quit', { preventDefault: () => undefined }));
beforeAll(async () => {
  ({ window } = await shellUnderTest());
});

function send(channel: string, event: unknown, ...given: unknown[]): Promise<unknown> {
  const handler = channels.get(channel);
  if (handler === undefined) throw new Error(`${channel} does not exist`);
  return handler(event, ...given);
}

const lease = 'ab'.repeat(16);
const aPayload = { title: 'a', key: '7c7e9b9c-6d3a-4c57-8f43-0a8c1c0d1b11', undoable: true };
const changes = [{ table: 'shelves', id: 's', before: null, after: { id: 's', rev: 1, name: 'Store' } }];

const proper: Record<Channel, unknown[]> = {
  info: [],
  openText: [{ extensions: ['json'], maxBytes: 10 }],
  saveFile: [{ name: 'a.txt', mediaType: 'text/plain', bytes: Uint8Array.of(1) }],
  makePdf: [{ title: 'a', html: '<p>a', paper: 'A4' }],
  printPdf: [{ name: 'a.pdf', bytes: new TextEncoder().encode('%PDF-1.7') }],
  journalOpen: [],
  journalAppend: [{ lease, seq: 1, user: '', action: 'edit', payload: { ...aPayload, changes } }],
  journalRead: [{ from: 1 }],
  journalSetDatabase: [{ lease, name: 'bagwright-2' }],
  journalBeginAgain: [{ lease, keepThrough: 0 }],
  journalLease: [{ takeOver: false }],
  journalEndLease: [lease],
  snapshotsList: [],
  snapshotsMake: [{ why: 'asked' }],
  snapshotsRead: [{ name: '2031-04-05T10-20-30Z_000000000001_asked.snapshot', from: 0 }],
  snapshotsMeant: [{ what: 'snapshots-go-further', through: 3 }],
  snapshotsChooseSecond: [],
  snapshotsNoSecond: [],
};

const needsLease = new Set<Channel>(['journalAppend', 'journalSetDatabase', 'journalBeginAgain']);

const page = 'app://bagwright/';
const strangers: [string, () => unknown][] = [
  ['no frame', () => ({ sender: window.webContents, senderFrame: null })],
  ['a frame inside the page', () => ({ sender: window.webContents, senderFrame: { parent: {}, url: page } })],
  ['another window', () => ({ sender: {}, senderFrame: { parent: null, url: page } })],
  ...[
    'https://example.org/',
    'file:///app/index.html',
    'app://print/1',
    'app://bagwright.example/',
    'app://bagwright',
    'APP://BAGWRIGHT/',
    'about:blank',
    'data:text/html,x',
    'blob:app://bagwright/1',
    '',
  ].map((url): [string, () => unknown] => [
    `the window at "${url}"`,
    () => ({ sender: window.webContents, senderFrame: { parent: null, url } }),
  ]),
];

describe('the gate', () => {
  it('knows exactly the channels that have a shape', () => {
    expect([...channels.keys()].toSorted()).toEqual(names.toSorted());
  });

  describe.each(names)('%s', (channel) => {
    it.each(strangers)('turns away %s', async (_who, event) => {
      const untouched = [dialog.showOpenDialog, dialog.showSaveDialog, shell.openPath];
      untouched.forEach((mock) => mock.mockClear());
      await expect(send(channel, event(), ...proper[channel])).rejects.toThrow('not the program');
      untouched.forEach((mock) => expect(mock).not.toHaveBeenCalled());
    });

    it(`answers the program itself${needsLease.has(channel) ? ', and wants a lease from it' : ''}`, async () => {
      dialog.showOpenDialog.mockResolvedValue({ canceled: true, filePaths: [] });
      dialog.showSaveDialog.mockResolvedValue({ canceled: true, filePath: '' });
      shell.openPath.mockResolvedValue('');
      const code = channel === 'snapshotsRead' ? 'unreadable-file' : needsLease.has(channel) ? 'not-writer' : null;
      const expected = code === null ? { ok: true } : { ok: false, refusal: { code } };
      expect(await send(channel, genuineEvent(window), ...proper[channel])).toMatchObject(expected);
    });

    it('refuses a thousand senseless payloads by name, without doing anything', async () => {
      const untouched = [dialog.showOpenDialog, dialog.showSaveDialog, shell.openPath];
      untouched.forEach((mock) => mock.mockClear());
      const windows = BrowserWindow.made.length;
      const anything = fc.anything({ withBigInt: true, withDate: true, withMap: true, withTypedArray: true });
      const near = fc.record(
        { name: anything, bytes: anything, mediaType: anything, html: anything, title: anything, paper: anything },
        { requiredKeys: [] },
      );
      const payload = fc.array(fc.oneof(anything, near), {
        minLength: proper[channel].length === 0 ? 1 : 0,
        maxLength: 4,
      });
      await fc.assert(
        fc.asyncProperty(payload, async (given) => {
          const answer = (await send(channel, genuineEvent(window), ...given)) as Answer<unknown>;
          expect(answer).toMatchObject({ ok: false, refusal: { code: 'wrong-shape' } });
        }),
        { numRuns: 1_000, seed: 20310405 },
      );
      untouched.forEach((mock) => expect(mock).not.toHaveBeenCalled());
      expect(BrowserWindow.made.length).toBe(windows);
    });
  });

  it('takes no path from the page: every extra field is refused', async () => {
    for (const channel of names.filter((name) => typeof proper[name][0] === 'object')) {
      for (const extra of ['path', 'filePath', 'defaultPath', 'folder', 'url', '__proto__x']) {
        const [first] = proper[channel] as [object];
        const answer = await send(channel, genuineEvent(window), { ...first, [extra]: '/etc/passwd' });
        expect(answer, `${channel}.${extra}`).toMatchObject({ ok: false, refusal: { code: 'wrong-shape' } });
      }
    }
  });

  it('proposes to the save dialogue a name, never a place', async () => {
    for (const name of ['/etc/passwd', '../../x.json', 'C:\\Windows\\x.json', '~/x.json']) {
      dialog.showSaveDialog.mockClear();
      await send('saveFile', genuineEvent(window), { name, mediaType: 'application/json', bytes: Uint8Array.of(1) });
      expect(dialog.showSaveDialog).toHaveBeenCalledWith(
        window,
        expect.objectContaining({ defaultPath: expect.stringMatching(/^[^/\\:]+$/) as string }),
      );
    }
  });

  it.each([
    ['plot.svg', 'image/svg+xml', 'Drawing', 'svg'],
    ['plot.png', 'image/png', 'Picture', 'png'],
  ])('offers %s under what it is', async (name, mediaType, kind, ending) => {
    dialog.showSaveDialog.mockClear();
    dialog.showSaveDialog.mockResolvedValue({ canceled: true, filePath: '' });
    const answer = await send('saveFile', genuineEvent(window), { name, mediaType, bytes: Uint8Array.of(1) });
    expect(answer).toEqual({ ok: true, value: false });
    expect(dialog.showSaveDialog).toHaveBeenCalledWith(window, {
      defaultPath: name,
      filters: [{ name: kind, extensions: [ending] }],
    });
  });

  it('refuses more bytes than it takes', async () => {
    const bytes = new Uint8Array(64 * 1024 * 1024 + 1);
    const answer = await send('saveFile', genuineEvent(window), { name: 'a', mediaType: 'text/plain', bytes });
    expect(answer).toMatchObject({ ok: false, refusal: { field: '0.bytes' } });
  });
});
