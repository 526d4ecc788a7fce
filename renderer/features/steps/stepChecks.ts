import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { faultsOf } from '../../engine/records/faultsOf.ts';
import type { Fault } from '../../engine/records/faultsOf.ts';
import type { Draft } from '../../components/RecordForm/draft.ts';

/** The draft as it is kept: lines that say nothing are none, and what is only for a failing step goes with that. */
export function stepOf(draft: Draft): TaskStep {
  const step = { ...(draft as Partial<TaskStep>) } as TaskStep;
  const rows = { gear: step.gear?.filter(({ id }) => id !== ''), moves: step.moves?.filter(saysSomething) };
  if (rows.gear?.length === 0) delete step.gear;
  else if (rows.gear !== undefined) step.gear = rows.gear;
  if (rows.moves?.length === 0) delete step.moves;
  else if (rows.moves !== undefined) step.moves = rows.moves;
  const taken = step.fastenerMoves?.filter(({ id, to }) => id !== '' || (to !== undefined && to !== ''));
  if (taken?.length === 0) delete step.fastenerMoves;
  else if (taken !== undefined) step.fastenerMoves = taken;
  if (step.after !== undefined) step.after = step.after.map((code) => code.trim()).filter((code) => code !== '');
  if (step.contingency !== true) {
    delete step.contingency;
    delete step.ifFails;
  }
  if (step.ifFails !== undefined && step.ifFails.step === undefined) delete step.ifFails;
  return step;
}

const saysSomething = ({ id, from, to }: NonNullable<TaskStep['moves']>[number]): boolean =>
  id !== '' || from !== '' || to !== '';

/**
 * What keeps a step from being kept: its own faults, and what does not go with the rest of the task. What the planner
 * still needs of it is no fault.
 */
export function stepChecks(
  draft: Draft,
  rows: { steps: readonly TaskStep[]; outings: readonly TaskOuting[] },
): readonly Fault[] {
  const step = stepOf(draft);
  const others = rows.steps.filter(({ id }) => id !== step.id);
  const own = faultsOf('steps', step);
  const faults = [...own, ...among(step, others)];
  const first = new Map<string, Fault>();
  for (const fault of faults) if (!first.has(fault.path)) first.set(fault.path, fault);
  return [...first.values()];
}

function among(step: TaskStep, others: readonly TaskStep[]): Fault[] {
  const faults: Fault[] = [];
  if (others.some(({ code }) => code === step.code))
    faults.push({ path: 'code', message: `"${step.code}" is another step’s of this task: choose another one.` });
  for (const [index, { from, to }] of (step.moves ?? []).entries())
    if (from === to && from !== '')
      faults.push({ path: `moves[${index}].to`, message: `is "${from}", from where it is moved too.` });
  for (const [index, code] of (step.after ?? []).entries()) {
    if (code === step.code) faults.push({ path: `after[${index}]`, message: `"${code}" is this step itself.` });
    else if (!others.some((other) => other.code === code && other.outing === step.outing))
      faults.push({ path: `after[${index}]`, message: `"${code}" is no step of this outing.` });
  }
  for (const [index, { from, to }] of (step.fastenerMoves ?? []).entries())
    if (from === to)
      faults.push({ path: `fastenerMoves[${index}].to`, message: `is "${from}", from where it is taken too.` });
  const circle = circleOf(step, others);
  if (circle !== null)
    faults.push({ path: 'ifFails.step', message: `"${circle}" itself is for this step, if this one fails.` });
  return faults;
}

/** The step that leads back to this one over what each is for; null where none does. */
function circleOf(step: TaskStep, others: readonly TaskStep[]): string | null {
  const over = new Map(others.map(({ code, ifFails }) => [code, ifFails?.step]));
  const passed = new Set<string>();
  for (let at = step.ifFails?.step; at !== undefined && !passed.has(at); at = over.get(at)) {
    if (over.get(at) === step.code) return at;
    passed.add(at);
  }
  return null;
}
