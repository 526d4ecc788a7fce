import { memo, useMemo } from 'react';
import type { ReactNode } from 'react';
import type { CalloutLine } from '../../../shared-types/inspection.ts';
import type { GridColumn } from '../../components/RowGrid/RowGrid.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { LineTable } from '../judged/LineTable.tsx';
import type { LineTableProps } from '../judged/LineTable.tsx';
import { BandBar } from './BandBar.tsx';
import { bandWords, oneUnit } from './torqueWords.ts';

const heads: readonly GridColumn[] = [
  { key: 'id', label: 'Callout', width: 'minmax(56px, 1fr)' },
  { key: 'thread', label: 'Thread', width: 'minmax(64px, 1.2fr)' },
  { key: 'torque', label: 'Torque', width: '132px', end: true },
  { key: 'tool', label: 'Tool in the aim', width: '120px', wideOnly: true },
  { key: 'state', label: 'Decision', width: '136px' },
  { key: 'findings', label: 'Findings', width: '88px', end: true },
];
const unsorted = new Set(['tool']);

function torqueText({ band }: CalloutLine, units: UnitsShown): string {
  return bandWords(band, oneUnit(units));
}

function cellsOf(line: CalloutLine, units: UnitsShown): Record<string, ReactNode> {
  const { id, thread, tool, state } = line;
  const torque = torqueText(line, units);
  return {
    id: (
      <b className="bw-callout-cell" title={id}>
        {id === '' ? '–' : id}
      </b>
    ),
    thread: (
      <span className="bw-callout-cell" title={thread}>
        {thread}
      </span>
    ),
    torque: (
      <span className="bw-callout-cell" title={torque}>
        {torque}
      </span>
    ),
    tool:
      tool === null ? (
        <span className="bw-second">no tool</span>
      ) : (
        <BandBar
          box={{ min: tool.aimMin, max: tool.aimMax }}
          bar={{ min: tool.from, max: tool.to }}
          said="What the tool applies against where it must lie"
        />
      ),
    state: <StateMark state={state} />,
  };
}

const copied = {
  heads: ['Callout', 'Thread', 'Torque'],
  cellsOf: (line: CalloutLine, units: UnitsShown): string[] => [line.id, line.thread, torqueText(line, units)],
};

/** The callouts, a line for each. Drawn again only when they change. */
export const CalloutTable = memo(function CalloutTable(props: LineTableProps<CalloutLine>) {
  const { lines } = props;
  // A column that no callout has anything for is not drawn.
  const hasTools = useMemo(() => lines.some(({ tool }) => tool !== null), [lines]);
  const drawn = useMemo(() => heads.filter(({ key }) => key !== 'tool' || hasTools), [hasTools]);
  return <LineTable {...props} label="Callouts" heads={drawn} unsorted={unsorted} cellsOf={cellsOf} copied={copied} />;
});
