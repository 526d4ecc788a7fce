import type { AsRunList, CalloutList, KeptAsRun, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { RefusedError } from '../../engine/errors.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import { cellNamed, columnNamed } from '../../engine/inspection/index.ts';
import { quantityIn } from '../../engine/units/index.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { stepCellColumns } from '../findings/stepCells.ts';
import type { StepAsCallout } from '../findings/stepCells.ts';
import { sentence } from '../steps/words.ts';

/** A step of an outing that tightened by a torque, as its frozen manifest has it. */
export interface TorquedStep {
  code: string;
  name: string;
  /** "30 to 35 lbf·ft" */
  asked: string;
  /** In the order of tightening. */
  positions: readonly string[];
  tool: string | null;
  serial: string | null;
  /** Only done if another one fails. */
  contingency: boolean;
}

/** What was read at one position, as typed; empty where nothing was. */
export interface ReadValue {
  running: string;
  breakaway: string;
  final: string;
}

export const nothingRead: ReadValue = { running: '', breakaway: '', final: '' };

/** Values of an outing by step and position. */
export type ReadValues = ReadonlyMap<string, ReadValue>;

export const valueKey = (step: string, position: string): string => JSON.stringify([step, position]);

/** What the list of such values is called. */
export const readListName = 'Read on the outings';

/** The steps of an outing whose torque is read at the work site. */
export function torquedSteps({ plan, result, facts, things }: Frozen, outing: string): TorquedStep[] {
  const answer = result.outings.find(({ id }) => id === outing);
  return plan.source.steps.flatMap((step): TorquedStep[] => {
    if (step.outing !== outing || step.action !== 'tighten' || step.callout === undefined) return [];
    const at = facts.get(step.id)?.at ?? null;
    const count = at?.count ?? step.count ?? 1;
    const tool = answer?.steps.find(({ id }) => id === step.id)?.stack[0] ?? null;
    return [
      {
        ...{ code: step.id, name: step.name ?? step.id, asked: `${step.callout.min} to ${step.callout.max}`, tool },
        positions: at?.order ?? Array.from({ length: count }, (_, index) => String(index + 1)),
        serial: things.find(({ id }) => id === tool)?.serial ?? null,
        contingency: step.contingency === true,
      },
    ];
  });
}

/** What is wrong with the values, by key and field; empty where nothing is. A running or breakaway torque alone is no record. */
export function valueFaults(values: ReadValues): Map<string, Partial<Record<keyof ReadValue, string>>> {
  const faults = new Map<string, Partial<Record<keyof ReadValue, string>>>();
  for (const [key, value] of values) {
    const own: Partial<Record<keyof ReadValue, string>> = {};
    for (const field of ['running', 'breakaway', 'final'] as const) {
      const typed = value[field].trim();
      if (typed === '') {
        if (field === 'final' && (value.running.trim() !== '' || value.breakaway.trim() !== ''))
          own.final = 'The final torque is missing.';
        continue;
      }
      try {
        if (quantityIn(typed, 'torque', 'N·m') < 0) own[field] = `“${typed}” is below 0.`;
      } catch (error) {
        if (!(error instanceof RefusedError)) throw error;
        own[field] = sentence(error.message);
      }
    }
    if (Object.keys(own).length > 0) faults.set(key, own);
  }
  return faults;
}

export interface ToKeepValues {
  task: string;
  person: string;
  outing: string;
  /** Number of the revision that the outing was out with. */
  revision: number;
  /** As typed: "2026-04-21 09:10"; empty where it is not known. */
  time: string;
  steps: readonly TorquedStep[];
  values: ReadValues;
  /** Of the task. */
  asRunLists: readonly AsRunList[];
  calloutLists: readonly CalloutList[];
  asRuns: readonly KeptAsRun[];
  callouts: readonly KeptCallout[];
  taskSteps: readonly TaskStep[];
  /** The task's steps as the callouts they are, for a step whose callout no list has. */
  asCallouts: readonly StepAsCallout[];
  newId: () => string;
}

/**
 * The values of an outing as rows of the task's record, in one act: in a list of their own, judged against the task's callouts. A step whose
 * callout no list has brings it along. The cycle of a position is one more than the last that is recorded of it.
 *
 * @returns the act, or null where nothing was read
 */
export function keepValuesAct(x: ToKeepValues): Act | null {
  const list = x.asRunLists.find(({ name }) => name === readListName);
  const against = x.calloutLists.find(({ id }) => id === list?.callouts) ?? x.calloutLists[0];
  const callouts: CalloutList = against ?? {
    ...{ id: x.newId(), rev: 0, task: x.task, person: x.person, name: 'Callouts of the steps' },
    columns: stepCellColumns,
  };
  const known = new Set(
    x.callouts.filter((one) => one.list === callouts.id).map(({ cells }) => cellNamed(cells, 'id')),
  );
  const rows: Proposal[] = [];
  const coming: StepAsCallout[] = [];
  const own: AsRunList = list ?? {
    ...{ id: x.newId(), rev: 0, task: x.task, person: x.person, name: readListName, callouts: callouts.id },
    columns: [
      'callout',
      'position',
      'cycle',
      'running',
      'breakaway',
      'final',
      'method',
      'tool',
      'serial',
      'time',
      'outing',
    ],
  };
  const cycles = cyclesOf(x.asRuns);
  let position = Math.max(-1, ...x.asRuns.filter((one) => one.list === own.id).map((one) => one.position));
  for (const step of x.steps) {
    const read = step.positions.flatMap((place) => {
      const value = x.values.get(valueKey(step.code, place)) ?? nothingRead;
      return value.final.trim() === '' ? [] : [{ place, value }];
    });
    if (read.length === 0) continue;
    const from = x.taskSteps.find(({ code }) => code === step.code);
    const named = from?.calloutFrom?.kind === 'callout' ? from.calloutFrom.id : step.code;
    const callout = known.has(named) ? named : step.code;
    if (!known.has(callout)) {
      const made = x.asCallouts.find(({ cells }) => cells['id'] === step.code);
      if (made !== undefined) coming.push(made);
      known.add(callout);
    }
    for (const { place, value } of read) {
      position += 1;
      const cells = {
        ...{ callout, position: place, cycle: String((cycles.get(valueKey(callout, place)) ?? 0) + 1) },
        ...{ running: value.running.trim(), breakaway: value.breakaway.trim(), final: value.final.trim() },
        ...{ method: 'read', tool: step.tool ?? '', serial: step.serial ?? '', time: x.time.trim() },
        outing: `${x.outing}, revision ${x.revision}`,
      };
      const put = { id: x.newId(), rev: 0, list: own.id, position, cells: underNames(own.columns, cells) };
      rows.push({ table: 'asRuns', put });
    }
  }
  if (rows.length === 0) return null;
  return {
    action: 'add-records',
    title: `Keep ${rows.length === 1 ? 'a value' : `${rows.length} values`} read on outing ${x.outing}`.slice(0, 190),
    proposals: [
      ...calloutPuts(callouts, coming, { isNew: against === undefined, x }),
      { table: 'asRunLists', put: { ...own, columns: withAll(own.columns, rows) } },
      ...rows,
    ],
  };
}

/** The last cycle that is recorded of each position of a callout. */
function cyclesOf(rows: readonly KeptAsRun[]): Map<string, number> {
  const last = new Map<string, number>();
  for (const { cells } of rows) {
    const key = valueKey(cellNamed(cells, 'callout'), cellNamed(cells, 'position'));
    const cycle = Number(cellNamed(cells, 'cycle'));
    if (Number.isInteger(cycle)) last.set(key, Math.max(last.get(key) ?? 0, cycle));
  }
  return last;
}

/** Cells under the names that the list has for them; empty ones are absent. */
function underNames(columns: readonly string[], cells: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(cells).flatMap(([name, text]) => (text === '' ? [] : [[columnNamed(columns, name) ?? name, text]])),
  );
}

function withAll(columns: readonly string[], rows: readonly Proposal[]): string[] {
  const named = rows.flatMap((one) => (one.table === 'asRuns' && 'put' in one ? Object.keys(one.put.cells) : []));
  return [...new Set([...columns, ...named])];
}

/** Callouts that come along, and their list where it is new or gets columns. */
function calloutPuts(
  list: CalloutList,
  coming: readonly StepAsCallout[],
  { isNew, x }: { isNew: boolean; x: ToKeepValues },
): Proposal[] {
  const cells = coming.map((one) => underNames(list.columns, one.cells));
  const columns = [...new Set([...list.columns, ...cells.flatMap((one) => Object.keys(one))])];
  const last = Math.max(-1, ...x.callouts.filter((one) => one.list === list.id).map((one) => one.position));
  return [
    ...(isNew || columns.length > list.columns.length
      ? [{ table: 'calloutLists' as const, put: { ...list, columns } }]
      : []),
    ...cells.map((own, at): Proposal => ({
      table: 'callouts',
      put: { id: x.newId(), rev: 0, list: list.id, position: last + 1 + at, cells: own },
    })),
  ];
}
