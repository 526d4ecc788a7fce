import { useMemo, useState } from 'react';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { showNumber } from '../../engine/units/index.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { goTo } from '../session/usePlace.ts';
import { contingencyWord, stepName } from '../steps/stepTexts.ts';
import type { Schedule } from './schedule.ts';
import { clockText } from './timelineLayout.ts';

const columns: GridColumn[] = [
  { key: 'number', label: 'No', width: '48px', end: true },
  { key: 'name', label: 'Step', width: 'minmax(0, 1fr)' },
  { key: 'role', label: 'Role', width: 'minmax(60px, 0.4fr)' },
  { key: 'slot', label: 'Slot', width: 'minmax(40px, 0.2fr)', wideOnly: true },
  { key: 'time', label: 'From to (h:min)', width: '120px', end: true },
  { key: 'minutes', label: 'min', width: '64px', end: true, wideOnly: true },
];

export interface CourseTableProps {
  schedule: Schedule;
  numberOf: (id: string) => number;
}

/** The same course as a table; Enter on a line opens its step. */
export function CourseTable({ schedule, numberOf }: CourseTableProps) {
  const [selected, setSelected] = useState<string | null>(null);
  const rows = useMemo(() => {
    const row = (step: TaskStep, time: string): GridRow => ({
      kind: 'row',
      id: step.code,
      cells: () => ({
        number: <span className="bw-second">{numberOf(step.id)}</span>,
        name: <span className="bw-step-name">{stepName(step)}</span>,
        role: step.role,
        slot: step.slot ?? '',
        time,
        minutes: step.minutes === undefined ? <span className="bw-second">not said</span> : showNumber(step.minutes),
      }),
    });
    return [
      ...schedule.spans.map(({ step, startMin, endMin }) => row(step, `${clockText(startMin)}–${clockText(endMin)}`)),
      ...schedule.aside.map((step) => row(step, contingencyWord(step))),
    ];
  }, [schedule, numberOf]);
  return (
    <div className="bw-outing-steps">
      <RowGrid
        label="Course as a table"
        columns={columns}
        rows={rows}
        selected={selected ?? rows[0]?.id ?? null}
        onSelect={setSelected}
        onOpen={(code) => goTo({ at: 'steps', step: code })}
        empty="No step goes out on this outing yet."
      />
    </div>
  );
}
