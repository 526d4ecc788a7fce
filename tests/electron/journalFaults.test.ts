/** Acceptance line R5 at the journal: a disk that is full or failing. Nothing half written, nothing acknowledged lost. */
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { callFails, fullFromThenOn, fullOnce } from '../campaign/diskFaults.ts';
import { expectSurvived } from '../campaign/support/survived.ts';
import { faultyDisk, type DiskCall, type FaultyDisk } from './support/faultyDisk.ts';
import { comes, journalUnderTest, linesIn, refusalOf, request, segmentPaths } from './support/journalUnderTest.ts';
import { scratchFolder } from './support/site.ts';

const always = (): boolean => true;

/** A journal whose lines fill a file after a few, opened, on a disk that still works. */
async function opened(disk: FaultyDisk, segmentBytes = 2_000) {
  const journal = journalUnderTest({ disk, segmentBytes });
  await journal.open();
  return journal;
}

/** After the disk works again: verified, complete, and open for more. */
async function expectWhole(journal: Awaited<ReturnType<typeof opened>>, acknowledged: { hash: string }[]) {
  const state = await journal.open();
  expect(state).toMatchObject({ seq: acknowledged.length, damage: null, tail: null });
  expect(state.hash).toBe(acknowledged.at(-1)?.hash ?? '0'.repeat(64));
  expect((await journal.add(acknowledged.length + 1)).seq).toBe(acknowledged.length + 1);
}

describe('a disk that is full at the n-th write', () => {
  it('once: the one is refused, the next is taken, all verifies', () => expectSurvived(fullOnce, 50));

  it('from then on: all are refused until there is room again', () => expectSurvived(fullFromThenOn, 50));

  it('is told in plain words, and the same change can be asked again', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk);
    disk.fail({ call: 'write', code: 'ENOSPC', nth: 1, times: 1 });
    const asked = request(1);
    expect(await refusalOf(journal.append(asked, always))).toEqual({
      code: 'disk',
      message: 'Not saved: the disk is full (ENOSPC)',
    });
    expect((await journal.append(asked, always)).seq).toBe(1);
  });
});

describe('a disk that takes a part of a line', () => {
  it('is offered the rest, and the line is whole', async () => {
    const disk = faultyDisk();
    const plain = disk.open;
    // Seven bytes at a time, without any error.
    disk.open = async (path, flags, mode) => {
      const file = await plain(path, flags, mode);
      return { ...file, write: (bytes) => file.write(bytes.subarray(0, 7)) };
    };
    const journal = await opened(disk);
    const first = await journal.add(1);
    await expectWhole(journal, [first]);
  });

  it('and then nothing at all is a failure, not a wait', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk);
    const plain = disk.open;
    disk.open = async (path, flags, mode) => ({
      ...(await plain(path, flags, mode)),
      write: () => Promise.resolve({ bytesWritten: 0 }),
    });
    expect(await refusalOf(journal.add(1))).toMatchObject({ code: 'disk' });
    disk.open = plain;
    await expectWhole(journal, []);
  });
});

describe('a sync', () => {
  it('comes before every answer, of the file and, for a new file, of its folder', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk, 900);
    for (const seq of [1, 2, 3]) {
      disk.log.length = 0;
      await journal.add(seq);
      const calls = disk.log.filter((call) => /^(?:open|write|sync|datasync) /.test(call));
      const name = segmentPaths(journal.folder).at(-1)?.slice(-18) ?? '';
      const written = [`write ${name}`, `datasync ${name}`];
      const isNew = name.startsWith(String(seq).padStart(12, '0'));
      expect(calls).toEqual(isNew ? [`open ${name}`, 'open entries-1', 'sync entries-1', ...written] : written);
    }
    expect(segmentPaths(journal.folder).length).toBeGreaterThan(1);
  });

  it('of the folder comes after the journal’s own folder and pointer are made', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk);
    expect(disk.log.slice(disk.log.indexOf('mkdir entries-1'))).toEqual(
      expect.arrayContaining(['mkdir entries-1', 'sync journal']),
    );
    disk.log.length = 0;
    await journal.setDatabase({ name: 'b' }, always);
    const shape = disk.log.map((call) => call.replace(/\.[0-9a-f]+\.part/, 'part'));
    expect(shape).toEqual([
      'open part',
      'write part',
      'chmod part',
      'sync part',
      'close part',
      'rename store.json',
      'open journal',
      'sync journal',
      'close journal',
    ]);
  });

  it('that fails once leaves nothing of the line, and the file is opened anew', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk);
    await journal.add(1);
    disk.fail({ call: 'datasync', code: 'EIO', nth: 1, times: 1 });
    disk.log.length = 0;
    expect(await refusalOf(journal.add(2))).toMatchObject({ code: 'disk', message: expect.stringMatching(/EIO/) });
    const name = '000000000001.jsonl';
    expect(disk.log.slice(-4)).toEqual([`datasync ${name}`, `truncate ${name}`, `sync ${name}`, `close ${name}`]);
    expect(linesIn(journal.folder)).toHaveLength(1);
    const again = await journal.add(2);
    expect(disk.log).toContain(`open ${name}`);
    await expectWhole(journal, [again, again]);
  });

  it.each<[string, DiskCall]>([
    ['cannot be cut', 'truncate'],
    ['cannot be synced after the cut', 'sync'],
  ])('that fails where the line %s: nothing more is taken until it is opened again', async (_what, call) => {
    const disk = faultyDisk();
    const journal = await opened(disk);
    await journal.add(1);
    disk.fail({ call: 'datasync', code: 'EIO', nth: 1, times: 1 });
    disk.fail({ call, code: 'EIO', nth: 1, times: 1, named: /jsonl$/ });
    const asked = request(2);
    expect(await refusalOf(journal.append(asked, always))).toMatchObject({ code: 'disk' });
    for (let turn = 0; turn < 3; turn += 1) {
      expect(await refusalOf(journal.append(asked, always))).toMatchObject({
        code: 'disk',
        message: expect.stringMatching(/until this page is loaded again/) as string,
      });
    }
    const { seq, damage } = await journal.open();
    expect(damage).toBeNull();
    // The line may have stayed: then its key is known, and it is not written twice.
    const answer = await journal.append({ ...asked, seq: seq + (seq === 1 ? 1 : 0) }, always);
    expect(answer.seq).toBe(2);
    expect(linesIn(journal.folder)).toHaveLength(2);
  });

  it('of a new file’s folder that fails: nothing was taken, and the next try makes it', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk, 100);
    const first = await journal.add(1);
    disk.fail({ call: 'sync', code: 'EIO', nth: 1, times: 1, named: /^.*entries-1$/ });
    expect(await refusalOf(journal.add(2))).toMatchObject({ code: 'disk' });
    expect(linesIn(journal.folder)).toHaveLength(1);
    const second = await journal.add(2);
    await expectWhole(journal, [first, second]);
  });
});

describe('every call that can fail, once, at every place', () => {
  it('what was acknowledged is there, and it goes on', () => expectSurvived(callFails, 144));

  it('EPERM on the pointer’s rename: the former pointer stays, nothing is left beside it', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk);
    await journal.setDatabase({ name: 'first' }, always);
    disk.fail({ call: 'rename', code: 'EPERM', nth: 1, times: 1 });
    expect(await refusalOf(journal.setDatabase({ name: 'second' }, always))).toMatchObject({ code: 'disk' });
    expect((await journal.open()).database).toBe('first');
    expect(readdirSync(journal.folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('EPERM on the rename of what begins again: the former entries stay in use', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk);
    await journal.add(1);
    disk.fail({ call: 'rename', code: 'EPERM', nth: 2, times: 1 });
    expect(await refusalOf(journal.beginAgain({ keepThrough: 1 }, always))).toMatchObject({ code: 'disk' });
    expect(readdirSync(journal.folder).toSorted()).toEqual(['device', 'entries-1', 'lock']);
    expect((await journal.add(2)).seq).toBe(2);
  });

  it('a fault of the program is not put down to the disk', async () => {
    const journal = journalUnderTest({
      clock: () => {
        throw new TypeError('no clock');
      },
    });
    await journal.open();
    await expect(journal.add(1)).rejects.toThrow(new TypeError('no clock'));
  });
});

describe('another program that writes into the files', () => {
  it('is noticed before anything is added, and nothing of its bytes is cut', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk);
    await journal.add(1);
    const [path = ''] = segmentPaths(journal.folder);
    writeFileSync(path, 'something', { flag: 'a' });
    const size = statSync(path).size;
    expect(await refusalOf(journal.add(2))).toMatchObject({
      code: 'disk',
      message: expect.stringMatching(/changed by another program/) as string,
    });
    expect(statSync(path).size).toBe(size);
  });
});

describe.runIf(process.platform !== 'win32')('another program that deletes the files', () => {
  it('is noticed before anything is called saved', async () => {
    const journal = await opened(faultyDisk());
    await journal.add(1);
    rmSync(journal.folder, { recursive: true });
    expect(await refusalOf(journal.add(2))).toMatchObject({
      code: 'disk',
      message: expect.stringMatching(/deleted by another program/) as string,
    });
    expect(existsSync(journal.folder)).toBe(false);
  });
});

describe('a last line that was never finished', () => {
  it('is moved aside, whole, at every byte it can end at, and the rest is kept', async () => {
    const folder = join(scratchFolder(), 'journal');
    const maker = journalUnderTest({ folder });
    await maker.open();
    for (const seq of [1, 2]) await maker.add(seq);
    const [path = ''] = segmentPaths(folder);
    const kept = readFileSync(path);
    await maker.add(3, { changes: [comes('c', 'Größe ½')] });
    const whole = readFileSync(path);
    maker.close();
    const journal = journalUnderTest({ folder });
    let tried = 0;
    for (let end = kept.length + 1; end < whole.length; end += 1) {
      writeFileSync(path, whole.subarray(0, end));
      const { seq, damage, tail } = await journal.open();
      expect([seq, damage, tail?.bytes]).toEqual([2, null, end - kept.length]);
      const aside = readFileSync(join(folder, 'entries-1', tail?.file ?? ''));
      expect(aside.equals(whole.subarray(kept.length, end))).toBe(true);
      expect(readFileSync(path).equals(kept)).toBe(true);
      tried += 1;
    }
    expect(tried).toBeGreaterThan(400);
    const asides = readdirSync(join(folder, 'entries-1')).filter((name) => /^tail-.*\.bin$/.test(name));
    expect(asides).toHaveLength(tried);
    expect((await journal.open()).tail).toBeNull();
    expect((await journal.add(3)).seq).toBe(3);
  });

  it('of nothing but zeros, as a disk without power leaves it, is moved aside too', async () => {
    const journal = journalUnderTest();
    await journal.open();
    await journal.add(1);
    const [path = ''] = segmentPaths(journal.folder);
    truncateSync(path, statSync(path).size + 4_096);
    expect(await journal.open()).toMatchObject({ seq: 1, damage: null, tail: { bytes: 4_096 } });
  });

  it('is not lost where it cannot be moved aside: it stays where it is, and opening is refused', async () => {
    const disk = faultyDisk();
    const journal = await opened(disk);
    await journal.add(1);
    const [path = ''] = segmentPaths(journal.folder);
    writeFileSync(path, 'torn', { flag: 'a' });
    for (const call of ['write', 'sync'] as const) {
      disk.fail({ call, code: 'ENOSPC', nth: 1, times: 1, named: /tail-|entries-1$/ });
      expect(await refusalOf(journal.open())).toMatchObject({ code: 'disk' });
      expect(readFileSync(path, 'utf8').endsWith('\ntorn')).toBe(true);
    }
    expect(await journal.open()).toMatchObject({ seq: 1, tail: { bytes: 4 } });
  });
});

describe('a folder that cannot be used', () => {
  it('is told as a refusal', async () => {
    const folder = join(scratchFolder(), 'journal');
    writeFileSync(folder, 'a file');
    expect(await refusalOf(journalUnderTest({ folder }).open())).toMatchObject({ code: 'disk' });
    const odd = join(scratchFolder(), 'journal');
    mkdirSync(join(odd, 'entries-1', '000000000001.jsonl'), { recursive: true });
    expect(await refusalOf(journalUnderTest({ folder: odd }).open())).toMatchObject({ code: 'disk' });
  });
});
