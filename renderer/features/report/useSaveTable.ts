import { useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import { tableFile } from './tableFile.ts';
import type { TableForm } from './tableFile.ts';

type Table = Omit<Parameters<typeof tableFile>[0], 'name' | 'form'>;

/** A table on its way into a file: in which form, and what came of it, in words. */
export function useSaveTable(x: {
  host: Host;
  name: string;
  /** Its rows, counted: "3 steps". */
  counted: (rows: number) => string;
  table: () => Table | Promise<Table>;
}) {
  const { host, name, counted, table } = x;
  const [form, setForm] = useState<TableForm>('xlsx');
  const [said, setSaid] = useState('');
  const save = async (): Promise<void> => {
    setSaid('Writing the file…');
    try {
      const written = await table();
      const saved = await host.saveFile(tableFile({ name, form, ...written }));
      setSaid(saved ? `Saved ${counted(written.rows.length)}.` : 'Not saved.');
    } catch (error) {
      setSaid(`Not saved: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  return { form, setForm, said, save };
}
