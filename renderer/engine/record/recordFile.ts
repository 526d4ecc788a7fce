/** One file for a frozen manifest and its record: written, read strictly, verified from its first byte. */
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { recordFileMark, recordFileSchema, recordFileVersion } from '../../../shared-types/recordFile.ts';
import type { RecordFile } from '../../../shared-types/recordFile.ts';
import type { Discrepancy, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { RefusedError } from '../errors.ts';
import { readJson, refusalFromZod, rowFinder } from '../json/readJson.ts';
import { chainFault } from './chain.ts';
import type { ChainFault, Digest } from './chain.ts';

/** The largest file read, and the largest that is written. */
export const recordBytesMax = 32 * 1024 * 1024;

/** A fault of a file, with the line on which what is wrong begins. */
export interface RecordFileFault extends ChainFault {
  row?: number;
}

/**
 * A frozen manifest with its record as the text of one file: each event and each discrepancy on a line of its own.
 *
 * @param x - as they are kept; events and discrepancies of other revisions are left out
 * @param digest - SHA-256
 * @returns JSON
 */
export async function recordFileText(
  x: { revision: Revision; events: readonly OutingEvent[]; discrepancies: readonly Discrepancy[] },
  digest: Digest,
): Promise<string> {
  const { rev: _revisionRev, broughtIn: _broughtIn, ...revision } = x.revision;
  const own = <R extends { revision: string; rev: number }>(rows: readonly R[]): Omit<R, 'rev'>[] =>
    rows.filter((row) => row.revision === revision.id).map(({ rev: _rev, ...row }) => row);
  const events = own(x.events).toSorted((one, other) => one.no - other.no);
  const body = {
    ...{ bagwright: recordFileMark, version: recordFileVersion, revision, events },
    discrepancies: own(x.discrepancies).toSorted((one, other) => one.number - other.number),
    head: events.at(-1)?.hash ?? revision.hash,
  } as const;
  const hash = await digest(canonicalJson(body));
  const list = (rows: readonly object[]): string => `[${rows.map((row) => `\n${JSON.stringify(row)}`).join(',')}\n]`;
  return [
    `{"bagwright":${JSON.stringify(body.bagwright)},"version":${body.version},`,
    `"revision":${JSON.stringify(revision)},`,
    `"events":${list(events)},`,
    `"discrepancies":${list(body.discrepancies)},`,
    `"head":${JSON.stringify(body.head)},`,
    `"hash":${JSON.stringify(hash)}}`,
    '',
  ].join('\n');
}

/**
 * Reads such a file strictly: its shape, and nothing of whether it holds.
 *
 * @param text - the whole file
 * @param file - its name, for refusals
 * @returns what it says
 * @throws RefusedError naming file, row, field and value of everything that has another shape
 */
export function readRecordFile(text: string, file?: string): RecordFile {
  const origin = file === undefined ? {} : { file };
  const given = readJson(text, { ...origin, maxBytes: recordBytesMax });
  if (typeof given !== 'object' || given === null || !('bagwright' in given) || given.bagwright !== recordFileMark)
    throw new RefusedError({
      code: 'wrong-shape',
      message: `This is no manifest with its record: such a file begins with "bagwright": "${recordFileMark}"`,
      ...origin,
      field: 'bagwright',
    });
  if ('version' in given && typeof given.version === 'number' && given.version > recordFileVersion)
    throw new RefusedError({
      code: 'not-available',
      message: `The file has version ${given.version}; this program knows version ${recordFileVersion}`,
      ...{ ...origin, field: 'version', value: given.version },
    });
  const parsed = recordFileSchema.safeParse(given);
  if (!parsed.success) throw refusalFromZod(parsed.error, { ...origin, text, input: given });
  return parsed.data;
}

/**
 * Looks a file through: the frozen content, the chain of events, its head, then everything else by the file's own hash.
 *
 * @param file - as it was read
 * @param digest - SHA-256
 * @param x.text - the file's text, for the line of the fault
 * @param x.head - hash of one of its events, or its beginning, as it was printed or told elsewhere, with its number where that is
 *   known: only by it is a cut end found
 * @returns the first fault, 0 being the revision itself; null where all of it holds
 */
export async function recordFileFault(
  file: RecordFile,
  digest: Digest,
  x: { text?: string; head?: { no: number | null; hash: string } } = {},
): Promise<RecordFileFault | null> {
  const { hash, ...body } = file;
  const { revision, events, discrepancies, head } = file;
  const chain = await chainFault(
    revision,
    events.map((event) => ({ ...event, rev: 0 })),
    digest,
  );
  const at = (no: number, field: string, reason: string): RecordFileFault => {
    const row = x.text === undefined ? undefined : rowFinder(x.text)(field);
    return { no, reason, ...(row === undefined ? {} : { row }) };
  };
  if (chain !== null) return at(chain.no, chain.no === 0 ? 'revision' : `events[${chain.no - 1}]`, chain.reason);
  const last = events.at(-1)?.hash ?? revision.hash;
  if (head !== last) return at(events.length, 'head', 'the head is not the hash of the last event');
  const strange = discrepancies.findIndex((one) => one.revision !== revision.id);
  if (strange !== -1)
    return at(0, `discrepancies[${strange}]`, `discrepancy ${strange + 1} belongs to another revision`);
  if ((await digest(canonicalJson(body))) !== hash)
    return at(0, 'hash', 'it is not what its hash says: its heading or a discrepancy was changed');
  const cut = x.head === undefined ? null : headFault(file, x.head);
  return cut === null ? null : at(events.length, 'head', cut);
}

function headFault({ revision, events }: RecordFile, { no, hash }: { no: number | null; hash: string }): string | null {
  const told = (held: string | undefined): boolean => held?.startsWith(hash) === true;
  if (no === null)
    return told(revision.hash) || events.some((event) => told(event.hash))
      ? null
      : `it ends with event ${events.length}; none has the hash that was printed`;
  if (no > events.length) return `it ends with event ${events.length}; event ${no} was printed`;
  return told(no === 0 ? revision.hash : events[no - 1]?.hash) ? null : `event ${no} is not the one that was printed`;
}
