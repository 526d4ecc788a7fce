import { useMemo } from 'react';
import type { Ref } from 'react';
import type { KnownTool } from '../../../shared-types/inspection.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Act } from '../../store/store.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { useTable } from '../session/useStore.ts';
import { listsOfTool, markFoundOut, withdrawFoundOut } from './recordActs.ts';
import { ToolPane } from './ToolPane.tsx';

export interface ToolOfAllProps {
  serial: string;
  onSerial: (serial: string) => void;
  tools: readonly KnownTool[];
  task: string;
  units: UnitsShown;
  person: string;
  today: string;
  headingRef: Ref<HTMLHeadingElement>;
  run: (act: Act) => Promise<boolean>;
  onClose: () => void;
}

/** A tool over everything that is kept, and what a person says of it. */
export function ToolOfAll({ run, ...props }: ToolOfAllProps) {
  const { serial } = props;
  const lists = useTable('asRunLists');
  const rows = useTable('asRuns');
  const tasks = useTable('tasks');
  const all = useMemo(() => [...lists.rows.values()], [lists.rows]);
  const codes = useMemo(() => new Map([...tasks.rows.values()].map(({ id, code }) => [id, code])), [tasks.rows]);
  return (
    <ToolPane
      {...props}
      lists={all}
      rows={rows.rows}
      tasks={codes}
      onFound={(found) =>
        void run(
          markFoundOut({ ...found, at: isoWithOffset(new Date()) }, listsOfTool(found.serial, all, rows.rows.values())),
        )
      }
      onWithdraw={() => void run(withdrawFoundOut(serial, all))}
    />
  );
}
