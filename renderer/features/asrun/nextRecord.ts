import type { AsRunList, CalloutList, KeptAsRun } from '../../../shared-types/records/judgedLists.ts';
import { cellNamed } from '../../engine/inspection/index.ts';

const goesOn = ['callout', 'cycle', 'tool', 'serial'];

function placeAfter(rows: readonly KeptAsRun[]): number {
  return (rows.at(-1)?.position ?? -1) + 1;
}

/** The list that records typed by hand begin. */
export function firstList(own: Pick<AsRunList, 'id' | 'task' | 'person'>, against: CalloutList | null): AsRunList {
  const columns = ['callout', 'position', 'cycle', 'final'];
  return { ...own, rev: 0, name: 'As-run', columns, ...(against === null ? {} : { callouts: against.id }) };
}

/** What a new record begins with: the next fastener of the same callout is what is mostly written next. */
export function nextRecord(list: string, rows: readonly KeptAsRun[], id: string): KeptAsRun {
  const before = rows.at(-1)?.cells ?? {};
  const cells = Object.fromEntries(
    goesOn.flatMap((name) => {
      const said = cellNamed(before, name);
      return said === '' ? [] : [[name, said]];
    }),
  );
  return { id, rev: 0, list, position: placeAfter(rows), cells };
}

/** A record like another one; what was accepted of that one is not accepted of it. */
export function copyOfRecord(row: KeptAsRun, rows: readonly KeptAsRun[], id: string): KeptAsRun {
  const { accepted: _accepted, ...rest } = row;
  return { ...rest, id, rev: 0, position: placeAfter(rows) };
}
