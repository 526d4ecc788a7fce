import type { RunCounts } from '../../engine/tableImport/index.ts';

/** What the button writes: "Add 65 callouts, change 2". Null where nothing is to be written. */
export function writesText(
  { add, change }: Pick<RunCounts, 'add' | 'change'>,
  { one, many }: { one: string; many: string },
): string | null {
  const of = (count: number): string => `${count} ${count === 1 ? one : many}`;
  if (add === 0) return change === 0 ? null : `Change ${of(change)}`;
  return change === 0 ? `Add ${of(add)}` : `Add ${of(add)}, change ${change}`;
}

/** The same once it is written. */
export function writtenText(writes: string): string {
  return writes
    .replace(/^Add /, 'Added ')
    .replace(/^Change /, 'Changed ')
    .replace(', change ', ', changed ');
}
