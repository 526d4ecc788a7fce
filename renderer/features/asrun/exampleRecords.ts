import type { AsRunList, CalloutList } from '../../../shared-types/records/judgedLists.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import { readTools } from '../../engine/asrun/tools.ts';
import { JudgedRecords, JudgedTable } from '../../engine/inspection/index.ts';
import type { Act, Proposal } from '../../store/store.ts';

/** What was recorded of a worked example, as tables. All of it is invented. */
export interface ExampleTables {
  callouts: string;
  asRun: string;
  tools: string;
}

/** The examples' own tables, by the code of their task. */
const examples: Record<string, () => Promise<ExampleTables>> = {
  'skua-rock-light': async () => ({
    callouts: (await import('../../../data/demo/skua-rock-light-callouts.csv?raw')).default,
    asRun: (await import('../../../data/demo/skua-rock-light-as-run.csv?raw')).default,
    tools: (await import('../../../data/demo/skua-rock-light-tools.csv?raw')).default,
  }),
  'tarn-array': async () => ({
    callouts: (await import('../../../data/demo/tarn-array-callouts.csv?raw')).default,
    asRun: (await import('../../../data/demo/tarn-array-as-run.csv?raw')).default,
    tools: (await import('../../../data/demo/tarn-array-tools.csv?raw')).default,
  }),
};

/** How to come by the records of a worked example; null where the task is none. */
export function exampleTables(taskCode: string): (() => Promise<ExampleTables>) | null {
  return Object.hasOwn(examples, taskCode) ? (examples[taskCode] ?? null) : null;
}

export interface ExampleFor {
  task: string;
  person: string;
  /** ISO 8601 with offset. */
  now: string;
  /** Torque tools of every shelf: those that the records name get their serial and the day of their calibration. */
  items: readonly Item[];
  newId: () => string;
}

/** Callouts, records and tools of a worked example, in one act. */
export function addExample(tables: ExampleTables, x: ExampleFor): { act: Act; list: string } {
  const { task, person, now, items, newId } = x;
  const calloutTable = new JudgedTable({ name: 'callouts', content: tables.callouts });
  const calloutCells = calloutTable.cells(0, calloutTable.count);
  const beside = {
    callouts: { columns: calloutTable.columns, rows: calloutCells.map((cells) => ({ cells })) },
    tools: [],
  };
  const records = new JudgedRecords({ name: 'as-run', content: tables.asRun, beside });
  const recordCells = records.cells(0, records.count);
  const { tools } = readTools({ content: tables.tools });
  const common = { rev: 0, task, person };
  const callouts: CalloutList = {
    ...{ ...common, id: newId(), name: 'Callouts of the example', columns: calloutTable.columns },
  };
  const foundOut = [...tools.values()].flatMap(({ serial, foundOut: found, lastGood, calibrationDue: due }) =>
    found === null
      ? []
      : [
          {
            ...{ serial, foundOut: found.text, reason: 'Invented, as everything of this example.', person, at: now },
            ...(lastGood === null ? {} : { lastGood: lastGood.text }),
            ...(due === null ? {} : { due: due.text }),
          },
        ],
  );
  const asRun: AsRunList = {
    ...{ ...common, id: newId(), name: 'As-run of the example', columns: records.judged().columns },
    callouts: callouts.id,
    ...(foundOut.length === 0 ? {} : { foundOut }),
  };
  const rowsOf = (list: string, all: readonly Readonly<Record<string, string>>[]) =>
    all.map((cells, position) => ({ id: newId(), rev: 0, list, position, cells: { ...cells } }));
  const proposals: Proposal[] = [
    { table: 'calloutLists', put: callouts },
    ...rowsOf(callouts.id, calloutCells).map((put): Proposal => ({ table: 'callouts', put })),
    { table: 'asRunLists', put: asRun },
    ...rowsOf(asRun.id, recordCells).map((put): Proposal => ({ table: 'asRuns', put })),
    ...toolProposals(recordCells, tools, items),
  ];
  return { act: { action: 'add-records', title: 'Add the records of the example', proposals }, list: asRun.id };
}

/** A tool of the catalog that has a serial already is left alone. */
function toolProposals(
  records: readonly Readonly<Record<string, string>>[],
  tools: ReturnType<typeof readTools>['tools'],
  items: readonly Item[],
): Proposal[] {
  const serialOf = new Map(records.map((cells) => [cells['tool'] ?? '', cells['serial'] ?? '']));
  return items.flatMap((item): Proposal[] => {
    const serial = serialOf.get(item.code) ?? '';
    if (item.kind !== 'torque-tool' || item.serial !== undefined || serial === '') return [];
    const due = tools.get(serial)?.calibrationDue ?? null;
    return [{ table: 'items', put: { ...item, serial, ...(due === null ? {} : { calibrationDue: due.text }) } }];
  });
}
