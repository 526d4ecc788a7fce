import type { Refusal } from '../../../shared-types/errors.ts';
import type { Plan } from '../../../shared-types/plan.ts';
import { planSchema } from '../../../shared-types/plan.ts';
import type { TableName } from '../../../shared-types/records/index.ts';
import { RefusedError } from '../errors.ts';
import { readJson, refusalFromZod, rowFinder } from '../json/readJson.ts';
import { valueAt } from '../json/valueAt.ts';
import { ignoredFields } from '../plan/ignoredFields.ts';
import { planBytesMax, planFrom } from '../plan/readPlan.ts';
import { allOf } from './faults.ts';
import { faultsOf } from './faultsOf.ts';
import { catalogLists, recordsOfPlan } from './recordsOfPlan.ts';

export interface PlanFile {
  plan: Plan;
  /** Fields which nothing here knows, by path; they are not kept. */
  ignored: string[];
  /** What its steps do not say yet. They are kept, and show what they still need. */
  unfinished: Refusal[];
}

/**
 * A plan file to be kept as records: refused whole, with every fault, or read whole. What the planner refuses is refused
 * here too, but for what a step leaves unsaid; and each record passes the check that its form would make.
 *
 * @throws RefusedError with file, row, field, value and reason of every fault
 */
export function readPlanFile(text: string, file: string): PlanFile {
  const given = readJson(text, { file, maxBytes: planBytesMax });
  const parsed = planSchema.safeParse(given);
  if (!parsed.success) throw refusalFromZod(parsed.error, { file, text, input: given });
  const refused = refusalsOfPlan(given, file, text);
  const unfinished = refused.filter(isUnsaid);
  const faults = refused.filter((refusal) => !isUnsaid(refusal));
  const { ignored, faults: ofRecords } = faultsOfRecords(parsed.data, file, text);
  const told = new Set(faults.map(({ field }) => field));
  const all = [...faults, ...ofRecords.filter(({ field }) => !told.has(field))];
  const [first] = all;
  if (first !== undefined) throw new RefusedError(all.length === 1 ? first : { ...first, rows: all });
  return { plan: parsed.data, ignored: [...ignoredFields(given, parsed.data), ...ignored], unfinished };
}

function refusalsOfPlan(given: unknown, file: string, text: string): Refusal[] {
  try {
    planFrom(given, { file, text });
    return [];
  } catch (error) {
    if (error instanceof RefusedError) return allOf(error.refusal);
    throw error;
  }
}

/** A step may be kept before everything about it is known; nothing else in a plan may be left unsaid. */
function isUnsaid({ code, field = '' }: Refusal): boolean {
  return code === 'missing-field' && /^steps\[\d+\]\.(?:fastener|callout|demand|running)$/.test(field);
}

function faultsOfRecords(plan: Plan, file: string, text: string): { ignored: string[]; faults: Refusal[] } {
  const rowOf = rowFinder(text);
  // Nothing is kept here, so that no key has to be one of its own.
  const records = recordsOfPlan(plan, { shelfName: 'new', taskNamed: 'new', newId: () => 'new' });
  const at = (table: TableName, record: object, entry: string): Refusal[] =>
    faultsOf(table, record).map(({ path, message }) => {
      const field = inFile(entry, path);
      const row = rowOf(field);
      const value = valueAt(record, path.match(/[^.[\]]+/g) ?? []);
      return {
        code: 'out-of-range',
        message: `${field}: ${message}`,
        file,
        field,
        ...(row === undefined ? {} : { row }),
        ...(value === undefined || typeof value === 'object' ? {} : { value }),
      };
    });
  const entries = catalogLists.flatMap((list) => plan.catalog[list].map((_, index) => `catalog.${list}[${index}]`));
  return {
    ignored: records.ignored,
    faults: [
      ...records.items.flatMap((item, index) => at('items', item, entries[index] ?? 'catalog')),
      ...at('tasks', records.task, ''),
      ...records.outings.flatMap((outing, index) => at('outings', outing, `outings[${index}]`)),
      ...records.steps.flatMap((step, index) => at('steps', step, `steps[${index}]`)),
    ],
  };
}

/** A record's field under the name the file has for it. */
function inFile(entry: string, path: string): string {
  if (entry === '') {
    if (/^(?:places|rangeShareMin)\b/.test(path)) return path;
    return `task.${path === 'code' ? 'id' : path === 'siteText' ? 'site' : path}`;
  }
  const name = path === 'code' ? 'id' : path;
  return name === '' ? entry : `${entry}.${name}`;
}
