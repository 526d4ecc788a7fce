import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { differencesOf } from './differences.ts';
import { inOrder } from './inOrder.ts';
import { mergedByCode, withFileFields, type Merged } from './merged.ts';
import { mergedOrder } from './mergedOrder.ts';
import { planFields } from './planFields.ts';
import { stepEntry } from './planOfTask.ts';
import { textOfValue } from './textOfPlan.ts';

interface Sides<R> {
  here: readonly R[];
  file: readonly R[];
  differing: 'keep' | 'take';
}

/** Outings of a file beside those kept. */
export function mergeOutings(x: Sides<TaskOuting>): Merged<TaskOuting> {
  const merged = mergedByCode({
    ...x,
    table: 'outings',
    differences: (here, file) => differencesOf(here, file, planFields.outing),
    taken: (here, file) => withFileFields(here, file, planFields.outing),
  });
  return placed(x, merged, 'outings');
}

/** A step is compared as the plan has it: what its interface says for it counts as its own word. */
export function mergeSteps(x: Sides<TaskStep> & { interfaces: readonly Interface[] }): Merged<TaskStep> {
  const of = (step: TaskStep) => x.interfaces.find(({ id }) => id === step.interface) ?? null;
  const merged = mergedByCode({
    ...x,
    table: 'steps',
    differences: (here, file) => differencesOf(stepEntry(here, of(here)), stepEntry(file, null), planFields.step),
    taken: (here, file) => {
      const step = withFileFields(here, file, planFields.step);
      const says = textOfValue(stepEntry(step, of(step)));
      if (says === textOfValue(stepEntry(file, null))) return step;
      // Its interface would say what the file leaves open, or watch-outs that the file does not have.
      const { interface: _, ...alone } = step;
      return alone;
    },
  });
  return placed(x, merged, 'steps');
}

/** New entries between those they stand between in the file; a changed order is a difference like any other. */
function placed<R extends { code: string; position: number; id: string }>(
  x: Sides<R>,
  merged: Merged<R>,
  table: 'outings' | 'steps',
): Merged<R> {
  const here = inOrder(x.here);
  const codes = inOrder(x.file).map(({ code }) => code);
  const order = mergedOrder(here, codes, x.differing === 'take' ? 'file' : 'here');
  const puts = new Map(merged.puts.map((put) => [put.code, put]));
  for (const record of x.here) {
    const position = order.get(record.code);
    if (position !== undefined && position !== record.position) puts.set(record.code, puts.get(record.code) ?? record);
  }
  return {
    comparison: { ...merged.comparison, differ: [...merged.comparison.differ, ...orderDiffers(here, codes, table)] },
    puts: [...puts.values()].map((put) => ({ ...put, position: order.get(put.code) ?? put.position })),
  };
}

function orderDiffers(here: readonly { code: string }[], codes: readonly string[], table: 'outings' | 'steps') {
  const own = here.map(({ code }) => code).filter((code) => codes.includes(code));
  const theirs = codes.filter((code) => own.includes(code));
  if (own.join('\n') === theirs.join('\n')) return [];
  const fields = [{ path: 'order', here: own.join(', '), file: theirs.join(', ') }];
  return [{ table, code: `order of ${table}`, name: null, fields }];
}
