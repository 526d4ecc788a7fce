/** Frozen manifests, what was done with them, and discrepancies: they are only ever added to, so a file may contradict what is here. */
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import type { Discrepancy, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import type { AllTables } from './readSnapshotText.ts';

/**
 * What becomes of a lasting record that is here and in the file.
 *
 * @param table - its table
 * @param held - as it is here
 * @param theirs - as the file has it
 * @returns `ordinary` where it is none of them; null where it stays as it is; else as it shall be: with the closing that the file knows
 */
export function takenLasting(table: TableName, held: AnyRecord, theirs: AnyRecord): AnyRecord | 'ordinary' | null {
  if (table === 'revisions' || table === 'events') return null;
  if (table !== 'discrepancies') return 'ordinary';
  const { closed } = theirs as Discrepancy;
  return (held as Discrepancy).closed === undefined && closed !== undefined ? ({ ...held, closed } as AnyRecord) : null;
}

/**
 * Where a file contradicts what is here and neither can give way: another content under one key or number, a record that went on in
 * another way in both copies, a discrepancy that was closed in two ways.
 *
 * @param here - every record that is kept
 * @param file - every record of the file
 * @returns each in a sentence; none where both go together
 */
export function lastingFaults(here: AllTables, file: AllTables): string[] {
  return [...revisionFaults(here, file), ...eventFaults(here, file), ...discrepancyFaults(here, file)];
}

const rowsOf = <R>(tables: AllTables, table: TableName): ReadonlyMap<string, R> =>
  (tables.get(table) ?? new Map()) as unknown as ReadonlyMap<string, R>;

function revisionFaults(here: AllTables, file: AllTables): string[] {
  const own = rowsOf<Revision>(here, 'revisions');
  const byNumber = new Map([...own.values()].map((one) => [JSON.stringify([one.task, one.number]), one]));
  return [...rowsOf<Revision>(file, 'revisions').values()].flatMap((one) => {
    const held = own.get(one.id);
    if (held !== undefined)
      return held.hash === one.hash ? [] : [`${called(one)} has another content here under the same key`];
    const taken = byNumber.get(JSON.stringify([one.task, one.number]));
    return taken === undefined ? [] : [`${called(one)} is another one here, frozen by ${taken.by.name} at ${taken.at}`];
  });
}

const called = ({ number, called: name }: Revision): string =>
  `Revision ${number} of ${name === '' ? 'its task' : name}`;

function eventFaults(here: AllTables, file: AllTables): string[] {
  const own = new Map(
    [...rowsOf<OutingEvent>(here, 'events').values()].map((one) => [JSON.stringify([one.revision, one.no]), one]),
  );
  const revisions = rowsOf<Revision>(file, 'revisions');
  const parted = new Map<string, number>();
  for (const { revision, no, hash } of rowsOf<OutingEvent>(file, 'events').values()) {
    const held = own.get(JSON.stringify([revision, no]));
    if (held !== undefined && held.hash !== hash) parted.set(revision, Math.min(no, parted.get(revision) ?? no));
  }
  return [...parted].map(([revision, no]) => {
    const of = revisions.get(revision);
    const name = of === undefined ? 'a revision' : called(of);
    return `The record of ${name} went on in another way here: event ${no} is not the file’s event ${no}`;
  });
}

function discrepancyFaults(here: AllTables, file: AllTables): string[] {
  const own = rowsOf<Discrepancy>(here, 'discrepancies');
  const byNumber = new Map([...own.values()].map((one) => [JSON.stringify([one.task, one.number]), one]));
  return [...rowsOf<Discrepancy>(file, 'discrepancies').values()].flatMap((one) => {
    const held = own.get(one.id);
    if (held === undefined)
      return byNumber.has(JSON.stringify([one.task, one.number]))
        ? [`D-${one.number} of its task is another one here`]
        : [];
    const { closed: mine, rev: _mine, ...before } = held;
    const { closed: theirs, rev: _theirs, ...there } = one;
    if (canonicalJson(before) !== canonicalJson(there)) return [`D-${one.number} says something else here`];
    return mine !== undefined && theirs !== undefined && canonicalJson(mine) !== canonicalJson(theirs)
      ? [`D-${one.number} was closed in another way here, by ${mine.by.name}`]
      : [];
  });
}
