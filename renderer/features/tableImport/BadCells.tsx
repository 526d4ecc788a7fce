import { useMemo, useState } from 'react';
import { Button } from '@mantine/core';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { Host } from '../../../shared-types/host.ts';
import { RowGrid, type GridColumn, type GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { badCellsFile, reasonText, valueText } from './badCells.ts';

export interface BadCellsProps {
  refusals: readonly Refusal[];
  /** All there are; more than `refusals` where those are only the first. */
  cells: number;
  rows: number;
  fileName: string;
  host: Host;
}

const columns: GridColumn[] = [
  { key: 'row', label: 'Row', width: '76px', end: true },
  { key: 'field', label: 'Column', width: 'minmax(96px, 0.6fr)' },
  { key: 'value', label: 'Given', width: 'minmax(110px, 0.8fr)' },
  { key: 'reason', label: 'Why it is not read', width: 'minmax(240px, 3fr)' },
];

/** Every cell that cannot be read, all at once. */
export function BadCells({ refusals, cells, rows, fileName, host }: BadCellsProps) {
  const [selected, setSelected] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const lines = useMemo(
    () =>
      refusals.map((refusal, index): GridRow => ({
        kind: 'row',
        id: String(index),
        cells: () => ({
          row: refusal.row ?? '',
          field: refusal.field === undefined ? 'whole row' : <span className="bw-code">{refusal.field}</span>,
          value: valueText(refusal),
          reason: reasonText(refusal),
        }),
      })),
    [refusals],
  );
  const save = (): void => {
    host.saveFile(badCellsFile(refusals, fileName)).then(
      (saved) => setSaid(saved ? 'Saved.' : 'Not saved.'),
      (error: unknown) => setSaid(error instanceof Error ? error.message : String(error)),
    );
  };
  return (
    <section className="bw-table-bad" aria-labelledby="table-import-bad">
      <div className="bw-table-head">
        <h3 id="table-import-bad">
          {cells} {cells === 1 ? 'cell' : 'cells'} to mend, in {rows} {rows === 1 ? 'row' : 'rows'}
          {cells > refusals.length ? `; the first ${refusals.length} are listed` : ''}
        </h3>
        <Button size="compact-sm" onClick={save}>
          Save this list…
        </Button>
        <span role="status">{said}</span>
      </div>
      <div className="bw-table-bad-grid" data-long={refusals.length > 8 || undefined}>
        <RowGrid
          label="Cells to mend"
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
