import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import { breathe } from '../breathe.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { inPieces } from '../inPieces.ts';
import { sha256 } from '../sha256.ts';
import { tableSource } from './tableSource.ts';
import type { WorkingCopy } from './workingCopy.ts';

export interface Digest {
  count: number;
  /** SHA-256 of the records' canonical JSON, in order of their keys. */
  whole: string;
  /** The same with every `rev` left out: equal for equal work, however often it was changed and changed back. */
  withoutRev: string;
}

const pieceSize = 500;

async function digestOf(pieces: AsyncIterable<readonly AnyRecord[]>): Promise<Digest> {
  const whole: string[] = [];
  const withoutRev: string[] = [];
  for await (const piece of pieces) {
    for (const record of piece) {
      const { rev, ...rest } = record;
      withoutRev.push(canonicalJson(rest));
      whole.push(canonicalJson({ ...rest, rev }));
    }
    await breathe();
  }
  return {
    count: whole.length,
    whole: await sha256(`[${whole.join(',')}]`),
    withoutRev: await sha256(`[${withoutRev.join(',')}]`),
  };
}

/** Of records at hand, sorted as the database sorts its keys. */
export function digestOfRecords(records: Iterable<AnyRecord>): Promise<Digest> {
  const sorted = [...records].toSorted((a, b) => (a.id < b.id ? -1 : 1));
  return digestOf(piecesOf(sorted));
}

async function* piecesOf(records: readonly AnyRecord[]): AsyncGenerator<readonly AnyRecord[]> {
  yield* inPieces(records, pieceSize);
}

/** Of each table as the working copy gives it back. */
export async function digestsOf(copy: WorkingCopy): Promise<Record<TableName, Digest>> {
  const digests: [TableName, Digest][] = [];
  for (const name of tableNames) digests.push([name, await digestOf(pages(copy, name))]);
  return Object.fromEntries(digests) as Record<TableName, Digest>;
}

async function* pages(copy: WorkingCopy, name: TableName): AsyncGenerator<readonly AnyRecord[]> {
  const source = tableSource(copy, name);
  let after: string | null = null;
  for (;;) {
    const page: AnyRecord[] = await source.page(after, pieceSize);
    yield page;
    const last = page.at(-1);
    if (page.length < pieceSize || last === undefined) return;
    after = last.id;
  }
}
