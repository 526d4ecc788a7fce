import { memo, useMemo } from 'react';
import type { ReactNode } from 'react';
import { useMediaQuery } from '@mantine/hooks';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { findingText, markOf } from '../judged/findingWords.ts';
import type { FoundLine } from './openFindings.ts';

export interface FindingTableProps {
  lines: readonly FoundLine[];
  units: UnitsShown;
  selected: string | null;
  onSelect: (key: string) => void;
  onOpen: (key: string) => void;
  chosen: ReadonlySet<string>;
  onChoose: (chosen: ReadonlySet<string>) => void;
  empty: ReactNode;
}

const columns: GridColumn[] = [
  { key: 'state', label: 'Finding', width: '172px' },
  { key: 'of', label: 'Of', width: 'minmax(130px, 1.2fr)' },
  { key: 'rule', label: 'Rule', width: 'minmax(180px, 1fr)', wideOnly: true },
  { key: 'said', label: 'What was found', width: 'minmax(140px, 2fr)' },
  { key: 'accepted', label: 'Accepted by', width: 'minmax(84px, 110px)' },
];

function FindingMark({ line }: { line: FoundLine }) {
  const { finding } = line;
  if (finding === null) return <StateMark state="unreadable" />;
  if (finding.rule === 'tool-found-out' && line.accepted === null)
    return <StateMark state="indeterminate" text="Re-opened" />;
  return <StateMark state={markOf(finding)} />;
}

function cellsOf(line: FoundLine, units: UnitsShown): Record<string, ReactNode> {
  const message = findingText(line.message, units);
  return {
    state: <FindingMark line={line} />,
    of: (
      <span title={`${line.id}, ${line.list.name}`}>
        <b>{line.id}</b>
      </span>
    ),
    rule: <code className="bw-code">{line.finding?.rule ?? ''}</code>,
    said: <span title={message}>{message}</span>,
    accepted: line.accepted === null ? '–' : line.accepted.person,
  };
}

/** What was found, a line for each. Drawn again only when it changes. */
export const FindingTable = memo(function FindingTable(props: FindingTableProps) {
  const { lines, units, selected, onSelect, onOpen, chosen, onChoose, empty } = props;
  const rows = useMemo(
    () => lines.map((line): GridRow => ({ kind: 'row', id: line.key, cells: () => cellsOf(line, units) })),
    [lines, units],
  );
  const isWide = useMediaQuery('(min-width: 1500px)', true, { getInitialValueInEffect: false });
  const shown = useMemo(() => columns.filter(({ key }) => isWide || key !== 'rule'), [isWide]);
  return (
    <div className="bw-callouts-table">
      <RowGrid
        label="Findings"
        columns={shown}
        rows={rows}
        selected={selected}
        onSelect={onSelect}
        onOpen={onOpen}
        chosen={chosen}
        onChoose={onChoose}
        rowHeightPx={34}
        empty={empty}
      />
    </div>
  );
});
