/**
 * The way of a record from each version of the shapes to the next. Every step stays for ever, as it was shipped: somewhere there is a
 * journal, a snapshot or an export of its version still. A change of the shapes is a new step below the last.
 */
import type { TableName } from './index.ts';

type AnyShape = Readonly<Record<string, unknown>>;
type Step = (table: TableName, record: AnyShape) => AnyShape;

/** What came since were tables and fields that may be absent: a record of the version before is whole as it is. */
const asItIs: Step = (_table, record) => record;

/** `steps[0]` leads from version 1 to version 2. */
const steps: readonly Step[] = [asItIs, asItIs, asItIs, asItIs, asItIs];

/** The version with which a table came; the others were there from the first. */
const since: Partial<Record<TableName, number>> = {
  notes: 2,
  calloutLists: 2,
  callouts: 2,
  asRunLists: 2,
  asRuns: 2,
  watchOuts: 4,
  revisions: 5,
  events: 5,
  discrepancies: 5,
};

/** Whether a version knew the table: what says that it is of an earlier one and holds it is not what it says. */
export function knewTable(version: number, table: TableName): boolean {
  return version >= (since[table] ?? 1);
}

/**
 * A record as a later version has it. From one version to a third by way of the second is the same as from the first to the third.
 *
 * @param from - the version whose shape it has
 * @param to - the version whose shape it shall have; that of this program unless a test asks for another
 */
export function broughtUp<R extends AnyShape>(table: TableName, record: R, from: number, to = steps.length + 1): R {
  return steps.slice(from - 1, to - 1).reduce<AnyShape>((held, step) => step(table, held), record) as R;
}
