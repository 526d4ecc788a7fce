import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { journalIn } from '../../electron/journal/journal.ts';
import { snapshotKeeper } from '../../electron/journal/snapshots/keeper.ts';
import { chained } from '../../renderer/engine/record/chain.ts';
import { recordFileText } from '../../renderer/engine/record/recordFile.ts';
import type { Appended } from '../../shared-types/journal.ts';
import { digest } from '../support/frozenTask.ts';
import { discrepancy, eventsOf, twoRevision, wentOut } from '../support/outAndBack.ts';
import { printed } from './headless/inProcess.ts';
import { comes, request, steadyClock } from './support/journalUnderTest.ts';
import { scratchFolder } from './support/site.ts';

interface Said {
  exit: number;
  result: Record<string, unknown>;
}

async function told(...args: string[]): Promise<Said> {
  const { exit, out, err } = await printed('verify', ...args);
  return { exit, result: JSON.parse(out === '' ? err : out) as Record<string, unknown> };
}

const kept = (text: string): string => {
  const path = join(scratchFolder(), 'record.json');
  writeFileSync(path, text);
  return path;
};

describe('verify of a manifest with its record', () => {
  let text = '';
  let hashes: string[] = [];
  beforeAll(async () => {
    const events = await chained(twoRevision, null, eventsOf(wentOut), digest);
    hashes = events.map(({ hash }) => hash);
    text = await recordFileText({ revision: twoRevision, events, discrepancies: [discrepancy()] }, digest);
  });

  it('is 0 where all of it holds, with its head', async () => {
    expect(await told(kept(text))).toMatchObject({
      exit: 0,
      result: { whole: true, revision: 2, events: 6, discrepancies: 1, head: { number: 6 }, fault: null },
    });
  });

  it('is 1 with number, line and reason where something was changed', async () => {
    const broken = text.replace('"item":"S-13","pieces":1', '"item":"S-13","pieces":2');
    expect(await told(kept(broken))).toMatchObject({
      exit: 1,
      result: { whole: false, fault: { number: 2, line: 5, reason: 'its content is not what its hash says' } },
    });
  });

  it('holds it against a head that was printed, with its number or without', async () => {
    const path = kept(text);
    const short = (at: number): string => `${hashes[at]?.slice(0, 4) ?? ''} ${hashes[at]?.slice(4, 8) ?? ''}`;
    expect((await told(path, '--head', short(5))).exit).toBe(0);
    expect((await told(path, '--head', `4, ${short(3).toUpperCase()}`)).exit).toBe(0);
    expect(await told(path, '--head', `9, ${short(5)}`)).toMatchObject({
      exit: 1,
      result: { fault: { reason: 'it ends with event 6; event 9 was printed' } },
    });
    expect((await told(path, '--head', '0123 4567')).exit).toBe(1);
  });

  it('is 2 where it is no such file, or the head no hash', async () => {
    expect(await told(kept('{}'))).toMatchObject({ exit: 2, result: { error: { code: 'wrong-shape' } } });
    expect(await told(kept(text.slice(0, -40)))).toMatchObject({ exit: 2, result: { error: { code: 'not-json' } } });
    expect(await told(join(scratchFolder(), 'nothing'))).toMatchObject({
      exit: 2,
      result: { error: { code: 'unreadable-file' } },
    });
    for (const head of ['7f3a', '7f3a 91cg', 'x', ''])
      expect(await told(kept(text), '--head', head)).toMatchObject({ exit: 2, result: { error: { code: 'usage' } } });
    expect(await told(scratchFolder())).toMatchObject({ exit: 2, result: { error: { code: 'unreadable-file' } } });
  });

  it('takes its object as a line of a batch', async () => {
    const { runCommand } = await import('../../electron/headless/run.ts');
    const { batch } = await import('../../electron/headless/commands/batch.ts');
    const lines = [JSON.stringify(['verify', JSON.parse(text)])];
    const io = {
      readText: () => Promise.reject(new Error('no file')),
      readBytes: () => Promise.reject(new Error('no file')),
      async *readLines() {
        for (const line of lines) yield new TextEncoder().encode(line);
      },
      inBatch: false,
      run: runCommand,
    };
    const answers: string[] = [];
    for await (const { line } of batch(['-'], io).lines) answers.push(line);
    expect(answers.map((line) => JSON.parse(line) as Said)).toMatchObject([{ exit: 0, result: { whole: true } }]);
  });
});

describe('verify of a journal', () => {
  let folder = '';
  const heads: Appended[] = [];
  beforeAll(async () => {
    folder = scratchFolder();
    const journal = journalIn({ folder: join(folder, 'journal'), clock: steadyClock(), segmentBytes: 4000 });
    await journal.open();
    for (let seq = 1; seq <= 12; seq += 1)
      heads.push(await journal.append(request(seq, { changes: [comes(`s${seq}`)] }), () => true));
    journal.close();
  });
  const entries = (): string => join(folder, 'journal', 'entries-1');

  it('is 0 for the data folder, the journal’s, and that of its entries alike', async () => {
    for (const path of [folder, join(folder, 'journal'), entries()])
      expect(await told(path)).toMatchObject({
        exit: 0,
        result: { kind: 'journal', whole: true, entries: 12, head: { number: 12, hash: heads[11]?.hash } },
      });
  });

  it('looks the records through that the entries come to, and names each fault', async () => {
    expect(await told(folder)).toMatchObject({ result: { records: { count: 12, faults: [] } } });
    const other = scratchFolder();
    const journal = journalIn({ folder: join(other, 'journal'), clock: steadyClock() });
    await journal.open();
    const lost = { id: 'i', rev: 1, shelf: 'nowhere', code: 'F-1', retired: false, parts: 1, kit: 'both' } as const;
    const after = { ...lost, kind: 'fastener', thread: 'M6', head: { form: 'hex', acrossFlats: '10 mm' } };
    const changes = [comes('s'), { table: 'items' as const, id: 'i', before: null, after }];
    await journal.append(request(1, { changes }), () => true);
    journal.close();
    expect(await told(other)).toMatchObject({
      exit: 1,
      result: {
        whole: false,
        fault: null,
        records: {
          count: 2,
          faults: [
            { table: 'items', id: 'i', rule: 'lost', message: expect.stringMatching(/shelf names nowhere/) as string },
          ],
        },
      },
    });
  });

  it('is 0 for a snapshot of it, and 1 with the reason where one byte of that was changed', async () => {
    const journal = journalIn({ folder: join(folder, 'journal'), clock: steadyClock() });
    await journal.open();
    const snapshots = join(folder, 'snapshots');
    const made = await snapshotKeeper({ folder: snapshots, journal: () => journal.standing() }).make('asked');
    journal.close();
    const path = join(snapshots, made?.name ?? '');
    expect(await told(path)).toMatchObject({
      exit: 0,
      result: { kind: 'snapshot', whole: true, head: { number: 12, hash: heads[11]?.hash }, records: { count: 12 } },
    });
    writeFileSync(path, readFileSync(path, 'utf8').replace('"s2"', '"s9"'));
    expect(await told(path)).toMatchObject({
      exit: 1,
      result: { whole: false, fault: { reason: 'its content is not what its sum says' } },
    });
    expect((await told(join(snapshots, 'none.snapshot'))).exit).toBe(2);
  });

  it('is 1 where a snapshot beside it goes further: its end was cut off; and 0 once that is said to be meant', async () => {
    const data = scratchFolder();
    const journal = journalIn({ folder: join(data, 'journal'), clock: steadyClock() });
    await journal.open();
    for (let seq = 1; seq <= 3; seq += 1) await journal.append(request(seq), () => true);
    const folderOf = join(data, 'snapshots');
    const made = await snapshotKeeper({ folder: folderOf, journal: () => journal.standing() }).make('asked');
    journal.close();
    expect(await told(data)).toMatchObject({ exit: 0, result: { whole: true, entries: 3, further: null } });
    const place = join(data, 'journal', 'entries-1');
    const [segment = ''] = readdirSync(place);
    const lines = readFileSync(join(place, segment), 'utf8').split('\n');
    writeFileSync(join(place, segment), `${lines.slice(0, 2).join('\n')}\n`);
    expect(await told(data)).toMatchObject({
      exit: 1,
      result: {
        whole: false,
        entries: 2,
        fault: null,
        further: { file: made?.name, number: 3, records: 3, damaged: 0 },
      },
    });
    const deviceId = readFileSync(join(data, 'journal', 'device'), 'utf8').trim();
    const standing = async () => ({ seq: 2, hash: '', deviceId, place: '' });
    await snapshotKeeper({ folder: folderOf, journal: standing }).meant({ what: 'snapshots-go-further' });
    expect(await told(data)).toMatchObject({ exit: 0, result: { whole: true, further: null } });
  });

  it('finds a printed head by number and hash, or by its hash alone', async () => {
    const short = heads[6]?.hash.slice(0, 8) ?? '';
    expect((await told(folder, '--head', `7, ${short}`)).exit).toBe(0);
    expect((await told(folder, '--head', short)).exit).toBe(0);
    expect(await told(folder, '--head', `8, ${short}`)).toMatchObject({
      exit: 1,
      result: { fault: { intactThrough: 8, reason: 'its hash is not the one printed' } },
    });
    expect(await told(folder, '--head', '00000000')).toMatchObject({
      exit: 1,
      result: { fault: { reason: 'it ends with entry 12; no entry has the hash that was printed' } },
    });
    expect(await told(folder, '--head', '13, 00000000')).toMatchObject({
      exit: 1,
      result: { fault: { reason: 'it ends with entry 12; entry 13 was printed' } },
    });
  });

  it('is 1 with number, file, line and reason where one byte was changed', async () => {
    const [name = ''] = readdirSync(entries()).toSorted();
    const path = join(entries(), name);
    const was = readFileSync(path, 'utf8');
    writeFileSync(path, was.replace('"s2"', '"s9"'));
    const said = await told(folder);
    writeFileSync(path, was);
    expect(said).toMatchObject({ exit: 1, result: { whole: false, fault: { intactThrough: 1, file: name, line: 2 } } });
  });
});
