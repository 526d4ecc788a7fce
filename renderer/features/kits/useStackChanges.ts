import { useEffect, useState } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import { RefusedError } from '../../engine/errors.ts';
import { readWithKit, stackChange } from '../../engine/kits/index.ts';
import type { StackChange } from '../../engine/kits/index.ts';
import type { TaskRecords } from '../../engine/records/planOfTask.ts';
import { inOrder } from '../../engine/records/inOrder.ts';

export interface StackChanges {
  changes: readonly StackChange[];
  /** How many steps there are to judge. */
  of: number;
  fault: string | null;
}

const none: StackChanges = { changes: [], of: 0, fault: null };

/** Every step of a task with one kit and with the other, one after the other so that the page stays free. */
export function useStackChanges(
  records: TaskRecords | null,
  mine: readonly Item[],
  theirs: readonly Item[],
): StackChanges {
  const [found, setFound] = useState(none);
  useEffect(() => {
    if (records === null) {
      setFound(none);
      return undefined;
    }
    let timer: ReturnType<typeof setTimeout> | undefined;
    const steps = inOrder(records.steps.filter(({ task }) => task === records.task.id));
    const changes: StackChange[] = [];
    setFound({ ...none, of: steps.length });
    const fail = (error: unknown): void => {
      if (!(error instanceof RefusedError)) throw error;
      setFound({ changes: [], of: steps.length, fault: error.refusal.message });
    };
    const begin = (): void => {
      try {
        const [here, there] = [readWithKit(records, mine), readWithKit(records, theirs)];
        const next = (): void => {
          const step = steps[changes.length];
          if (step === undefined) return;
          try {
            changes.push(stackChange(step.code, here, there));
          } catch (error) {
            fail(error);
            return;
          }
          setFound({ changes: [...changes], of: steps.length, fault: null });
          timer = setTimeout(next);
        };
        next();
      } catch (error) {
        fail(error);
      }
    };
    timer = setTimeout(begin);
    return () => clearTimeout(timer);
  }, [records, mine, theirs]);
  return found;
}
