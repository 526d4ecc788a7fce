/** One journal and several processes: killed while it writes (acceptance line R1, short form), or two at once. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { journalDesk } from '../../electron/journal/desk.ts';
import { takeLock } from '../../electron/journal/lock.ts';
import { systemProcesses } from '../../electron/journal/processes.ts';
import { expectSurvived } from '../campaign/support/survived.ts';
import { secondProcess } from '../campaign/twoWindows.ts';
import { writerKills } from '../campaign/writerKills.ts';
import { journalUnderTest, refusalOf } from './support/journalUnderTest.ts';
import { scratchFolder } from './support/site.ts';

describe('a process killed while it writes', () => {
  it('has every acknowledged line there, and the rest whole', () => expectSurvived(writerKills, 12));
});

describe('two processes on one journal', () => {
  it('do not write both: the second is refused in plain words, until the first has gone', () =>
    expectSurvived(secondProcess, 2));

  it('nor two in one process', async () => {
    const folder = join(scratchFolder(), 'journal');
    const first = journalUnderTest({ folder });
    await first.open();
    const second = journalUnderTest({ folder });
    expect(await refusalOf(second.open())).toMatchObject({ code: 'not-available' });
    expect(await refusalOf(second.add(1))).toMatchObject({ code: 'not-available' });
    first.close();
    expect((await second.open()).seq).toBe(0);
  });
});

describe('the lock', () => {
  const folderWith = (lock: string): string => {
    const folder = scratchFolder();
    writeFileSync(join(folder, 'lock'), lock);
    return folder;
  };
  const self = systemProcesses.self();

  it.each<[string, string]>([
    ['a process that is gone', JSON.stringify({ pid: 2 ** 22 + 1, started: '' })],
    ['another start of the machine', JSON.stringify({ ...self, started: 'another boot 12345' })],
    ['a process of the same number that began later', JSON.stringify({ ...self, started: `${self.started}0` })],
    ['nobody: it is empty', ''],
    ['nobody: it is broken off', '{"pid":'],
    ['nobody: it holds something else', '{"pid":"me"}'],
  ])('left by %s is taken over', async (_who, text) => {
    const folder = folderWith(text);
    const lock = await takeLock(folder);
    expect(JSON.parse(readFileSync(join(folder, 'lock'), 'utf8'))).toMatchObject(self);
    expect(readdirSync(folder)).toEqual(['lock']);
    lock.release();
    expect(existsSync(join(folder, 'lock'))).toBe(false);
  });

  it('held by a process that runs is not', async () => {
    const folder = folderWith(JSON.stringify(self));
    await expect(takeLock(folder)).rejects.toMatchObject({ refusal: { code: 'not-available' } });
    expect(JSON.parse(readFileSync(join(folder, 'lock'), 'utf8'))).toEqual(self);
    const other = folderWith(JSON.stringify({ pid: 77, started: 'then' }));
    await expect(takeLock(other, { self: () => self, isRunning: ({ pid }) => pid === 77 })).rejects.toThrow(
      /process 77/,
    );
  });

  it('of a dead holder goes to exactly one of many who try at once', async () => {
    for (let round = 0; round < 20; round += 1) {
      const folder = folderWith(JSON.stringify({ pid: 2 ** 22 + 1, started: '' }));
      const outcomes = await Promise.allSettled(Array.from({ length: 8 }, () => takeLock(folder)));
      expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    }
  });

  it('given back twice, or after another took it, stays with the other', async () => {
    const folder = scratchFolder();
    const lock = await takeLock(folder);
    lock.release();
    const other = await takeLock(folder);
    lock.release();
    expect(existsSync(join(folder, 'lock'))).toBe(true);
    other.release();
    expect(existsSync(join(folder, 'lock'))).toBe(false);
  });
});

describe('the desk', () => {
  const asked = (lease: string, seq: number) => ({
    lease,
    seq,
    user: '',
    action: 'edit',
    payload: {
      title: 'a',
      key: crypto.randomUUID(),
      undoable: true,
      changes: [{ table: 'shelves' as const, id: 's', before: null, after: { id: 's', rev: 1, name: 'x' } }],
    },
  });

  it('opens in advance, once, and tells the first who asks what it found', async () => {
    const folder = join(scratchFolder(), 'journal');
    mkdirSync(join(folder, 'entries-1'), { recursive: true });
    writeFileSync(join(folder, 'entries-1', '000000000001.jsonl'), 'torn');
    const desk = journalDesk({ folder });
    desk.begin();
    expect((await desk.open()).tail?.bytes).toBe(4);
    expect((await desk.open()).tail).toBeNull();
    desk.close();
  });

  it('tells a refusal to whoever asks, and tries again when asked again', async () => {
    const folder = join(scratchFolder(), 'journal');
    writeFileSync(folder, '');
    const desk = journalDesk({ folder });
    desk.begin();
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(await refusalOf(desk.open())).toMatchObject({ code: 'disk' });
    rmSync(folder);
    expect((await desk.open()).seq).toBe(0);
    desk.close();
  });

  it('takes a write from the holder of the right alone, and tells a former holder that it is not any more', async () => {
    const desk = journalDesk({ folder: join(scratchFolder(), 'journal') });
    await desk.open();
    expect(await refusalOf(desk.append(asked('0'.repeat(32), 1)))).toMatchObject({ code: 'not-writer' });
    const lost: string[] = [];
    const first = desk.lease.take({ takeOver: false }, (reason) => void lost.push(reason));
    expect(desk.lease.take({ takeOver: false }, () => undefined)).toBeNull();
    expect((await desk.append(asked(first?.id ?? '', 1))).seq).toBe(1);
    const second = desk.lease.take({ takeOver: true }, () => undefined);
    expect(lost).toEqual(['Another window of Bagwright saves now.']);
    expect(second?.id).toMatch(/^[0-9a-f]{32}$/);
    expect(await refusalOf(desk.append(asked(first?.id ?? '', 2)))).toMatchObject({ code: 'not-writer' });
    expect(await refusalOf(desk.setDatabase({ lease: first?.id ?? '', name: 'b' }))).toMatchObject({
      code: 'not-writer',
    });
    expect(await refusalOf(desk.beginAgain({ lease: first?.id ?? '', keepThrough: 0 }))).toMatchObject({
      code: 'not-writer',
    });
    // What the former holder gives back is not the new one's.
    first?.end();
    expect((await desk.append(asked(second?.id ?? '', 2))).seq).toBe(2);
    second?.end();
    expect(await refusalOf(desk.append(asked(second?.id ?? '', 3)))).toMatchObject({ code: 'not-writer' });
    expect(desk.lease.take({ takeOver: false }, () => undefined)).not.toBeNull();
    desk.close();
  });

  it('lets one wait until the right is free, and no longer than its patience', async () => {
    const desk = journalDesk({ folder: scratchFolder() });
    await desk.lease.untilFree(60_000);
    const held = desk.lease.take({ takeOver: false }, () => undefined);
    let free = false;
    const waiting = desk.lease.untilFree(60_000).then(() => (free = true));
    await desk.lease.untilFree(20);
    expect(free).toBe(false);
    held?.end();
    await waiting;
    expect(free).toBe(true);
    desk.close();
  });
});
