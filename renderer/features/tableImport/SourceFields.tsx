import { Button, NativeSelect, Textarea } from '@mantine/core';
import { useId, useState } from 'react';
import type { TableImportState } from './useTableImport.ts';

/** Files beyond this are refused before they are read. */
const fileMostBytes = 50 * 1024 * 1024;
const endings = '.csv,.tsv,.txt,.xlsx,.xlsm';

/** Where the rows come from: a file, or what was copied in a spreadsheet. */
export function SourceFields({ state }: { state: TableImportState }) {
  const [pasted, setPasted] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const faultId = useId();
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    setFault(null);
    if (file.size > fileMostBytes) {
      setFault(`${file.name} has ${file.size} bytes; at most ${fileMostBytes} are read.`);
      return;
    }
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      state.open({ kind: 'file', name: file.name, bytes });
    } catch (cause) {
      setFault(`${file.name} cannot be read: ${String(cause)}`);
    }
  };
  return (
    <div className="bw-table-sources">
      <div>
        <label className="bw-table-file">
          <span>A file: CSV or workbook (.xlsx)</span>
          <input
            type="file"
            accept={endings}
            aria-describedby={fault === null ? undefined : faultId}
            onChange={(event) => {
              void take(event.currentTarget.files?.[0]);
              // The same file mended meanwhile is a change too.
              event.currentTarget.value = '';
            }}
          />
        </label>
        {fault === null ? null : (
          <p id={faultId} role="alert" className="bw-table-fault">
            {fault}
          </p>
        )}
        <p className="bw-second">
          Formulas are never evaluated, links not followed. Dates where sizes belong, numbers without a unit and merged
          cells are refused by row and column, so that nothing is taken for what it is not.
        </p>
      </div>
      <div>
        <Textarea
          label="Or rows copied in a spreadsheet, pasted here"
          description="With their header, where they have one."
          rows={5}
          value={pasted}
          spellCheck={false}
          onChange={({ currentTarget }) => setPasted(currentTarget.value)}
        />
        <Button mt={8} disabled={pasted.trim() === ''} onClick={() => state.open({ kind: 'paste', text: pasted })}>
          Take the pasted rows
        </Button>
      </div>
    </div>
  );
}

/** Which part of the source is the table: a sheet, the row of its header, whether there is one. */
export function SourceChoice({ state }: { state: TableImportState }) {
  const { origin, choice, table } = state;
  if (origin === null) return null;
  if (origin.kind === 'paste')
    return (
      <label className="bw-table-check">
        <input
          type="checkbox"
          checked={choice.hasHeader}
          onChange={({ currentTarget }) => state.choose({ hasHeader: currentTarget.checked })}
        />
        The first row names the columns
      </label>
    );
  const sheets = table.kind === 'shown' ? table.shown.sheets : table.kind === 'refused' ? table.sheets : [];
  if (sheets.length === 0) return null;
  const rows = Array.from({ length: 20 }, (_, at) => String(at + 1));
  return (
    <>
      <NativeSelect
        label="Sheet"
        value={String(choice.sheet)}
        data={sheets.map(({ name, state: shown }, at) => ({
          value: String(at),
          label: shown === 'hidden' ? `${name} (hidden)` : name,
        }))}
        onChange={({ currentTarget }) => state.choose({ sheet: Number(currentTarget.value), headerRow: null })}
      />
      <NativeSelect
        label="Row of the header"
        value={choice.headerRow === null ? '' : String(choice.headerRow)}
        data={[{ value: '', label: 'first that is not blank' }, ...rows.map((row) => ({ value: row, label: row }))]}
        onChange={({ currentTarget }) =>
          state.choose({ headerRow: currentTarget.value === '' ? null : Number(currentTarget.value) })
        }
      />
    </>
  );
}
