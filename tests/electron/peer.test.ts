/** Another user of the same machine gets neither the page, nor its token, nor the work. */
import { spawn } from 'node:child_process';
import { connect, createServer, type AddressInfo, type Socket } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { peerCheck, type Peer } from '../../electron/launch/peer.ts';
import { loadPage, serve } from '../host/servedPage.ts';

const header = '  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode\n';
const row = (local: string, remote: string, uid: number): string =>
  `   7: ${local} ${remote} 01 00000000:00000000 02:000AFC8E 00000000  ${uid}        0 4711 2 0000000000000000 20 4 30 10 -1\n`;
/** Port 47811 is ours, 50000 theirs. */
const [ours, theirs] = ['0100007F:BAC3', '0100007F:C350'];
const [oursNewer, theirsNewer] = [ours, theirs].map((end) => `0000000000000000FFFF0000${end}`) as [string, string];
const connection = { remotePort: 50_000, localPort: 47_811 };

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
});

describe('the owner of the other end', () => {
  const cases: [string, string, Peer][] = [
    ['is this user', row(ours, theirs, 1000) + row(theirs, ours, 1000), 'ours'],
    ['is another user', row(ours, theirs, 1000) + row(theirs, ours, 1001), 'foreign'],
    ['is the system’s own user', row(theirs, ours, 0) + row(ours, theirs, 1000), 'foreign'],
    ['is this user, through a socket of the newer kind', row(theirsNewer, oursNewer, 1000), 'ours'],
    ['is another user, through a socket of the newer kind', row(theirsNewer, oursNewer, 5), 'foreign'],
    ['has gone, and only our end is left', row(ours, theirs, 1000), 'foreign'],
    ['is not looked for at other ports', row('0100007F:C351', ours, 1001) + row(theirs, ours, 1000), 'ours'],
    ['is not looked for at other machines', row('0200007F:C350', ours, 1001) + row(theirs, ours, 1000), 'ours'],
    ['is not told by a table that hides even us', row('0100007F:0001', '0100007F:0002', 9), 'unknown'],
    ['is not told by an empty table', '', 'unknown'],
  ];

  it.each(cases)('%s', async (_who, rows, expected) => {
    expect(await peerCheck({ table: () => Promise.resolve(header + rows), ownUid: 1000 })(connection)).toBe(expected);
  });

  it('is not known where there is no table, or no users', async () => {
    const table = (): Promise<string> => Promise.reject(new Error('ENOENT'));
    expect(await peerCheck({ table, ownUid: 1000 })(connection)).toBe('unknown');
    const full = (): Promise<string> => Promise.resolve(row(theirs, ours, 5));
    expect(await peerCheck({ table: full, ownUid: undefined })(connection)).toBe('unknown');
  });

  it('is looked up once for a connection, and again where a row was skipped', async () => {
    let readings = 0;
    const table = (): Promise<string> => {
      readings += 1;
      return Promise.resolve(header + (readings === 1 ? row(ours, theirs, 1000) : row(theirs, ours, 1000)));
    };
    const check = peerCheck({ table, ownUid: 1000 });
    expect(await check(connection)).toBe('ours');
    expect(await check(connection)).toBe('ours');
    expect(readings).toBe(2);
    expect(await check({ ...connection })).toBe('ours');
    expect(readings).toBe(3);
  });

  it('is read for many at once, never from a reading that began before they came', async () => {
    let running = 0;
    let readings = 0;
    const steps = { begin: (): void => undefined, ask: (): void => undefined };
    const begun = new Promise<void>((resolve) => (steps.begin = resolve));
    const asked = new Promise<void>((resolve) => (steps.ask = resolve));
    const table = async (): Promise<string> => {
      readings += 1;
      running += 1;
      expect(running).toBe(1);
      const text = header + row(theirs, ours, readings === 1 ? 5 : 1000);
      steps.begin();
      if (readings === 1) await asked;
      running -= 1;
      return text;
    };
    const check = peerCheck({ table, ownUid: 1000 });
    const first = check({ ...connection });
    await begun;
    // They come while the first is being read.
    const coming = Array.from({ length: 50 }, () => check({ ...connection }));
    steps.ask();
    const later = await Promise.all(coming);
    expect(await first).toBe('foreign');
    expect(new Set(later)).toEqual(new Set(['ours']));
    expect(readings).toBe(2);
  });
});

describe('a real connection', () => {
  async function accepted(): Promise<{ socket: Socket; port: number }> {
    const server = createServer();
    closing.push(() => server.close());
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', () => resolve()));
    const { port } = server.address() as AddressInfo;
    const incoming = new Promise<Socket>((resolve) => server.once('connection', resolve));
    const client = connect({ port, host: '127.0.0.1' });
    const socket = await incoming;
    closing.push(() => [client, socket].forEach((end) => end.destroy()));
    return { socket, port };
  }

  it('of this process is ours', async (ctx) => {
    if (process.platform !== 'linux') return ctx.skip('Only Linux lists connections with their owners: not run here');
    const { socket } = await accepted();
    expect(await peerCheck()(socket)).toBe('ours');
  });

  it('of another user gets no page, no token and no answer', async (ctx) => {
    if (process.platform !== 'linux' || process.getuid?.() !== 0) {
      return ctx.skip('Another user can be played by the system’s own user on Linux only: not run here');
    }
    const server = await serve();
    closing.push(() => server.close());
    const { token } = await loadPage(server);
    const statuses = await asUser(65_534, server.origin, token);
    expect(statuses).toEqual({ page: 403, held: false, info: 403, journal: 403, lease: 403 });
    expect(await asUser(0, server.origin, token)).toEqual({
      page: 200,
      held: true,
      info: 200,
      journal: 200,
      lease: 200,
    });
  });
});

/** What a process of that user is answered, even with the token in its hand. */
async function asUser(uid: number, origin: string, token: string): Promise<unknown> {
  const source = `
    const [origin, token] = process.argv.slice(1);
    const post = async (path, body) => {
      const headers = { 'content-type': 'application/json', origin, 'x-bagwright-token': token };
      const answer = await fetch(origin + path, { method: 'POST', body, headers });
      await answer.body?.cancel();
      return answer.status;
    };
    const page = await fetch(origin + '/');
    const held = (await page.text()).includes(token);
    console.log(JSON.stringify({
      page: page.status,
      held,
      info: await post('/api/info', '{}'),
      journal: await post('/api/journal/open', '{}'),
      lease: await post('/api/journal/lease', '{"takeOver":true}'),
    }));
  `;
  const child = spawn(process.execPath, ['--input-type=module', '-e', source, origin, token], {
    uid,
    cwd: '/',
    env: {},
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.on('data', (part: Buffer) => (said += String(part)));
  await new Promise((resolve) => child.on('close', resolve));
  return JSON.parse(said) as unknown;
}

describe('the server', () => {
  it.each<[Peer, number]>([
    ['foreign', 403],
    ['ours', 200],
    ['unknown', 200],
  ])('asked by a peer that is %s answers %d', async (peer, status) => {
    const server = await serve({ peer: () => Promise.resolve(peer) });
    closing.push(() => server.close());
    const page = await fetch(server.origin);
    const text = await page.text();
    expect(page.status).toBe(status);
    expect(text.includes('bagwright-token')).toBe(status === 200);
    // The program's own files are no secret.
    expect((await fetch(`${server.origin}/assets/index-1a2b.js`)).status).toBe(200);
  });

  it('shows a printed document to no other user', async () => {
    let peer: Peer = 'ours';
    const server = await serve({ peer: () => Promise.resolve(peer) });
    closing.push(() => server.close());
    const means = await loadPage(server);
    const answer = await means.fetch('/api/print', {
      method: 'POST',
      body: '%PDF-1.7\n%%EOF\n',
      headers: {
        'content-type': 'application/pdf',
        'x-bagwright-token': means.token,
        'x-bagwright-file-name': 'a.pdf',
      },
    });
    const { address } = (await answer.json()) as { address: string };
    expect((await fetch(address)).status).toBe(200);
    peer = 'foreign';
    expect((await fetch(address)).status).toBe(403);
  });
});
