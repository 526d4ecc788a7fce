import type { Interface } from '../../../shared-types/records/site.ts';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { RefusedError } from '../errors.ts';
import type { Reading } from '../plan/reading.ts';
import { inTheBag, readCourseOfOuting, readSpread } from '../plan/resolveCourse.ts';
import { readAccess, readBand } from '../plan/resolveSteps.ts';
import { readQuantity } from '../units/index.ts';
import { faultsOfReading, type Fault } from './faults.ts';
import { patternFaults } from './patternFaults.ts';

/** What cannot be kept of an interface. */
export function interfaceFaults(it: Interface): Fault[] {
  return [...faultsOfReading((r) => void readAccess(r, 'access', it.access)), ...patternFaults(it)];
}

/** What a step says must be readable and agree with itself. What it does not say yet is `incompletenessOf`'s. */
export function stepFaults(step: TaskStep): Fault[] {
  const faults = faultsOfReading((r) => {
    readBand(r, 'callout', step.callout);
    readBand(r, 'running', step.running);
    r.optional(step.demand, (text) => r.torqueNm('demand', text));
    readAccess(r, 'access', step.access);
    readAccess(r, 'hold.access', step.hold?.access);
    readSpread(r, '', step);
    for (const [index, text] of (step.passes ?? []).entries()) readPass(r, `passes[${index}]`, text);
  });
  if (step.ifFails?.step === step.code)
    faults.push({
      path: 'ifFails.step',
      message: `"${step.code}" is this step itself: name the step it stands in for.`,
    });
  return faults;
}

/** A share of the callout, "50 %", or a torque. */
function readPass(r: Reading, field: string, text: string): void {
  r.refusals.attempt(field, text, undefined, () => {
    const share = /^\s*(\d+(?:\.\d+)?)\s*%\s*$/.exec(text)?.[1];
    const value = share === undefined ? quantity(text) : Number(share);
    if (value > 0 && (share === undefined || value <= 100)) return;
    throw new RefusedError({
      code: 'out-of-range',
      message: `"${text}" is no pass on the way to the callout: write it as "50 %" or "30 lbf·ft".`,
    });
  });
}

function quantity(text: string): number {
  try {
    return readQuantity(text, 'torque').value;
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    const words = error.refusal.message.replace(/\.$/, '');
    throw new RefusedError({ ...error.refusal, message: `${words}: write it as "50 %" or "30 lbf·ft".` });
  }
}

/** What cannot be kept of an outing. */
export function outingFaults(outing: TaskOuting): Fault[] {
  const course = faultsOfReading((r) => void readCourseOfOuting(r, '', { ...outing, id: outing.code }));
  return [...twice('bags', outing.bags, 'bag'), ...course];
}

/** What cannot be kept of a task. */
export function taskFaults(task: Task): Fault[] {
  const ids = task.places.map(({ id }) => id);
  const reserved = ids.flatMap((id, index): Fault[] =>
    id === inTheBag
      ? [{ path: `places[${index}].id`, message: '"bag" is the word for not left anywhere: call the place otherwise.' }]
      : [],
  );
  const blank = task.name.trim() === '' ? [{ path: 'name', message: 'is blank: a task is found by its name.' }] : [];
  return [
    ...blank,
    ...reserved,
    ...twice('places', ids, 'place').map(({ path, message }) => ({ path: `${path}.id`, message })),
    ...twice('shelves', task.shelves, 'shelf'),
  ];
}

function twice(path: string, ids: readonly string[], what: string): Fault[] {
  return ids.flatMap((id, index) =>
    ids.indexOf(id) < index ? [{ path: `${path}[${index}]`, message: `${what} "${id}" is listed twice` }] : [],
  );
}
