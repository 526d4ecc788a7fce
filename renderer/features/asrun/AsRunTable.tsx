import { memo, useMemo } from 'react';
import type { ReactNode } from 'react';
import { useMediaQuery } from '@mantine/hooks';
import type { AsRunLine } from '../../../shared-types/inspection.ts';
import type { GridColumn } from '../../components/RowGrid/RowGrid.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { oneUnit } from '../callouts/torqueWords.ts';
import { LineTable } from '../judged/LineTable.tsx';
import type { LineTableProps } from '../judged/LineTable.tsx';
import { RecordMark } from './RecordMark.tsx';
import { typedTorque } from './recordWords.ts';

const heads: readonly GridColumn[] = [
  { key: 'id', label: 'Callout', width: 'minmax(84px, 1.3fr)' },
  { key: 'place', label: 'Position', width: '74px' },
  { key: 'cycle', label: 'Cycle', width: '56px', end: true },
  { key: 'torque', label: 'Final', width: 'minmax(84px, 104px)', end: true },
  { key: 'running', label: 'Running', width: '92px', end: true, wideOnly: true },
  { key: 'breakaway', label: 'Breakaway', width: '98px', end: true, wideOnly: true },
  { key: 'serial', label: 'Serial', width: 'minmax(64px, 92px)', wideOnly: true },
  { key: 'state', label: 'Decision', width: 'minmax(196px, 210px)' },
  { key: 'findings', label: 'Findings', width: '76px', end: true },
];

function cellsOf(line: AsRunLine, units: UnitsShown): Record<string, ReactNode> {
  const cell = (text: string): ReactNode => (
    <span className="bw-callout-cell" title={text}>
      {text === '' ? '–' : text}
    </span>
  );
  const torque = (text: string): ReactNode => cell(typedTorque(text, oneUnit(units)));
  return {
    id: <b>{cell(line.callout)}</b>,
    place: cell(line.position),
    cycle: cell(line.pass === '' ? line.cycle : `${line.cycle}, ${line.pass}`),
    torque: torque(line.final),
    running: torque(line.running),
    breakaway: torque(line.breakaway),
    serial: cell(line.serial),
    state: <RecordMark line={line} />,
  };
}

/** As typed, so that a table can take it back. */
const copied = {
  heads: ['Callout', 'Position', 'Cycle', 'Pass', 'Final', 'Running', 'Breakaway', 'Serial', 'Time'],
  cellsOf: (line: AsRunLine): string[] => [
    ...[line.callout, line.position, line.cycle, line.pass, line.final, line.running, line.breakaway],
    ...[line.serial, line.time],
  ],
};

/** The records, a line for each. Drawn again only when they change. */
export const AsRunTable = memo(function AsRunTable(props: LineTableProps<AsRunLine>) {
  const { lines } = props;
  const isWide = useMediaQuery('(min-width: 1500px)', true, { getInitialValueInEffect: false });
  // A column that no record has anything for is not drawn, nor one that there is no room for.
  const drawn = useMemo(() => {
    const has = (of: 'running' | 'breakaway' | 'serial'): boolean => isWide && lines.some((line) => line[of] !== '');
    const held = { running: has('running'), breakaway: has('breakaway'), serial: has('serial') };
    return heads.filter(({ key }) => held[key as keyof typeof held] !== false);
  }, [lines, isWide]);
  return <LineTable {...props} label="Records" heads={drawn} cellsOf={cellsOf} copied={copied} />;
});
