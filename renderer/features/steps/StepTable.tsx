import { useMemo, useRef } from 'react';
import type { ReactNode } from 'react';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { Landing } from './moveSteps.ts';
import type { RowGroup, StepRow, StepState } from './stepRow.ts';
import { useRowDrag } from './useRowDrag.ts';
import type { DragRow } from './useRowDrag.ts';

const columnsFor = (numberWide: number, minutesWide: number): GridColumn[] => [
  { key: 'number', label: 'No', width: `calc(${Math.max(2, numberWide)}ch + 26px)`, end: true },
  { key: 'name', label: 'Step and fastener', width: 'minmax(0, 1fr)' },
  { key: 'role', label: 'Role', width: '58px', wideOnly: true },
  { key: 'callout', label: 'Callout', width: '116px', wideOnly: true },
  { key: 'stack', label: 'Stack', width: '108px' },
  { key: 'minutes', label: 'min, turns', width: `max(58px, ${minutesWide}ch + 14px)`, end: true, wideOnly: true },
];

export interface StepTableProps {
  groups: readonly RowGroup[];
  /** Asked for the rows that are drawn alone. */
  rowOf: (code: string) => StepRow | null;
  /** Longest texts of the two columns of figures, in characters. */
  numberWide: number;
  minutesWide: number;
  selected: string | null;
  onSelect: (code: string) => void;
  onOpen: () => void;
  /** Codes of the steps chosen together. */
  chosen: ReadonlySet<string>;
  onChoose: (chosen: ReadonlySet<string>) => void;
  /** A table that was pasted into the list. */
  onPaste: (text: string) => void;
  /** A row that a pointer dragged, by its code; where it lands, by code too. */
  onDrop: (code: string, landing: Landing) => void;
  empty: ReactNode;
}

/** A state as its mark; what is still wanted stands with it. */
function StateCell({ state }: { state: StepState }) {
  if (state.kind === 'judging') return <span className="bw-second">being judged</span>;
  if (state.kind === 'judged')
    return <StateMark state={state.otherWay && state.state === 'reached' ? 'other-way' : state.state} />;
  const [first] = state.needs;
  return (
    <span title={state.needs.map(({ reason }) => reason).join('; ')} className="bw-step-needs">
      <StateMark state="not-complete" text={`Not complete${first === undefined ? '' : `: ${first.short}`}`} />
    </span>
  );
}

function cellsOf(row: StepRow): Record<string, ReactNode> {
  return {
    number: (
      <span className="bw-second bw-step-number">
        <span
          className="bw-step-grip"
          aria-hidden="true"
          title="Drag the row to move it; Alt with ↑ and ↓ moves it too"
        />
        {row.number}
      </span>
    ),
    name: (
      <div className="bw-step-name" title={row.name} data-depth={row.depth > 0 ? Math.min(row.depth, 3) : undefined}>
        {row.onlyIf === null ? null : <b className="bw-step-if">{row.onlyIf}: </b>}
        <bdi>{row.name}</bdi> {row.second === '' ? null : <span className="bw-second">{row.second}</span>}
      </div>
    ),
    role: row.role,
    callout: row.callout,
    stack: <StateCell state={row.state} />,
    minutes: (
      <span className="bw-step-time">
        {row.minutes === '' ? null : <span className="bw-whole">{row.minutes}</span>}
        {row.turns === '' ? null : <span className="bw-whole bw-second bw-small">{row.turns} turns</span>}
      </span>
    ),
  };
}

/** Steps by outing, in the task's order within each. */
export function StepTable(props: StepTableProps) {
  const {
    groups,
    rowOf,
    numberWide,
    minutesWide,
    selected,
    onSelect,
    onOpen,
    chosen,
    onChoose,
    onDrop,
    onPaste,
    empty,
  } = props;
  const frame = useRef<HTMLDivElement>(null);
  const columns = useMemo(() => columnsFor(numberWide, minutesWide), [numberWide, minutesWide]);
  const rows = useMemo(
    () =>
      groups.flatMap(({ id, title, codes }): GridRow[] => [
        { kind: 'group', id: `outing ${id}`, cells: [{ key: 'title', span: columns.length, content: title }] },
        ...codes.map((code): GridRow => ({
          kind: 'row',
          id: code,
          cells: () => {
            const row = rowOf(code);
            return row === null ? {} : cellsOf(row);
          },
        })),
      ]),
    [groups, rowOf, columns],
  );
  const dragRows = useMemo(
    () =>
      groups.flatMap(({ id, codes }): DragRow[] => [
        { kind: 'group', key: id },
        ...codes.map((code): DragRow => ({ kind: 'row', key: code })),
      ]),
    [groups],
  );
  const drag = useRowDrag({ rows: dragRows, frame, onDrop });
  return (
    <div
      ref={frame}
      role="presentation"
      className="bw-step-list"
      data-dragging={drag.dragged !== null || undefined}
      onPointerDown={drag.onPointerDown}
      onPaste={(event) => {
        const text = event.clipboardData.getData('text/plain');
        if (text.trim() === '') return;
        event.preventDefault();
        onPaste(text);
      }}
    >
      <RowGrid
        label="Steps"
        columns={columns}
        rows={rows}
        selected={selected}
        onSelect={onSelect}
        onOpen={onOpen}
        chosen={chosen}
        onChoose={onChoose}
        empty={empty}
      />
      {drag.mark === null ? null : <div className="bw-step-landing" style={drag.mark} />}
    </div>
  );
}
