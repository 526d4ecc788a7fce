import type { KnownTool } from '../../../shared-types/inspection.ts';
import { readMoment } from '../asrun/moment.ts';
import { cellNamed } from './cellNamed.ts';

type Cells = Readonly<Record<string, string>>;

/** What becomes of a value whose tool was found out: `open` again, `kept` as it was set while the tool was known to be right. */
export type TracedState = 'open' | 'kept' | 'not-found-out';

/** A serial as two writings of it are compared: what a tool list and a record call the same. */
export function sameSerial(one: string, other: string): boolean {
  return one.trim() === other.trim();
}

/**
 * What a tool's being found out does to one value it gave. A value whose day is not known cannot be left out.
 *
 * @param cells - of the record, as typed
 * @param tool - what is known of the tool
 * @returns as the rule `tool-found-out` decides it
 */
export function tracedState(cells: Cells, tool: KnownTool | undefined): TracedState {
  if (tool?.foundOut === undefined) return 'not-found-out';
  const good = tool.lastGood === undefined ? null : (readMoment(tool.lastGood)?.day ?? null);
  const day = readMoment(cellNamed(cells, 'time'))?.day ?? null;
  return good !== null && day !== null && day <= good ? 'kept' : 'open';
}

/**
 * What is known of each tool, out of the catalog and out of what was found out after the work. Where two say different things of one
 * serial the earlier day holds: what may be doubtful is.
 *
 * @param catalog - tools with a serial
 * @param foundOut - of every list kept, whichever task it is of: a tool goes from task to task
 * @returns one for each serial, by serial
 */
export function knownTools(
  catalog: readonly { serial?: string | undefined; calibrationDue?: string | undefined }[],
  foundOut: readonly { serial: string; lastGood?: string | undefined; foundOut: string }[],
): KnownTool[] {
  const known = new Map<string, KnownTool>();
  const of = (serial: string): KnownTool => {
    const tool = known.get(serial.trim()) ?? { serial: serial.trim() };
    known.set(tool.serial, tool);
    return tool;
  };
  for (const { serial = '', calibrationDue } of catalog) {
    if (serial.trim() === '') continue;
    const tool = of(serial);
    if (calibrationDue !== undefined && !(tool.calibrationDue !== undefined && tool.calibrationDue <= calibrationDue))
      tool.calibrationDue = calibrationDue;
  }
  for (const { serial, found, good } of byFirstGood(foundOut)) {
    const tool = of(serial);
    tool.foundOut = found;
    if (good !== null) tool.lastGood = good;
  }
  return [...known.values()].toSorted((a, b) => (a.serial < b.serial ? -1 : 1));
}

/** Of several times that a tool was found out the last day counts, and of the days it was right the first; none where one has none. */
function byFirstGood(
  all: readonly { serial: string; lastGood?: string | undefined; foundOut: string }[],
): { serial: string; found: string; good: string | null }[] {
  const merged = new Map<string, { serial: string; found: string; good: string | null }>();
  for (const { serial, lastGood = null, foundOut } of all) {
    const before = merged.get(serial);
    if (before === undefined) merged.set(serial, { serial, found: foundOut, good: lastGood });
    else {
      if (foundOut > before.found) before.found = foundOut;
      before.good = before.good === null || lastGood === null ? null : lastGood < before.good ? lastGood : before.good;
    }
  }
  return [...merged.values()];
}
