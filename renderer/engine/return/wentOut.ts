import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { none, plus } from './amount.ts';
import type { Amount } from './amount.ts';
import { lineKey } from './returned.ts';

interface Packed extends Amount {
  labels: string[];
}

/** A label that names one piece; with 000 in its place it names the thing, of which several are counted by it. */
export function namesOnePiece(label: string): boolean {
  return /^1\d{6}(?!000)\d{5}$/.test(label);
}

/**
 * What was counted into the bags of an outing, by line.
 *
 * @param revision - what was to be packed
 * @param standing - the events of the outing that hold, up to its leaving
 * @returns by `lineKey`; lines of which nothing was counted are absent
 */
export function packedOf(revision: Pick<Revision, 'content'>, standing: readonly OutingEvent[]): Map<string, Packed> {
  const packed = new Map<string, Packed>();
  const known = new Set(revision.content.lines.map(lineKey));
  const add = (line: Amount & { bag: string; item: string }, labels: readonly string[]): void => {
    const key = lineKey(line);
    if (!known.has(key)) return;
    const before = packed.get(key) ?? { ...none, labels: [] };
    // The same piece read twice is one piece.
    if (labels.length === 1 && before.labels.includes(labels[0] ?? '')) return;
    packed.set(key, { ...plus(before, line), labels: [...before.labels, ...labels] });
  };
  for (const { deed } of standing) {
    if (deed.kind === 'counted') add(deed, deed.label !== undefined && namesOnePiece(deed.label) ? [deed.label] : []);
    if (deed.kind === 'carried-over') for (const line of deed.counts) add(line, line.labels.filter(namesOnePiece));
  }
  return packed;
}
