import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { freshCode } from '../task/freshCode.ts';
import { positionsFor } from '../task/order.ts';
import { blockOf, movedLines, stepGroups } from './stepLines.ts';
import type { StepGroup, StepLine } from './stepLines.ts';
import { stepCalled, stepName } from './stepTexts.ts';

/** The steps and outings of one task, the outings in order. */
export interface TaskRows {
  steps: readonly TaskStep[];
  outings: readonly TaskOuting[];
}

/** Past every kept position: where a record is put before its place is known. */
export const unplaced = 1e15;

const put = (step: TaskStep): Proposal => ({ table: 'steps', put: step });

/** Adds a step after another one of its outing, else at the end of its outing; one for a step that fails goes under that step. */
export function addStep(rows: TaskRows, step: TaskStep, after: string | null): Act {
  const added = { ...step, position: unplaced };
  const groups = stepGroups([...rows.steps, added], rows.outings);
  const wanted = standingAfter(groups, added, after);
  const placed = placedIn(wanted, [added]);
  return { action: 'add-step', title: `Add step “${stepName(step).slice(0, 80)}”`, proposals: placed.map(put) };
}

/** Keeps a step changed. What names it by its code follows; on another outing it goes to the end, with what stands under it. */
export function editStep(rows: TaskRows, before: TaskStep, step: TaskStep, number: number | null): Act {
  const changed = new Map<string, TaskStep>([[step.id, step]]);
  if (step.code !== before.code) {
    for (const other of rows.steps)
      if (other.id !== step.id && namesStep(other, before.code))
        changed.set(other.id, renamedIn(other, before.code, step.code));
  }
  const elsewhere = step.outing !== before.outing || step.ifFails?.step !== before.ifFails?.step;
  const all = (): TaskStep[] => rows.steps.map((row) => changed.get(row.id) ?? row);
  if (elsewhere) {
    const own = stepGroups(rows.steps, rows.outings).find(({ outing }) => outing === before.outing)?.lines ?? [];
    const block = blockOf(own, step.id).map((line) => changed.get(line.step.id) ?? line.step);
    for (const [index, row] of block.entries())
      changed.set(row.id, { ...row, outing: step.outing, position: unplaced + index });
    const moving = block.map(({ id }) => changed.get(id)).filter((row) => row !== undefined);
    for (const placed of placedIn(stepGroups(all(), rows.outings), moving)) changed.set(placed.id, placed);
  }
  return {
    action: 'edit-step',
    title: `Edit ${stepCalled(before, number)}`,
    proposals: [...changed.values()].map(put),
  };
}

function namesStep({ ifFails, after }: TaskStep, code: string): boolean {
  return ifFails?.step === code || after?.includes(code) === true;
}

function renamedIn(step: TaskStep, was: string, code: string): TaskStep {
  const { ifFails, after } = step;
  return {
    ...step,
    ...(ifFails?.step === was ? { ifFails: { ...ifFails, step: code } } : {}),
    ...(after === undefined ? {} : { after: after.map((one) => (one === was ? code : one)) }),
  };
}

/** The same once more, after it and what stands under it. */
export function copyStep(
  rows: TaskRows,
  step: TaskStep,
  { id, number }: { id: string; number: number | null },
): { act: Act; copy: TaskStep } {
  const code = freshCode(step.code, new Set(rows.steps.map((row) => row.code)));
  const copy: TaskStep = { ...step, id, rev: 0, code, position: unplaced };
  const act = addStep(rows, copy, step.id);
  return { act: { ...act, action: 'copy-step', title: `Copy ${stepCalled(step, number)}` }, copy };
}

/** What goes with a step when it goes: the steps done if it fails. */
export function stepsUnder(rows: TaskRows, step: TaskStep): TaskStep[] {
  const group = stepGroups(rows.steps, rows.outings).find(({ outing }) => outing === step.outing);
  return blockOf(group?.lines ?? [], step.id)
    .slice(1)
    .map((line) => line.step);
}

export function removeStep(rows: TaskRows, step: TaskStep, number: number | null): Act {
  const going = [step, ...stepsUnder(rows, step)];
  const codes = new Set(going.map(({ code }) => code));
  const freed = rows.steps.filter(({ code, after }) => !codes.has(code) && after?.some((one) => codes.has(one)));
  return {
    action: 'remove-step',
    title: `Remove ${stepCalled(step, number)}`,
    proposals: [
      ...going.map(({ id, rev }): Proposal => ({ table: 'steps', remove: { id, rev } })),
      // What came after it comes after nothing that is gone.
      ...freed.map((row) => put({ ...row, after: row.after?.filter((code) => !codes.has(code)) ?? [] })),
    ],
  };
}

/** Past the step before or after it on its outing; null where there is none. */
export function moveStep(rows: TaskRows, step: TaskStep, by: -1 | 1, number: number | null): Act | null {
  const groups = stepGroups(rows.steps, rows.outings);
  const group = groups.find(({ outing }) => outing === step.outing);
  const lines = group === undefined ? null : movedLines(group.lines, step.id, by);
  if (group === undefined || lines === null) return null;
  const moving = blockOf(group.lines, step.id).map((line) => line.step);
  const placed = placedIn(
    groups.map((one) => (one === group ? { ...group, lines } : one)),
    moving,
  );
  const title = `Move ${stepCalled(step, number)} ${by === 1 ? 'down' : 'up'}`;
  return { action: 'move-step', title, proposals: placed.map(put) };
}

/** The groups with one line standing after the block of another one. */
function standingAfter(groups: StepGroup[], step: TaskStep, after: string | null): StepGroup[] {
  const group = groups.find(({ outing }) => outing === step.outing);
  const at = group?.lines.findIndex((line) => line.step.id === after) ?? -1;
  const own = group?.lines.find((line) => line.step.id === step.id);
  if (group === undefined || at < 0 || own === undefined || own.depth > 0) return groups;
  const rest = group.lines.filter((line) => line !== own);
  const root = rest.slice(0, at + 1).findLast(({ depth }) => depth === 0);
  const passed = root === undefined ? [] : blockOf(rest, root.step.id);
  const end = root === undefined ? rest.length : rest.indexOf(root) + passed.length;
  const lines: StepLine[] = [...rest.slice(0, end), own, ...rest.slice(end)];
  return groups.map((one) => (one === group ? { ...group, lines } : one));
}

/** The steps whose position changes so that all stand as the groups list them; those moving always among them. */
export function placedIn(groups: readonly StepGroup[], moving: readonly TaskStep[]): TaskStep[] {
  const sequences = groups.map(({ lines }) => lines.map(({ step }) => step));
  const positions = positionsFor(sequences, new Set(moving.map(({ id }) => id)));
  return sequences.flat().flatMap((step) => {
    const position = positions.get(step.id);
    return position === undefined ? [] : [{ ...step, position }];
  });
}
