import { useMemo, useState } from 'react';
import { RowGrid, type GridColumn, type GridRow } from '../../components/RowGrid/RowGrid.tsx';
import type { KeptRow, ReadyRow } from '../../engine/tableImport/index.ts';

export interface ChangedCellsProps {
  ready: readonly ReadyRow[];
  kept: readonly KeptRow[];
  /** What tells a kept row from every other, as the rows of the file have it. */
  keyOf: (cells: Readonly<Record<string, string>>) => string;
}

interface Change {
  row: number;
  key: string;
  column: string;
  before: string;
  after: string;
}

const columns: GridColumn[] = [
  { key: 'row', label: 'Row', width: '64px', end: true },
  { key: 'key', label: 'Which', width: 'minmax(120px, 1fr)' },
  { key: 'column', label: 'Column', width: 'minmax(96px, 0.7fr)' },
  { key: 'before', label: 'Before', width: 'minmax(110px, 1fr)' },
  { key: 'after', label: 'After', width: 'minmax(110px, 1fr)' },
];

/** What a file would change in what is kept, field by field. */
export function ChangedCells({ ready, kept, keyOf }: ChangedCellsProps) {
  const [selected, setSelected] = useState<string | null>(null);
  const changes = useMemo(() => changesOf({ ready, kept, keyOf }), [ready, kept, keyOf]);
  const lines = useMemo(
    () =>
      changes.map(({ row, key, column, before, after }, index): GridRow => ({
        kind: 'row',
        id: String(index),
        cells: () => ({
          row,
          key,
          column: <span className="bw-code">{column}</span>,
          before: before === '' ? <span className="bw-second">empty</span> : before,
          after: after === '' ? <span className="bw-second">empty</span> : after,
        }),
      })),
    [changes],
  );
  return (
    <section className="bw-table-bad" aria-labelledby="table-import-changes">
      <h3 id="table-import-changes">
        {changes.length} {changes.length === 1 ? 'cell' : 'cells'} to change
      </h3>
      <div className="bw-table-bad-grid" data-long={changes.length > 8 || undefined}>
        <RowGrid
          label="Cells to change"
          columns={columns}
          rows={lines}
          selected={selected}
          onSelect={setSelected}
          empty={null}
        />
      </div>
    </section>
  );
}

function changesOf({ ready, kept, keyOf }: ChangedCellsProps): Change[] {
  const changed = new Map(ready.flatMap((row) => (row.outcome === 'change' ? [[row.key, row] as const] : [])));
  const changes: Change[] = [];
  for (const { cells } of kept) {
    const key = keyOf(cells);
    const row = changed.get(key);
    if (row === undefined) continue;
    for (const column of new Set([...Object.keys(cells), ...Object.keys(row.cells)])) {
      const before = (cells[column] ?? '').trim();
      const after = (row.cells[column] ?? '').trim();
      if (before !== after) changes.push({ row: row.row, key, column, before, after });
    }
  }
  return changes.toSorted((a, b) => a.row - b.row);
}
