import type { Refusal } from '../../../shared-types/errors.ts';
import { recordSchemas, type RecordOf, type TableName } from '../../../shared-types/records/index.ts';
import { refusalFromZod } from '../json/readJson.ts';
import { allOf, plainWords, spellingsOf, withSpellings, type Fault } from './faults.ts';
import { itemFaults } from './itemFaults.ts';
import { interfaceFaults, outingFaults, stepFaults, taskFaults } from './workFaults.ts';

export type { Fault } from './faults.ts';

type Checks = { [T in TableName]?: (record: RecordOf<T>) => Fault[] };

const checks: Checks = {
  items: itemFaults,
  interfaces: interfaceFaults,
  tasks: taskFaults,
  outings: outingFaults,
  steps: stepFaults,
};

/**
 * The one check of every form and every import: what must never be kept. First the record's shape; where that is right,
 * whether its texts can be read and agree. It reads with the planner's own reading, so that what passes here can be
 * planned with. It looks at one record alone: whether a code is free or a name is known, others decide.
 *
 * @returns every fault with the path of its field; an empty list where the record may be kept
 */
export function faultsOf<T extends TableName>(table: T, record: unknown): Fault[] {
  const parsed = recordSchemas[table].safeParse(record);
  if (!parsed.success) {
    return allOf(refusalFromZod(parsed.error, { input: record }).refusal).map((refusal) => shapeFault(refusal));
  }
  // The schema of a table gives the records of that table; the compiler cannot follow that through the index.
  const check = checks[table] as ((record: RecordOf<T>) => Fault[]) | undefined;
  return [...codeFaults(parsed.data), ...(check?.(parsed.data as RecordOf<T>) ?? [])];
}

function shapeFault(refusal: Refusal): Fault {
  const path = refusal.field ?? '';
  if (path === 'calibrationDue' && typeof refusal.value === 'string') {
    const day = `"${refusal.value}" is no day of the calendar: write it as "2027-03-31" or "2028-02-29".`;
    return { path, message: day };
  }
  const words = plainWords(refusal);
  const hasNoValue = words === 'is missing' || words === 'is empty';
  return { path, message: hasNoValue && spellingsOf(path) !== null ? withSpellings(words, path) : words };
}

/** Codes are told apart by eye: space around them would make two of one. */
function codeFaults(record: object): Fault[] {
  const code: unknown = 'code' in record ? record.code : undefined;
  const name: unknown = !('code' in record) && 'name' in record ? record.name : undefined;
  if (typeof name === 'string' && name.trim() === '') return [{ path: 'name', message: 'is blank' }];
  if (typeof code !== 'string' || code.trim() === code) return [];
  const words = code.trim() === '' ? 'is blank' : `"${code}" begins or ends with a space: take it away.`;
  return [{ path: 'code', message: words }];
}
