import type { AsRunRecord } from './record.ts';

/**
 * Records that belong together, in the order of the file.
 *
 * @param keyOf - what those of one group have in common
 */
export function groupsOf(
  records: readonly AsRunRecord[],
  keyOf: (record: AsRunRecord) => readonly (string | number | null)[],
): AsRunRecord[][] {
  const groups = new Map<string, AsRunRecord[]>();
  for (const record of records) {
    const key = JSON.stringify(keyOf(record));
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [record]);
    else group.push(record);
  }
  return [...groups.values()];
}
