import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { emptyHash, entrySchema, type JournalEntry } from '../../../shared-types/journal.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { recordSchemas, recordsVersion, tableNames } from '../../../shared-types/records/index.ts';
import { broughtUp, knewTable } from '../../../shared-types/records/versions.ts';
import { z } from '../../../shared-types/schema.ts';
import { RefusedError } from '../errors.ts';
import { refusalFromZod } from '../json/readJson.ts';
import type { Digest } from '../record/chain.ts';
import type { AllTables } from './readSnapshotText.ts';

/** As a window writes "everything as one text": what cannot be read says why instead. */
const exportSchema = z.strictObject({
  bagwright: z.literal('everything'),
  form: z.literal(1),
  savedAt: z.string(),
  journal: z.strictObject({
    entries: z.array(z.unknown()),
    count: z.int().min(0),
    state: z.unknown(),
    fault: z.string().nullable(),
  }),
  workingCopies: z.array(
    z.strictObject({
      name: z.string(),
      version: z.number(),
      tables: z.record(z.string(), z.union([z.array(z.unknown()), z.strictObject({ fault: z.string() })])),
      fault: z.string().nullable(),
    }),
  ),
});

type Export = z.infer<typeof exportSchema>;

export interface ReadExport {
  tables: AllTables;
  savedAt: string;
  /** Newest version of the records in it. */
  records: number;
  /** Which of its two halves was gone by, and why not by the journal. */
  by: { half: 'journal' } | { half: 'copy'; name: string; because: string };
}

/** Tables of a working copy that hold no records. */
const notRecords = new Set(['meta', 'arrivals']);
/** Dexie counts a version as ten of the browser's. */
const nativePerVersion = 10;

/**
 * What an export holds: its journal, verified entry by entry, and where that is not whole the working copy.
 *
 * @param given - the file's JSON
 * @param digest - SHA-256
 * @param x.text - the file's text, for the row of a fault
 * @returns every record, in this program's shape
 * @throws RefusedError naming row, field and value of what is not as it should be; or that neither half is whole, and why
 */
export async function readExport(given: unknown, digest: Digest, x: { text: string }): Promise<ReadExport> {
  const parsed = exportSchema.safeParse(given);
  if (!parsed.success) throw refusalFromZod(parsed.error, { text: x.text, input: given });
  const { savedAt, journal, workingCopies } = parsed.data;
  const newest = Math.max(0, ...journal.entries.map(schemaOf), ...workingCopies.map(versionOf));
  if (newest > recordsVersion)
    throw new RefusedError({
      code: 'not-available',
      message: `It holds records of version ${newest}; this program knows version ${recordsVersion}`,
      ...{ field: 'journal.entries', value: newest },
    });
  const read = await fromJournal(journal, digest);
  const copy = workingCopies.at(-1);
  if ('tables' in read && (journal.entries.length > 0 || copy === undefined || isEmpty(copy)))
    return { tables: read.tables, savedAt, records: newest, by: { half: 'journal' } };
  const because = 'reason' in read ? read.reason : 'it is empty';
  if (copy === undefined)
    throw new RefusedError({
      code: 'contradiction',
      message: `Its journal cannot be gone by, ${because}; and no working copy is in it`,
      field: 'journal',
    });
  const tables = fromCopy(copy, because);
  return { tables, savedAt, records: newest, by: { half: 'copy', name: copy.name, because } };
}

const schemaOf = (entry: unknown): number => {
  const schema = (entry as { schema?: unknown } | null)?.schema;
  return typeof schema === 'number' ? schema : 0;
};
const versionOf = ({ version }: Export['workingCopies'][number]): number => version / nativePerVersion;

function isEmpty({ tables }: Export['workingCopies'][number]): boolean {
  return Object.entries(tables).every(
    ([name, rows]) => notRecords.has(name) || (Array.isArray(rows) && rows.length === 0),
  );
}

async function fromJournal(
  { entries, count, fault }: Export['journal'],
  digest: Digest,
): Promise<{ tables: AllTables } | { reason: string }> {
  if (fault !== null) return { reason: `it could not be read to its end when it was saved (${fault})` };
  if (count !== entries.length) return { reason: `it holds ${entries.length} entries where it says ${count}` };
  const tables = emptyTables();
  let [seq, hash] = [0, emptyHash];
  for (const given of entries) {
    const checked = entrySchema.safeParse(given);
    const at = `entry ${seq + 1}`;
    if (!checked.success)
      return { reason: `${at} is not one: ${checked.error.issues[0]?.message ?? 'of another shape'}` };
    const entry: JournalEntry = checked.data;
    if (entry.seq !== seq + 1 || entry.prevHash !== hash)
      return { reason: `${at} does not follow the entry before it` };
    const { hash: own, ...body } = given as JournalEntry;
    if ((await digest(canonicalJson(body))) !== own) return { reason: `${at}: its content is not what its hash says` };
    for (const { table, id, after } of entry.payload.changes) {
      if (!knewTable(entry.schema, table))
        return { reason: `${at}: records of version ${entry.schema} have no ${table}` };
      if (after === null) tables.get(table)?.delete(id);
      else tables.get(table)?.set(id, broughtUp(table, after, entry.schema) as AnyRecord);
    }
    [seq, hash] = [entry.seq, own];
  }
  for (const [name, rows] of tables) {
    for (const [id, row] of rows) {
      const checked = recordSchemas[name].safeParse(row);
      if (!checked.success)
        return { reason: `${name} ${id}: ${checked.error.issues[0]?.message ?? 'of another shape'}` };
    }
  }
  return { tables };
}

function fromCopy(copy: Export['workingCopies'][number], because: string): AllTables {
  const version = versionOf(copy);
  const refuse = (message: string, field: string, value?: unknown): never => {
    throw new RefusedError({
      code: 'contradiction',
      message: `Its journal cannot be gone by, ${because}; and in its working copy ${message}`,
      ...{ field: `workingCopies.tables.${field}`, ...(value === undefined ? {} : { value }) },
    });
  };
  if (copy.fault !== null) refuse(`not all could be read when it was saved: ${copy.fault}`, '');
  const tables = emptyTables();
  for (const [name, rows] of Object.entries(copy.tables)) {
    if (notRecords.has(name)) continue;
    const table = tableNames.find((known) => known === name);
    if (table === undefined || !knewTable(version, table))
      return refuse(`is a table that version ${version} does not have`, name);
    if (!Array.isArray(rows)) return refuse(`${name} could not be read when it was saved: ${rows.fault}`, name);
    for (const [at, row] of rows.entries()) {
      const isRow = typeof row === 'object' && row !== null && !Array.isArray(row);
      const checked = recordSchemas[table].safeParse(
        isRow ? broughtUp(table, row as Record<string, unknown>, version) : row,
      );
      if (!checked.success) {
        const [issue] = checked.error.issues;
        const path = [name, at, ...(issue?.path ?? [])].map(String).join('.');
        return refuse(issue?.message ?? 'a record has another shape', path, isRow ? (row as { id?: unknown }).id : row);
      }
      const { id } = checked.data;
      if (tables.get(table)?.has(id) === true) return refuse(`${id} is there twice`, `${name}.${at}`, id);
      tables.get(table)?.set(id, checked.data);
    }
  }
  return tables;
}

const emptyTables = (): Map<TableName, Map<string, AnyRecord>> => new Map(tableNames.map((name) => [name, new Map()]));
