import { useMemo } from 'react';
import type { ReactNode } from 'react';
import { outingMinutes } from '../../engine/outing/planProblems.ts';
import type { ResolvedOuting, ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import { showBand, showLimit, showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { Judgements } from './judging.ts';
import { countOf } from './words.ts';

const minutesText = ({ minutes }: ResolvedStep): string => (minutes > 0 ? showNumber(minutes) : '');

const wide = (least: number, texts: string[]): string =>
  `calc(${Math.max(least, ...texts.map(({ length }) => length))}ch + 14px)`;

const columnsFor = ({ steps }: ResolvedPlan): GridColumn[] => [
  { key: 'number', label: 'No', width: wide(2, [String(steps.length)]), end: true },
  { key: 'name', label: 'Step and fastener', width: 'minmax(0, 1fr)' },
  { key: 'role', label: 'Role', width: '58px', wideOnly: true },
  { key: 'callout', label: 'Callout', width: '116px', wideOnly: true },
  { key: 'stack', label: 'Stack', width: '108px' },
  { key: 'minutes', label: 'min', width: wide(3, steps.map(minutesText)), end: true, wideOnly: true },
];

export interface StepTableProps {
  plan: ResolvedPlan;
  judgements: Judgements;
  units: UnitsShown;
  selected: string | null;
  onSelect: (id: string) => void;
  onOpen: () => void;
}

/** What the torque column says: the callout as written first, or what a loosening step must bear. */
function calloutText(plan: ResolvedPlan, index: number, mode: UnitsShown): string {
  const step = plan.source.steps[index];
  const once = mode === 'both' ? 'as-written' : mode;
  if (step?.callout !== undefined) return showBand(step.callout.min, step.callout.max, once);
  if (step?.demand !== undefined) return `up to ${showLimit(step.demand, 'minimum', once)}`;
  return '–';
}

/** Work adds every step up; the time out runs the roles of a slot beside each other, and is what the limit judges. */
function timeText(plan: ResolvedPlan, outing: ResolvedOuting, steps: ResolvedStep[]): string[] {
  const workMin = steps.reduce((sum, step) => sum + (step.contingency ? 0 : step.minutes), 0);
  if (workMin === 0) return [];
  const limit = outing.minutesMax === null ? '' : ` of ${showNumber(outing.minutesMax)}`;
  return [
    `${showNumber(workMin)}\u00a0min of work, ${showNumber(outingMinutes(plan, outing))}${limit}\u00a0min\u00a0out`,
  ];
}

function groupText(plan: ResolvedPlan, outing: ResolvedOuting, steps: ResolvedStep[]): string {
  const { id, name } = outing;
  const title = name === id ? `Outing ${id}` : name;
  return [title, countOf(steps.length, 'step'), ...timeText(plan, outing, steps)].join(' · ');
}

/** Steps by outing, in the plan's order within each. */
export function StepTable({ plan, judgements, units, selected, onSelect, onOpen }: StepTableProps) {
  const columns = useMemo(() => columnsFor(plan), [plan]);
  const rows = useMemo(() => {
    const numbered = plan.steps.map((step, index) => ({ step, index }));
    const cellsOf = (step: ResolvedStep, index: number): Record<string, ReactNode> => {
      const judged = judgements.get(step.id);
      const count = plan.source.steps[index]?.count;
      const times = count === undefined ? '' : `\u00a0×\u00a0${count}`;
      return {
        number: <span className="bw-second">{index + 1}</span>,
        name: (
          <div className="bw-step-name" title={step.name}>
            {step.name}{' '}
            {step.fastener === null ? null : (
              <span className="bw-second">
                {step.fastener.name}
                {times}
              </span>
            )}
            {step.contingency ? <span className="bw-second"> if it fails</span> : null}
          </div>
        ),
        role: step.role,
        callout: calloutText(plan, index, units),
        stack:
          judged === undefined ? <span className="bw-second">being judged</span> : <StateMark state={judged.state} />,
        minutes: <span className="bw-whole">{minutesText(step)}</span>,
      };
    };
    return plan.outings.flatMap((outing): GridRow[] => {
      const own = numbered.filter(({ step }) => step.outing === outing.id);
      const steps = own.map(({ step }) => step);
      const title = { key: 'title', span: columns.length, content: groupText(plan, outing, steps) };
      return [
        { kind: 'group', id: `outing ${outing.id}`, cells: [title] },
        ...own.map(({ step, index }): GridRow => ({ kind: 'row', id: step.id, cells: () => cellsOf(step, index) })),
      ];
    });
  }, [plan, units, judgements, columns]);

  return (
    <RowGrid
      label="Steps"
      columns={columns}
      rows={rows}
      selected={selected}
      onSelect={onSelect}
      onOpen={onOpen}
      empty="The steps appear here once the plan’s file has some."
    />
  );
}
