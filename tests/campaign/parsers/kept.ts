/** Readers of what the program itself has written: journal lines, snapshots, manifests with their record, batch lines. */
import { seal, readLine } from '../../../electron/journal/entry.ts';
import { bytesOf, linesOf, readSnapshot } from '../../../electron/journal/snapshots/format.ts';
import { runCommand } from '../../../electron/headless/run.ts';
import { chained } from '../../../renderer/engine/record/chain.ts';
import { readRecordFile, recordFileFault, recordFileText } from '../../../renderer/engine/record/recordFile.ts';
import { recordsVersion } from '../../../shared-types/records/index.ts';
import { comes, request } from '../../electron/support/journalParts.ts';
import { damagedText } from '../../engine/damagedInputs.ts';
import { digest } from '../../support/frozenTask.ts';
import { discrepancy, eventsOf, twoRevision, wentOut } from '../../support/outAndBack.ts';
import { must } from '../part.ts';
import { damagedBytes, refused, type FuzzReader } from './reader.ts';

const { payload, user, action } = request(7, { changes: [comes('s7', 'Größe ½')] });
const line = seal({
  ...{ seq: 7, deviceId: 'a'.repeat(32), utc: '2031-03-05T10:20:30.000Z', tzOffset: 60, user, action, payload },
  ...{ schema: recordsVersion, prevHash: 'b'.repeat(64) },
}).line.subarray(0, -1);

const snapshot = Buffer.concat(
  bytesOf(
    { seq: 9, hash: 'a'.repeat(64), deviceId: 'b'.repeat(32), utc: '2031-04-05T10:20:30.000Z', why: 'asked' },
    linesOf(new Map([['shelves', new Map([['s', { id: 's', rev: 1, name: 'Ständer ½' }]])]])),
  ).pieces,
);

const recordText = await recordFileText(
  {
    revision: twoRevision,
    events: await chained(twoRevision, null, eventsOf(wentOut), digest),
    discrepancies: [discrepancy()],
  },
  digest,
);

/** Damage that says the same by its very bytes is none. */
const isSame = (one: Uint8Array, other: Uint8Array): boolean => Buffer.compare(one, other) === 0;

const batchLines = [
  '["convert","45 lbf·ft","N·m"]\n["thread","M10x1.25-6g"]\n["limits","1/4-28"]\n',
  '["socket","M10","--head","hex"]\n["torquetable","5/16-24"]\n["callouts",{"csv":"id,thread,torqueMin,torqueMax\\nA,M10,45 N·m,50 N·m\\n"}]\n',
];

async function batchAnswers(bytes: Uint8Array): Promise<unknown> {
  const { readLines: _none, ...io } = {
    readText: () => Promise.reject(new Error('no file')),
    readBytes: () => Promise.reject(new Error('no file')),
    readLines: null,
    inBatch: false,
    run: runCommand,
  };
  const lines = Buffer.from(bytes).toString('latin1').split('\n').slice(0, -1);
  const answers = await runCommand('batch', ['-'], {
    ...io,
    async *readLines() {
      for (const one of lines) yield Buffer.from(one, 'latin1');
    },
  });
  if (!('lines' in answers)) throw new Error('a batch that does not answer in lines');
  let refusals = 0;
  for await (const { exit, line: answer } of answers.lines) {
    const read = JSON.parse(answer) as { error?: { code: string; message: string } };
    // A damaged line may name a file, and this batch was given none.
    const isFile = read.error?.message.includes('no file') === true;
    must(isFile || read.error?.code !== 'internal', 'broken', `a batch line: ${answer.slice(0, 300)}`);
    if (exit === 2) refusals += 1;
  }
  return refusals > 0 ? refused : lines.length;
}

export const keptReaders: readonly FuzzReader[] = [
  {
    ...{ name: 'a line of the journal', weight: 4 },
    read(chance) {
      const damaged = damagedBytes(line, chance);
      const read = readLine(Buffer.from(damaged), { seq: 7, prevHash: 'b'.repeat(64) });
      if ('reason' in read) return read.reason === '' ? read : refused;
      must(isSame(damaged, line), 'undetected', 'a damaged line was taken for the one that was written');
      return read.entry;
    },
  },
  {
    ...{ name: 'a snapshot', weight: 4 },
    read(chance) {
      const damaged = damagedBytes(snapshot, chance);
      const read = readSnapshot(Buffer.from(damaged));
      if ('reason' in read) return read.reason === '' ? read : refused;
      must(isSame(damaged, snapshot), 'undetected', 'a damaged snapshot was taken for whole');
      return read.head;
    },
  },
  {
    ...{ name: 'a manifest with its record', weight: 2 },
    async read(chance) {
      const text = damagedText(recordText, chance);
      const file = readRecordFile(text, 'record.json');
      const fault = await recordFileFault(file, digest, { text });
      if (fault !== null) return refused;
      // JSON has more than one text for the same content; what differs in content must be found.
      const same = JSON.stringify(file) === JSON.stringify(readRecordFile(recordText));
      must(same, 'undetected', 'a changed manifest with its record was taken for whole');
      return file.head;
    },
  },
  {
    ...{ name: 'lines of a batch', weight: 2 },
    read: (chance) => batchAnswers(damagedBytes(Buffer.from(chance.pick(batchLines)), chance)),
  },
];
