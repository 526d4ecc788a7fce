/** What a checkpoint spares the next opening, and that it hides nothing from it. */
import { appendFileSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readCheckpoint } from '../../electron/journal/checkpoint.ts';
import { realDisk } from '../../electron/files/disk.ts';
import { verify } from '../../electron/journal/verify.ts';
import { goes, journalUnderTest, request, segmentPaths } from './support/journalUnderTest.ts';

const entryCount = 30;
const options = { segmentBytes: 4_000, checkpointBytes: 6_000 };

/** Thirty entries in several files, the last checkpoint a few entries behind their end. */
async function checkpointed() {
  const journal = journalUnderTest(options);
  await journal.open();
  for (let seq = 1; seq <= entryCount; seq += 1)
    await journal.add(seq, seq % 7 === 0 ? { changes: [goes(`s${seq - 1}`)] } : {});
  // Whatever was due is written before this is answered.
  await journal.read({ from: entryCount });
  journal.close();
  const { folder } = journal;
  const known = await readCheckpoint(folder, 'entries-1', realDisk);
  if (known === null) throw new Error('no checkpoint');
  return { folder, place: join(folder, 'entries-1'), known };
}

describe('a checkpoint', () => {
  it('has the next opening read only what follows, and come to the same', async () => {
    const { folder, place, known } = await checkpointed();
    expect(known.tally.seq).toBeGreaterThan(entryCount / 2);
    const whole = await verify(place, realDisk);
    const fromIt = await verify(place, realDisk, null, known);
    expect(fromIt.readBytes).toBeLessThan(whole.readBytes / 3);
    expect(fromIt.tally.state()).toEqual(whole.tally.state());
    expect(fromIt).toMatchObject({ damage: null, lastBytes: whole.lastBytes, torn: null });
    const again = journalUnderTest({ ...options, folder });
    const state = await again.open();
    expect(state).toMatchObject({
      seq: entryCount,
      hash: whole.tally.hash,
      counts: whole.tally.counts(),
      damage: null,
    });
    expect(state.recent).toEqual(whole.tally.recent());
    await again.add(entryCount + 1);
    again.close();
    expect((await verify(place, realDisk)).damage).toBeNull();
  });

  it('hides no changed byte: what a reading of every line finds is found with it too', async () => {
    const { place, known } = await checkpointed();
    for (const path of segmentPaths(join(place, '..'))) {
      const sound = readFileSync(path);
      for (let at = 3; at < sound.length; at += 97) {
        const damaged = Buffer.from(sound);
        damaged[at] = (damaged[at] ?? 0) ^ 1;
        writeFileSync(path, damaged);
        const whole = await verify(place, realDisk);
        const fromIt = await verify(place, realDisk, null, known);
        expect(whole.damage).not.toBeNull();
        expect(fromIt.damage).toEqual(whole.damage);
      }
      writeFileSync(path, sound);
    }
  });

  it('hides no file that is gone, cut, longer or in another’s place', async () => {
    const { folder, place, known } = await checkpointed();
    const paths = segmentPaths(folder);
    const sound = paths.map((path) => readFileSync(path));
    const restore = (): void => paths.forEach((path, at) => writeFileSync(path, sound[at] ?? ''));
    for (const spoil of [
      () => rmSync(paths[1] ?? ''),
      () => rmSync(paths.at(-1) ?? ''),
      () => writeFileSync(paths[0] ?? '', sound[0]?.subarray(0, -40) ?? ''),
      () => appendFileSync(paths[1] ?? '', '{}\n'),
      () => writeFileSync(paths[0] ?? '', sound[1] ?? ''),
    ]) {
      spoil();
      const [whole, fromIt] = [await verify(place, realDisk), await verify(place, realDisk, null, known)];
      expect(fromIt).toMatchObject({ damage: whole.damage, lastBytes: whole.lastBytes });
      expect(fromIt.tally.state()).toEqual(whole.tally.state());
      restore();
    }
  });

  it('sets a torn last line aside as without it', async () => {
    const { folder } = await checkpointed();
    appendFileSync(segmentPaths(folder).at(-1) ?? '', '{"seq":31,"dev');
    const again = journalUnderTest({ ...options, folder });
    expect(await again.open()).toMatchObject({ seq: entryCount, damage: null, tail: { bytes: 14 } });
  });

  it('is passed over where it is damaged, of other records, or of other entries', async () => {
    const { folder } = await checkpointed();
    const path = join(folder, 'checkpoint');
    const sound = readFileSync(path, 'utf8');
    for (const damaged of ['', sound.slice(0, -2), sound.replace('"seq":', '"Seq":'), `${'0'.repeat(64)}\n{}`]) {
      writeFileSync(path, damaged);
      expect(await readCheckpoint(folder, 'entries-1', realDisk)).toBeNull();
    }
    writeFileSync(path, sound);
    expect(await readCheckpoint(folder, 'entries-2', realDisk)).toBeNull();
    expect(await readCheckpoint(folder, 'entries-1', realDisk)).not.toBeNull();
    rmSync(path);
    const again = journalUnderTest({ ...options, folder });
    expect(await again.open()).toMatchObject({ seq: entryCount, damage: null });
    // An opening that had much to read leaves one for the next.
    expect(existsSync(path)).toBe(true);
  });

  it('is not gone by where a head from paper is looked for', async () => {
    const { place, known } = await checkpointed();
    const printed = { seq: 3, hash: 'f'.repeat(8) };
    expect((await verify(place, realDisk, printed, known)).damage?.reason).toMatch(/printed/);
  });

  it('keeps nothing from being saved where it cannot be written', async () => {
    const disk = {
      ...realDisk,
      rename: (from: string, to: string) =>
        to.endsWith('checkpoint') ? Promise.reject(new Error('no')) : realDisk.rename(from, to),
    };
    const journal = journalUnderTest({ ...options, disk });
    await journal.open();
    for (let seq = 1; seq <= entryCount; seq += 1) expect((await journal.add(seq)).seq).toBe(seq);
    await expect(journal.read({ from: 1 })).resolves.toMatchObject({ next: null });
    expect(existsSync(join(journal.folder, 'checkpoint'))).toBe(false);
  });

  it('knows an act again that was asked twice, from before it', async () => {
    const { folder, known } = await checkpointed();
    const [key = '', answer] = known.tally.answers[0] ?? [];
    const again = journalUnderTest({ ...options, folder });
    await again.open();
    expect(await again.append(request(entryCount + 1, { key }), () => true)).toEqual(answer);
  });
});
