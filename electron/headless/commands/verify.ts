import { createHash } from 'node:crypto';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readRecordFile, recordFileFault } from '../../../renderer/engine/record/recordFile.ts';
import { shortHash } from '../../../renderer/engine/record/shortHash.ts';
import { realDisk } from '../../files/disk.ts';
import { verify as verifyJournal } from '../../journal/verify.ts';
import { parseArguments, usage } from '../arguments.ts';
import type { Answer, CommandArgument, CommandIo } from '../command.ts';
import { journalFolder } from '../journalFolder.ts';
import { furtherThan, recordsOfJournal, snapshotAnswer } from '../keptCheck.ts';

interface Head {
  no: number | null;
  hash: string;
}

/** verify FILE.json|FOLDER [--head "[NUMBER] HASH"]; in a batch the file's own object in place of the file. */
export async function verify(args: readonly CommandArgument[], io: CommandIo): Promise<Answer> {
  const { positional, options } = parseArguments(args, { positional: ['file'], options: ['--head'] });
  const [given] = positional;
  const head = headOf(options.get('--head'));
  if (typeof given === 'string' && given.endsWith('.snapshot')) return await snapshotAnswer(given);
  const folder = typeof given === 'string' && given !== '-' ? await journalFolder(given) : null;
  if (folder === '')
    throw new RefusedError({
      code: 'unreadable-file',
      message: `Folder "${String(given)}" holds no journal`,
      file: String(given),
    });
  return folder === null ? recordAnswer(given, head, io) : journalAnswer(folder, head);
}

/** As it is printed: "412, 7f3a 91c2", or the hash alone. */
function headOf(given: CommandArgument | undefined): Head | null {
  if (given === undefined) return null;
  const text = typeof given === 'string' ? given.trim().toLowerCase() : '';
  const [, number, digits = ''] = /^(?:(\d+)[\s,:]+(?=(?:[0-9a-f]\s*){8}))?([0-9a-f][0-9a-f\s]*)$/.exec(text) ?? [];
  const hash = digits.replaceAll(/\s/g, '');
  if (hash.length < 8 || hash.length > 64)
    throw usage(
      'Option --head is a hash of at least eight digits, with its number before it: "412, 7f3a 91c2".',
      given,
    );
  return { no: number === undefined ? null : Number(number), hash };
}

async function recordAnswer(given: CommandArgument | undefined, head: Head | null, io: CommandIo): Promise<Answer> {
  if (given === '-' && io.inBatch)
    throw usage('Standard input cannot be read by a line of a batch: give the content as an object.', given);
  const text = typeof given === 'string' ? await io.readText(given) : JSON.stringify(given);
  const file = readRecordFile(text, typeof given === 'string' ? given : undefined);
  const fault = await recordFileFault(file, digest, { text, ...(head === null ? {} : { head }) });
  const { revision, events, discrepancies } = file;
  const result = {
    ...{ kind: 'manifest record', whole: fault === null, called: revision.called, revision: revision.number },
    ...{ contentHash: revision.hash, events: events.length, discrepancies: discrepancies.length },
    head: { number: events.length, hash: file.head, short: shortHash(file.head) },
    fault: fault === null ? null : { number: fault.no, line: fault.row ?? null, reason: fault.reason },
  };
  return { exit: fault === null ? 0 : 1, result };
}

async function journalAnswer(folder: string, head: Head | null): Promise<Answer> {
  const printed = head === null ? null : { seq: head.no, hash: head.hash };
  const { tally, damage, torn, segments } = await verifyJournal(folder, realDisk, printed);
  const records = damage === null ? await recordsOfJournal(folder, tally) : null;
  const further = await furtherThan(folder, tally.seq);
  const isWhole = damage === null && records?.faults.length === 0 && further === null;
  const result = {
    ...{ kind: 'journal', whole: isWhole, folder, files: segments.length, entries: tally.seq },
    head: { number: tally.seq, hash: tally.hash, short: shortHash(tally.hash) },
    // A line that was never finished was never called saved: it is set aside at the next start.
    unfinishedBytes: torn?.bytes.length ?? 0,
    fault:
      damage === null
        ? null
        : { intactThrough: damage.intactSeq, file: damage.file, line: damage.line, reason: damage.reason },
    records,
    further,
  };
  return { exit: isWhole ? 0 : 1, result };
}

function digest(text: string): Promise<string> {
  return Promise.resolve(createHash('sha256').update(text).digest('hex'));
}
