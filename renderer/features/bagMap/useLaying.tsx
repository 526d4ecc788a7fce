import { useMemo } from 'react';
import type { ReactNode } from 'react';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import { useTable } from '../session/useStore.ts';
import { useAct } from '../task/useAct.tsx';
import { layLines } from './mapActs.ts';

export interface Laying {
  lines: readonly LaidLine[];
  lay: (lines: readonly LaidLine[], title: string) => void;
  /** What was not kept, and why. */
  notice: ReactNode;
}

const none: readonly LaidLine[] = [];

/** The lines of an outing that were laid by hand, as its record keeps them. */
export function useLaying(taskId: string, outingCode: string | undefined): Laying {
  const { rows } = useTable('outings');
  const { run, notice } = useAct();
  const record = useMemo(
    () => [...rows.values()].find(({ task, code }) => task === taskId && code === outingCode),
    [rows, taskId, outingCode],
  );
  return {
    lines: record?.bagMap ?? none,
    lay: (lines, title) => {
      if (record !== undefined) void run(layLines(record, lines, title));
    },
    notice,
  };
}
