import type { rawContents } from './rawDatabase.ts';
import type { ArrivalBlock, MetaRow } from './workingCopy.ts';

type Contents = Awaited<ReturnType<typeof rawContents>>;
type Row = { id: string };

/**
 * What a database holds, as its tables would have it once they had taken in what was laid down for them: all of it where it is whole and
 * follows upon the copy's head, else nothing of it.
 */
export function withArrivals(contents: Contents): Contents {
  const { arrivals, meta } = contents;
  const blocks = (Array.isArray(arrivals) ? arrivals : []) as ArrivalBlock[];
  const head = (Array.isArray(meta) ? (meta as MetaRow[]) : []).find(({ key }) => key === 'head');
  const [first] = blocks;
  const isWhole =
    first !== undefined &&
    blocks.length === first.of &&
    blocks.every(({ at, hash }, n) => at === n && hash === first.hash);
  if (!isWhole || first.seq !== (head?.seq ?? 0) + 1 || first.prevHash !== head?.hash) return contents;
  const tables = new Map<string, Map<string, Row>>();
  for (const { table, id, after } of blocks.flatMap(({ changes }) => changes)) {
    const rows = contents[table];
    if (rows !== undefined && !Array.isArray(rows)) continue;
    const own = tables.get(table) ?? new Map(((rows ?? []) as Row[]).map((row) => [row.id, row]));
    tables.set(table, own);
    if (after === null) own.delete(id);
    else own.set(id, after as Row);
  }
  return { ...contents, ...Object.fromEntries([...tables].map(([table, own]) => [table, [...own.values()]])) };
}
