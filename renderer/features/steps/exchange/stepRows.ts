import type { Task, TaskStep } from '../../../../shared-types/records/task.ts';
import { RefusedError } from '../../../engine/errors.ts';
import { cellsOfStep, stepColumns, stepOfCells } from '../../../engine/stepTable/index.ts';
import type { StepNames } from '../../../engine/stepTable/index.ts';
import type { KeptRow, ReadyRow } from '../../../engine/tableImport/index.ts';
import { breaths } from '../../../store/breathe.ts';
import type { Act, Proposal } from '../../../store/store.ts';
import { positionsBetween, renumbered } from '../../task/order.ts';
import type { SiteRows } from '../../task/useTaskRows.ts';
import { unplaced } from '../stepActs.ts';
import type { TaskRows } from '../stepActs.ts';
import { stepChecks } from '../stepChecks.ts';
import { stepGroups } from '../stepLines.ts';
import { countOf } from '../words.ts';

/** A kept step as the import holds it against a file's row. */
export interface KeptStep extends KeptRow {
  step: TaskStep;
}

/** What the steps of a task may name in a table: its outings and roles, and interfaces, with their site where two sites share a code. */
export function namesOf(task: Task, { outings }: TaskRows, { sites, interfaces }: SiteRows): StepNames {
  const own = [...interfaces.values()].filter(({ site }) => task.site === undefined || site === task.site);
  const counts = new Map<string, number>();
  for (const { code } of own) counts.set(code, (counts.get(code) ?? 0) + 1);
  return {
    outings: outings.map(({ code, roles }) => ({ code, roles })),
    interfaces: own.map(({ id, code, site }) => ({
      id,
      named: counts.get(code) === 1 ? code : `${sites.get(site)?.code ?? 'no site'} / ${code}`,
    })),
  };
}

export const keptSteps = (steps: readonly TaskStep[], names: StepNames): KeptStep[] =>
  steps.map((step) => ({ step, cells: cellsOfStep(step, names) }));

/** Rows of a file as one act: changed steps where they stand, new ones at the end of their outing, in the file's order. */
export async function bringStepsAct(x: {
  ready: readonly ReadyRow[];
  kept: readonly KeptStep[];
  rows: TaskRows;
  task: string;
  names: StepNames;
  from: string;
  newId: () => string;
}): Promise<Act> {
  const breath = breaths();
  const byCode = new Map(x.kept.map(({ step }) => [step.code, step]));
  const brought = new Map<string, { step: TaskStep; row: number }>();
  for (const [index, { cells, row }] of x.ready.entries()) {
    await breath();
    const held = byCode.get(cells['code'] ?? '');
    const from = held?.calloutFrom;
    const head = {
      ...{ id: held?.id ?? x.newId(), rev: held?.rev ?? 0, task: x.task },
      // What comes to an outing comes to its end.
      position: held !== undefined && held.outing === cells['outing'] ? held.position : unplaced + index,
      ...(from === undefined ? {} : { calloutFrom: from }),
    };
    const { step, faults } = stepOfCells(cells, head, x.names);
    if (step === null) throw refused(row, faults[0]?.column ?? 'code', faults[0]?.message ?? 'is wrong');
    brought.set(step.id, { step, row });
  }
  const all = new Map(x.rows.steps.map((row) => [row.id, row]));
  for (const [id, { step }] of brought) all.set(id, step);
  const rows = { steps: [...all.values()], outings: x.rows.outings };
  const codes = new Set(rows.steps.map(({ code }) => code));
  for (const { step, row } of brought.values()) {
    await breath();
    const over = step.ifFails?.step;
    if (over !== undefined && !codes.has(over))
      throw refused(row, 'ifFails', `"${over}" is no step of the task and of no row`);
    // Whom it names is looked at in full; a step that names nobody agrees with any other.
    if (over === undefined && step.after === undefined && step.moves === undefined && step.fastenerMoves === undefined)
      continue;
    const [fault] = stepChecks({ ...step }, rows);
    if (fault !== undefined) throw refused(row, fault.path, fault.message);
  }
  const title = `Bring ${countOf(x.ready.length, 'step')} in from ${x.from}`;
  return {
    action: 'bring-steps',
    title: title.length > 190 ? `${title.slice(0, 189)}…` : title,
    proposals: placed(rows, new Set(brought.keys())).map((put): Proposal => ({ table: 'steps', put })),
  };
}

const refused = (row: number, field: string, message: string): RefusedError =>
  new RefusedError({ code: 'wrong-shape', message: `Row ${row}, ${field}: ${message}.`, row, field });

/** The steps brought in, each run of new ones between those that stand there, and whatever must make room. */
function placed(rows: TaskRows, brought: ReadonlySet<string>): TaskStep[] {
  const inOrder = stepGroups(rows.steps, rows.outings).flatMap(({ lines }) => lines.map(({ step }) => step));
  const positions = new Map<string, number>();
  const isNew = ({ position }: TaskStep): boolean => position >= unplaced;
  for (let at = 0; at < inOrder.length; at += 1) {
    const step = inOrder[at];
    if (step === undefined || !isNew(step)) continue;
    const end = inOrder.findIndex((other, index) => index > at && !isNew(other));
    const run = inOrder.slice(at, end < 0 ? inOrder.length : end);
    const before = inOrder[at - 1];
    const after = end < 0 ? undefined : inOrder[end];
    const lower = before === undefined ? null : (positions.get(before.id) ?? before.position);
    const places = positionsBetween(lower, after?.position ?? null, run.length);
    if (places === null) {
      const anew = renumbered(inOrder);
      return inOrder.flatMap((one) => {
        const position = anew.get(one.id);
        if (position !== undefined) return [{ ...one, position }];
        return brought.has(one.id) ? [one] : [];
      });
    }
    for (const [index, { id }] of run.entries()) positions.set(id, places[index] ?? 0);
    at += run.length - 1;
  }
  return inOrder.flatMap((step) =>
    brought.has(step.id) ? [{ ...step, position: positions.get(step.id) ?? step.position }] : [],
  );
}

/** The columns that any of the steps has something for, and the rows under them, as the list shows the steps. */
export function tableOfSteps(rows: TaskRows, names: StepNames): { columns: string[]; rows: string[][] } {
  const inOrder = stepGroups(rows.steps, rows.outings).flatMap(({ lines }) => lines.map(({ step }) => step));
  const cells = inOrder.map((step) => cellsOfStep(step, names));
  const columns = stepColumns.map(({ name }) => name).filter((name) => cells.some((row) => row[name] !== undefined));
  return { columns, rows: cells.map((row) => columns.map((name) => row[name] ?? '')) };
}
