import type { AsRunLook } from '../../../shared-types/inspection.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { cellNamed } from '../../engine/inspection/index.ts';

/**
 * Where the positions of a record's callout lie: by the callout's own column "pattern"; else by the interface that the step of the
 * callout's id acts on. Null where neither says it.
 */
export function patternOf(
  { callout, cells }: Pick<AsRunLook, 'callout' | 'cells'>,
  known: { steps: readonly TaskStep[]; interfaces: ReadonlyMap<string, Interface> },
): string | null {
  const own = cellNamed(callout, 'pattern');
  if (own !== '') return own;
  const id = cellNamed(cells, 'callout');
  for (const step of known.steps) {
    if (step.code !== id || step.interface === undefined) continue;
    const pattern = known.interfaces.get(step.interface)?.pattern?.trim() ?? '';
    if (pattern !== '') return pattern;
  }
  return null;
}
