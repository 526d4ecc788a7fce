import type { TaskStep } from '../../../../shared-types/records/task.ts';
import type { Draft } from '../../../components/RecordForm/draft.ts';
import { faultsOf } from '../../../engine/records/faultsOf.ts';
import type { Fault } from '../../../engine/records/faultsOf.ts';
import { inOrder } from '../../../engine/records/inOrder.ts';
import type { Act } from '../../../store/store.ts';
import { addSteps, freshCodes } from '../addSteps.ts';
import type { NewStep } from '../addSteps.ts';
import type { TaskRows } from '../stepActs.ts';

/** A step that is offered to be added, with what a person made of it. */
export interface Offered {
  /** Its name in the draft; without points. */
  key: string;
  step: NewStep;
  isAdded: boolean;
  assumes: string;
  /** Asked for at once, and not only where a person wants to change the step. */
  asks: readonly ('gear' | 'minutes' | 'demand')[];
}

type Edit = Partial<Pick<TaskStep, 'name' | 'minutes' | 'demand' | 'callout'>> & { gear?: string };

const objectAt = (draft: Draft, name: string): Readonly<Record<string, unknown>> => {
  const value = draft[name];
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
};

/** A point parts the names of a path. */
const draftKey = (key: string): string => key.replaceAll(/[.[\]]/g, '_');

function gearWith(given: NewStep['gear'] = [], code: string): NonNullable<NewStep['gear']> {
  const [first, ...others] = given;
  return code.trim() === '' ? others : [{ id: code, quantity: first?.quantity ?? 1 }, ...others];
}

/** What is offered, as a person changed it and chose from it. */
export function withEdits(draft: Draft, offers: readonly Offered[]): Offered[] {
  const edits = objectAt(draft, 'edits');
  const added = objectAt(draft, 'added');
  return offers.map((offer) => {
    const key = draftKey(offer.key);
    const { gear, ...edit } = (edits[key] ?? {}) as Edit;
    const chosen = added[key];
    return {
      ...offer,
      key,
      isAdded: chosen === undefined ? offer.isAdded : chosen === 'yes',
      step: {
        ...offer.step,
        ...edit,
        ...(edit.callout === undefined ? {} : { callout: { ...offer.step.callout, ...edit.callout } }),
        // The first of several is the one that is shown to be changed; the others stay.
        ...(gear === undefined ? {} : { gear: gearWith(offer.step.gear, gear) }),
      } as NewStep,
    };
  });
}

/** What keeps those that are added from being kept, at the fields they are changed in; what a step still needs is no fault. */
export function faultsOfOffered(offered: readonly Offered[]): Fault[] {
  const head = { id: 'new', rev: 0, task: 'task', position: 0, code: 'new' };
  const added = offered.filter(({ isAdded }) => isAdded);
  if (added.length === 0) return [{ path: 'added', message: 'are none: choose at least one, or leave.' }];
  return added.flatMap(({ key, step }) =>
    faultsOf('steps', { ...step, ...head }).map(({ path, message }) => ({
      path: `edits.${key}.${path.startsWith('gear') ? 'gear' : path}`,
      message,
    })),
  );
}

/** Which of them a fault stands in, by key. */
export function faultyKeys(faults: readonly Fault[]): ReadonlySet<string> {
  return new Set(faults.flatMap(({ path }) => /^edits\.([^.]+)\./.exec(path)?.[1] ?? []));
}

export interface OfferedAct {
  act: Act;
  steps: readonly TaskStep[];
  /** Number of each in the task once they are added, by its key; and of those that were there, by theirs. */
  numbers: ReadonlyMap<string, number>;
}

/** Those that are added as one act, with the numbers that the task then has. */
export function actOfOffered(
  rows: TaskRows,
  offered: readonly Offered[],
  x: { task: string; after: string | null; title: (count: number) => string; newId: (key: string) => string },
): OfferedAct {
  const added = offered.filter(({ isAdded }) => isAdded);
  const hand = rows.steps.find(({ id }) => id === x.after)?.code;
  const like = hand ?? added[0]?.step.ifFails?.step ?? rows.steps.at(-1)?.code ?? null;
  const codes = freshCodes(rows, like, added.length);
  const steps = added.map(({ key, step }, index): TaskStep => ({
    ...step,
    ...{ id: x.newId(key), rev: 0, task: x.task, position: 0, code: codes[index] ?? key },
  }));
  const act = addSteps(rows, steps, x.after, x.title(steps.length));
  const all = new Map(rows.steps.map((row) => [row.id, row]));
  for (const one of act.proposals) if ('put' in one && one.table === 'steps') all.set(one.put.id, one.put);
  const numbers = new Map(inOrder([...all.values()]).map(({ id }, index) => [id, index + 1]));
  return { act, steps, numbers };
}

/** All that the numbers of those added follow from, in one text: while only names and figures are typed, it stays. */
export function placesText(offered: readonly Offered[]): string {
  const added = offered.filter(({ isAdded }) => isAdded);
  return JSON.stringify(added.map(({ key, step }) => [key, step.outing, step.ifFails?.step]));
}

/** What the task is before and after, in one sentence or two. */
export function beforeAfterText(rows: TaskRows, { steps, numbers }: OfferedAct): string {
  const count = steps.length;
  const after = rows.steps.length + count;
  if (count === 0) return `The task has ${rows.steps.length} steps, and none is added.`;
  const own = steps.flatMap(({ id }) => numbers.get(id) ?? []);
  const [least, most] = [Math.min(...own), Math.max(...own)];
  const isRun = most - least === count - 1;
  const where =
    count === 1 ? `number ${least}` : isRun ? `numbers ${least} to ${most}` : `between ${least} and ${most}`;
  const shifted = rows.steps.find((row, index) => numbers.get(row.id) !== index + 1);
  const shift =
    shifted === undefined
      ? ''
      : ` Step ${rows.steps.indexOf(shifted) + 1}, ${shifted.name ?? shifted.code}, then is ${numbers.get(shifted.id)}.`;
  return `Before: ${rows.steps.length} steps. After: ${after}, the new ones with ${where}.${shift}`;
}
