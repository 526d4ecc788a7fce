/** The journal through the loopback server: who may write, for how long, and what is said when the program is gone. */
import { connect, type Socket } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { journalDesk, type JournalDesk } from '../../electron/journal/desk.ts';
import { mostSpoken } from '../../electron/launch/connections.ts';
import type { RunningServer } from '../../electron/launch/server.ts';
import { browserHost } from '../../renderer/host/browserHost.ts';
import type { AppendRequest } from '../../shared-types/journal.ts';
import type { JournalHost } from '../../shared-types/host.ts';
import { scratchFolder } from '../electron/support/site.ts';
import { refusalFrom } from './refusalFrom.ts';
import { loadPage, serve } from './servedPage.ts';
import { patience } from '../support/patience.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
});

async function served(journal?: JournalDesk, port = 0): Promise<RunningServer> {
  const desk = journal ?? journalDesk({ folder: join(scratchFolder(), 'journal') });
  const server = await serve({ journal: desk, port });
  closing.push(async () => {
    await server.close();
    desk.close();
  });
  return server;
}

/** One that waits as long as it takes for the right to be free: how fast a busy machine is decides nothing. */
function patientDesk(): JournalDesk {
  const desk = journalDesk({ folder: join(scratchFolder(), 'journal') });
  return { ...desk, lease: { ...desk.lease, untilFree: () => desk.lease.untilFree(patience.timeout) } };
}

const page = async (server: RunningServer): Promise<JournalHost> => browserHost(await loadPage(server)).journal;
const notLost = (reason: string): void => expect.fail(`lost: ${reason}`);

async function leaseOf(journal: JournalHost, onLost: (reason: string) => void, takeOver = false) {
  const lease = await journal.lease({ takeOver }, onLost);
  if (lease === null) throw new Error('another has it');
  return lease;
}

/** A connection of its own that has asked for something, and stays. */
function spokenConnection(port: number): Promise<Socket> {
  return new Promise((resolve) => {
    const socket = connect({ port, host: '127.0.0.1' });
    // One of them gives up its place to the next.
    socket.on('error', () => socket.destroy());
    socket.once('data', () => resolve(socket));
    socket.once('close', () => resolve(socket));
    socket.write(`GET /assets/index-1a2b.js HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n\r\n`);
  });
}

function request(lease: string, seq: number): AppendRequest {
  const changes = [{ table: 'shelves' as const, id: 's', before: null, after: { id: 's', rev: 1, name: 'Store' } }];
  const payload = { title: 'Add', key: crypto.randomUUID(), undoable: true, changes };
  return { lease, seq, user: '', action: 'edit', payload };
}

describe('two windows', () => {
  it('do not write both; one takes over and the other is told why', async () => {
    const server = await served();
    const [first, second] = [await page(server), await page(server)];
    await first.open();
    const lost = vi.fn();
    const held = await leaseOf(first, lost);
    expect(await second.lease({ takeOver: false }, notLost)).toBeNull();
    expect((await first.append(request(held.id, 1))).seq).toBe(1);
    const taken = await leaseOf(second, notLost, true);
    await vi.waitFor(
      () => expect(lost).toHaveBeenCalledExactlyOnceWith('Another window of Bagwright saves now.'),
      patience,
    );
    expect(await refusalFrom(first.append(request(held.id, 2)))).toMatchObject({ code: 'not-writer' });
    // Giving back what it has not any more changes nothing.
    held.end();
    await pause(50);
    expect((await second.append(request(taken.id, 2))).seq).toBe(2);
    taken.end();
    expect(lost).toHaveBeenCalledOnce();
  });

  it('of which one goes: the right is free, and the other may have it without taking over', async () => {
    const server = await served(patientDesk());
    const [first, second] = [await page(server), await page(server)];
    await first.open();
    const held = await leaseOf(first, notLost);
    // Loaded again: the old connection ends while the new page is asking already.
    setTimeout(() => held.end(), 200);
    const next = await leaseOf(second, notLost);
    expect((await second.append(request(next.id, 1))).seq).toBe(1);
    next.end();
  });

  it('of which the holder’s connection is cut without a word', async () => {
    const server = await served();
    const means = await loadPage(server);
    const cut = new AbortController();
    const held = await means.fetch('/api/journal/lease', {
      method: 'POST',
      body: '{"takeOver":false}',
      headers: { 'content-type': 'application/json', 'x-bagwright-token': means.token },
      signal: cut.signal,
    });
    expect(held.headers.get('content-type')).toBe('application/x-ndjson; charset=utf-8');
    const first = new TextDecoder().decode((await held.body?.getReader().read())?.value);
    expect(first).toMatch(/^\{"lease":"[0-9a-f]{32}"\}\n$/);
    const journal = await page(server);
    expect(await journal.lease({ takeOver: false }, notLost)).toBeNull();
    cut.abort();
    (await leaseOf(journal, notLost)).end();
  });
});

describe('the right to write', () => {
  it('outlasts the server’s time-outs and a crowd of other connections', async () => {
    const server = await served();
    const journal = await page(server);
    await journal.open();
    const lost = vi.fn();
    const held = await leaseOf(journal, lost);
    const crowd = await Promise.all(Array.from({ length: mostSpoken + 50 }, () => spokenConnection(server.port)));
    closing.push(() => crowd.forEach((socket) => socket.destroy()));
    // Longer than the ten seconds a request may take, and the five an idle connection is kept.
    await pause(12_000);
    expect(lost).not.toHaveBeenCalled();
    expect((await journal.append(request(held.id, 1))).seq).toBe(1);
    held.end();
    expect(lost).not.toHaveBeenCalled();
  });

  it('ends with the program, and both it and every call say so', async () => {
    const server = await served();
    const journal = await page(server);
    await journal.open();
    const lost = vi.fn();
    const held = await leaseOf(journal, lost);
    await server.close();
    await vi.waitFor(
      () =>
        expect(lost).toHaveBeenCalledExactlyOnceWith(
          'The program behind this window has ended: start Bagwright again.',
        ),
      patience,
    );
    for (const call of [
      () => journal.append(request(held.id, 1)),
      () => journal.open(),
      () => journal.lease({ takeOver: true }, notLost),
    ]) {
      expect(await refusalFrom(call())).toMatchObject({
        code: 'not-available',
        message: expect.stringMatching(/Start Bagwright again/) as string,
      });
    }
  });

  it('does not survive a new start of the program: the page is told to load again', async () => {
    const folder = join(scratchFolder(), 'journal');
    const [desk, next] = [journalDesk({ folder }), journalDesk({ folder })];
    const server = await serve({ journal: desk });
    const journal = await page(server);
    await journal.open();
    const lost = vi.fn();
    const held = await leaseOf(journal, lost);
    await server.close();
    desk.close();
    await vi.waitFor(() => expect(lost).toHaveBeenCalledOnce(), patience);
    const restarted = await served(next, server.port);
    expect(restarted.port).toBe(server.port);
    for (const call of [() => journal.open(), () => journal.append(request(held.id, 1))]) {
      expect(await refusalFrom(call())).toEqual({
        code: 'not-available',
        message: 'Bagwright was started again: load this page again.',
      });
    }
    expect((await (await page(restarted)).open()).seq).toBe(0);
  });

  it('is given to nobody without the token, or from elsewhere', async () => {
    const server = await served();
    const { token } = await loadPage(server);
    const ask = async (headers: Record<string, string>): Promise<number> =>
      (
        await fetch(`${server.origin}/api/journal/lease`, {
          method: 'POST',
          body: '{"takeOver":true}',
          headers: { 'content-type': 'application/json', ...headers },
        })
      ).status;
    expect(await ask({ origin: server.origin })).toBe(401);
    expect(await ask({ origin: server.origin, 'x-bagwright-token': 'x' })).toBe(401);
    expect(await ask({ origin: 'http://evil.example', 'x-bagwright-token': token })).toBe(403);
    expect(await ask({ origin: server.origin, 'x-bagwright-token': token, 'content-type': 'text/plain' })).toBe(415);
  });
});

describe('a journal that cannot be opened', () => {
  it('is told to the page as a refusal, and the page can be used to try again', async () => {
    const folder = join(scratchFolder(), 'journal');
    const holder = journalDesk({ folder });
    await holder.open();
    const desk = journalDesk({ folder });
    desk.begin();
    const journal = await page(await served(desk));
    expect(await refusalFrom(journal.open())).toMatchObject({
      code: 'not-available',
      message: expect.stringMatching(/^Another Bagwright \(process \d+\) has these data open/) as string,
    });
    holder.close();
    expect((await journal.open()).seq).toBe(0);
  });

  it('takes no more than 64 MB in one call', async () => {
    const server = await served();
    const journal = await page(server);
    await journal.open();
    const held = await leaseOf(journal, notLost);
    const asked = request(held.id, 1);
    asked.payload.changes = [
      { table: 'shelves', id: 's', before: { text: 'x'.repeat(65 * 1024 * 1024) }, after: null },
    ];
    const outcome = await refusalFrom(journal.append(asked));
    // Refused before it was taken, or cut off while it was being sent.
    expect(['too-large', 'not-available']).toContain(outcome.code);
    expect((await journal.open()).seq).toBe(0);
    held.end();
  });
});
