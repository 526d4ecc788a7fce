import { memo, useMemo } from 'react';
import type { ClipboardEvent, KeyboardEvent, ReactNode } from 'react';
import type { CalloutLine, LineView } from '../../../shared-types/inspection.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { BandBar } from './BandBar.tsx';
import { findingsText } from '../judged/findingWords.ts';
import { lineStateWords } from '../judged/stateWords.tsx';
import { bandWords, oneUnit } from './torqueWords.ts';

export interface CalloutTableProps {
  lines: readonly CalloutLine[];
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

function countOf({ findings }: CalloutLine): number {
  return findings.filter(({ severity }) => severity !== 'note').length;
}

function cellsOf(line: CalloutLine, units: UnitsShown): Record<string, ReactNode> {
  const { id, thread, tool, state, accepted } = line;
  const torque = torqueText(line, units);
  const count = countOf(line);
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
    findings: findingsText(count, accepted),
  };
}

/** The callouts, a line for each. Drawn again only when they change. */
export const CalloutTable = memo(function CalloutTable(props: CalloutTableProps) {
  const { lines, places, units, view, onSort, selected, onSelect, onOpen, onEdit, empty } = props;
  const { onRemove, onPaste, chosen, onChoose } = props;
  // A column that no callout has anything for is not drawn.
  const hasTools = useMemo(() => lines.some(({ tool }) => tool !== null), [lines]);
  const columns = useMemo(
    () =>
      heads
        .filter(({ key }) => key !== 'tool' || hasTools)
        .map((head): GridColumn => {
          if (unsorted.has(head.key)) return head;
          return { ...head, sorted: view.sort !== head.key ? 'none' : view.down ? 'descending' : 'ascending' };
        }),
    [view.sort, view.down, hasTools],
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
      line.id,
      line.thread,
      torqueText(line, units),
      lineStateWords[line.state],
      findingsText(countOf(line), line.accepted),
    ]);
    const text = [['Callout', 'Thread', 'Torque', 'Decision', 'Findings'], ...said]
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
        label="Callouts"
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
