import { memo, useMemo } from 'react';
import type { ClipboardEvent, KeyboardEvent, ReactNode } from 'react';
import type { AsRunLine, LineView } from '../../../shared-types/inspection.ts';
import { useMediaQuery } from '@mantine/hooks';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { lineStateWords } from '../judged/stateWords.tsx';
import { oneUnit } from '../callouts/torqueWords.ts';
import { findingsText } from '../judged/findingWords.ts';
import { RecordMark } from './RecordMark.tsx';
import { typedTorque } from './recordWords.ts';

export interface AsRunTableProps {
  lines: readonly AsRunLine[];
  /** Places of the lines shown, in order; null for all of them as they stand. */
  places: Uint32Array | null;
  units: UnitsShown;
  view: LineView;
  onSort: (key: string) => void;
  selected: string | null;
  onSelect: (key: string) => void;
  onOpen: (key: string) => void;
  onEdit: (key: string) => void;
  onRemove: () => void;
  onPaste: (text: string) => void;
  chosen: ReadonlySet<string>;
  onChoose: ((chosen: ReadonlySet<string>) => void) | undefined;
  empty: ReactNode;
}

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

function openCount({ findings }: AsRunLine): number {
  return findings.filter(({ severity }) => severity !== 'note').length;
}

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
    findings: findingsText(openCount(line), line.accepted),
  };
}

/** The records, a line for each. Drawn again only when they change. */
export const AsRunTable = memo(function AsRunTable(props: AsRunTableProps) {
  const { lines, places, units, view, onSort, selected, onSelect, onOpen, onEdit, empty } = props;
  const { onRemove, onPaste, chosen, onChoose } = props;
  const isWide = useMediaQuery('(min-width: 1500px)', true, { getInitialValueInEffect: false });
  // A column that no record has anything for is not drawn, nor one that there is no room for.
  const held = useMemo(() => {
    const has = (of: 'running' | 'breakaway' | 'serial'): boolean => lines.some((line) => line[of] !== '');
    return {
      running: isWide && has('running'),
      breakaway: isWide && has('breakaway'),
      serial: isWide && has('serial'),
    };
  }, [lines, isWide]);
  const columns = useMemo(
    () =>
      heads
        .filter(({ key }) => held[key as keyof typeof held] !== false)
        .map((head): GridColumn => ({
          ...head,
          sorted: view.sort !== head.key ? 'none' : view.down ? 'descending' : 'ascending',
        })),
    [view.sort, view.down, held],
  );
  const shown = useMemo(
    () => (places === null ? lines : Array.from(places, (at) => lines[at]).filter((line) => line !== undefined)),
    [lines, places],
  );
  const rows = useMemo(
    () => shown.map((line): GridRow => ({ kind: 'row', id: line.key, cells: () => cellsOf(line, units) })),
    [shown, units],
  );
  const onCopy = (event: ClipboardEvent): void => {
    if (window.getSelection()?.isCollapsed === false) return;
    const wanted = shown.filter(({ key }) => (chosen.size > 0 ? chosen.has(key) : key === selected));
    if (wanted.length === 0) return;
    event.preventDefault();
    const said = wanted.map((line) => [
      line.callout,
      line.position,
      line.cycle,
      line.pass,
      line.final,
      line.running,
      line.breakaway,
      line.serial,
      line.time,
      lineStateWords[line.state],
      findingsText(openCount(line), line.accepted),
    ]);
    const text = [
      [
        'Callout',
        'Position',
        'Cycle',
        'Pass',
        'Final',
        'Running',
        'Breakaway',
        'Serial',
        'Time',
        'Decision',
        'Findings',
      ],
      ...said,
    ]
      .map((cells) => cells.map((cell) => cell.replaceAll(/[\t\r\n]+/g, ' ')).join('\t'))
      .join('\n');
    event.clipboardData.setData('text/plain', text);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Delete' || selected === null) return;
    event.preventDefault();
    onRemove();
  };
  return (
    <div
      className="bw-callouts-table"
      role="presentation"
      onCopy={onCopy}
      onPaste={(event) => onPaste(event.clipboardData.getData('text/plain'))}
      onKeyDown={onKeyDown}
    >
      <RowGrid
        label="Records"
        columns={columns}
        rows={rows}
        selected={selected}
        onSelect={onSelect}
        onOpen={onOpen}
        onEdit={onEdit}
        onSort={onSort}
        chosen={chosen}
        {...(onChoose === undefined ? {} : { onChoose })}
        rowHeightPx={34}
        empty={empty}
      />
    </div>
  );
});
