import { allUnits } from '../../engine/units/index.ts';
import { headerSign, type Feed, type ImportTarget, type Mapping } from '../../engine/tableImport/index.ts';

/** How a set of headers was mapped the last time. A convenience of this machine, and no record. */
const prefix = 'bagwright-mapping:';
/** So many sets are remembered; the oldest makes room. */
const setsMost = 50;

interface Remembered {
  sign: string;
  /** By header: the column fed, and the unit of its bare numbers. */
  feeds: [header: string, column: string | null, unit: string | null][];
}

function remembered(target: ImportTarget): Remembered[] {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(prefix + target.name) ?? '[]');
    return Array.isArray(read) ? read.filter(isRemembered) : [];
  } catch {
    return [];
  }
}

function isRemembered(value: unknown): value is Remembered {
  if (typeof value !== 'object' || value === null || !('sign' in value) || !('feeds' in value)) return false;
  const text = (part: unknown): boolean => part === null || typeof part === 'string';
  return (
    typeof value.sign === 'string' &&
    Array.isArray(value.feeds) &&
    value.feeds.every((feed) => Array.isArray(feed) && feed.length === 3 && feed.every(text) && feed[0] !== null)
  );
}

export function rememberMapping(target: ImportTarget, names: readonly string[], mapping: Mapping): void {
  const sign = headerSign(names);
  const feeds = mapping.map(({ column, unit }, at): Remembered['feeds'][number] => [names[at] ?? '', column, unit]);
  const others = remembered(target).filter((one) => one.sign !== sign);
  try {
    localStorage.setItem(prefix + target.name, JSON.stringify([{ sign, feeds }, ...others].slice(0, setsMost)));
  } catch {
    // Without room for it the next such file is guessed anew.
  }
}

/** The mapping kept for these very headers; null where none is, or where it names what is no column any more. */
export function rememberedMapping(target: ImportTarget, names: readonly string[]): Mapping | null {
  const found = remembered(target).find((one) => one.sign === headerSign(names));
  if (found === undefined) return null;
  const feeds = new Map(found.feeds.map(([header, column, unit]) => [header, { column, unit }]));
  const mapping: Feed[] = [];
  for (const name of names) {
    const feed = feeds.get(name);
    if (feed === undefined) return null;
    if (feed.column !== null && target.columns.every((column) => column.name !== feed.column)) return null;
    mapping.push({ column: feed.column, unit: allUnits.find((unit) => unit === feed.unit) ?? null });
  }
  return mapping;
}
