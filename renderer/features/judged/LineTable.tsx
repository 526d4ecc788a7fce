import { useMemo } from 'react';
import type { ClipboardEvent, KeyboardEvent, ReactNode } from 'react';
import type { JudgedLine, LineView } from '../../../shared-types/inspection.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { clipboardText } from '../../engine/sheet/csvText.ts';
import type { TypedRows } from './useTypedRows.ts';
import { findingsText } from './findingWords.ts';
import { lineStateWords } from './stateWords.tsx';

/** What a table of judged lines is given, whatever its lines are. */
export interface LineTableProps<Line> {
  lines: readonly Line[];
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
  /** What stands in the rows, where they are kept: copied as typed, so that a table takes them back. */
  typed?: TypedRows | undefined;
  empty: ReactNode;
}

interface Drawn<Line> {
  label: string;
  /** The columns drawn; decision and findings are among them. */
  heads: readonly GridColumn[];
  /** Keys of columns that nothing is sorted by. */
  unsorted?: ReadonlySet<string>;
  /** A line's cells by column; what it was found to be is told by itself. */
  cellsOf: (line: Line, units: UnitsShown) => Record<string, ReactNode>;
  /** What a copied line says before decision and findings, and the words above, where nothing typed is at hand. */
  copied: { heads: readonly string[]; cellsOf: (line: Line, units: UnitsShown) => readonly string[] };
}

/** How much was found that counts: notes do not. */
function foundText({ findings, accepted }: JudgedLine): string {
  return findingsText(findings.filter(({ severity }) => severity !== 'note').length, accepted);
}

const noneUnsorted: ReadonlySet<string> = new Set();

/** Judged lines in a grid: sorted by its heads, copied as a spreadsheet, and this table, takes them, pasted into, removed by Delete. */
export function LineTable<Line extends JudgedLine>(props: LineTableProps<Line> & Drawn<Line>) {
  const { label, heads, unsorted = noneUnsorted, cellsOf, copied, lines, places, units, view, empty } = props;
  const { onSort, selected, onSelect, onOpen, onEdit, onRemove, onPaste, chosen, onChoose, typed } = props;
  const columns = useMemo(
    () =>
      heads.map((head): GridColumn => {
        if (unsorted.has(head.key)) return head;
        return { ...head, sorted: view.sort !== head.key ? 'none' : view.down ? 'descending' : 'ascending' };
      }),
    [heads, unsorted, view.sort, view.down],
  );
  const shown = useMemo(
    () => (places === null ? lines : Array.from(places, (at) => lines[at]).filter((line) => line !== undefined)),
    [lines, places],
  );
  const rows = useMemo(
    () =>
      shown.map((line): GridRow => ({
        kind: 'row',
        id: line.key,
        cells: () => ({ ...cellsOf(line, units), findings: foundText(line) }),
      })),
    [shown, units, cellsOf],
  );
  const onCopy = (event: ClipboardEvent): void => {
    if (window.getSelection()?.isCollapsed === false) return;
    const wanted = shown.filter(({ key }) => (chosen.size > 0 ? chosen.has(key) : key === selected));
    if (wanted.length === 0) return;
    event.preventDefault();
    const said = (line: Line): string[] => [
      ...copied.cellsOf(line, units),
      ...[lineStateWords[line.state], foundText(line)],
    ];
    const block = wanted.map((line) => typed?.cellsOf(line.key) ?? said(line));
    const text = clipboardText([typed?.columns ?? [...copied.heads, 'Decision', 'Findings'], ...block]);
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
        label={label}
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
}
