/** Records compared as a whole: the same text, the same records. */
import { createHash } from 'node:crypto';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { Records } from './burst/main.ts';

/** Of every table, order of records left aside. */
export function digestOf(records: Records): string {
  const sorted = Object.entries(records).map(([name, rows]) => [
    name,
    rows.map((row) => canonicalJson(row)).toSorted(),
  ]);
  return createHash('sha256').update(canonicalJson(sorted)).digest('hex');
}
