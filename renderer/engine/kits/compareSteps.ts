import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { differencesOf } from '../records/differences.ts';
import type { FieldDifference } from '../records/differences.ts';
import { inOrder } from '../records/inOrder.ts';
import { planFields } from '../records/planFields.ts';
import { stepEntry } from '../records/planOfTask.ts';

export interface StepsCompared {
  onlyMine: TaskStep[];
  onlyTheirs: TaskStep[];
  differ: { mine: TaskStep; theirs: TaskStep; fields: FieldDifference[] }[];
  same: number;
}

/**
 * The steps of two tasks held against each other under their codes, each as its plan has it: what an interface says for a step counts as
 * the step's own word.
 *
 * @param interfaces - of every site, by key
 * @returns the steps that only one of them has, and those that differ with their fields
 */
export function compareSteps(
  mine: readonly TaskStep[],
  theirs: readonly TaskStep[],
  interfaces: ReadonlyMap<string, Interface>,
): StepsCompared {
  const there = new Map(theirs.map((step) => [step.code, step]));
  const here = new Set(mine.map(({ code }) => code));
  const entry = (step: TaskStep) => stepEntry(step, interfaces.get(step.interface ?? '') ?? null);
  const compared: StepsCompared = { onlyMine: [], onlyTheirs: [], differ: [], same: 0 };
  for (const step of inOrder(mine)) {
    const other = there.get(step.code);
    if (other === undefined) {
      compared.onlyMine.push(step);
      continue;
    }
    const fields = differencesOf(entry(step), entry(other), planFields.step);
    if (fields.length === 0) compared.same += 1;
    else compared.differ.push({ mine: step, theirs: other, fields });
  }
  compared.onlyTheirs = inOrder(theirs).filter(({ code }) => !here.has(code));
  return compared;
}
