import type { Refusal } from '../../../shared-types/errors.ts';
import { safeFileName } from '../../../shared-types/fileName.ts';
import type { FileToSave } from '../../../shared-types/host.ts';
import { csvText } from '../../engine/sheet/csvText.ts';

/** What was given, as a text. */
export function valueText({ value }: Refusal): string {
  return value === undefined ? '' : typeof value === 'string' ? value : (JSON.stringify(value) ?? '');
}

/** A refusal's reason without the column's name, which stands beside it. */
export function reasonText({ message, field }: Refusal): string {
  return field !== undefined && message.startsWith(`${field}: `) ? message.slice(field.length + 2) : message;
}

/** Every cell that could not be read, as a table to mend the file by; harmless in a spreadsheet. */
export function badCellsFile(refusals: readonly Refusal[], fileName: string): FileToSave {
  const rows = refusals.map((refusal) => [
    ...[refusal.row ?? null, refusal.field ?? null, valueText(refusal), reasonText(refusal)],
  ]);
  return {
    name: safeFileName(`${fileName.replace(/\.[^.]*$/, '')}_to_mend.csv`, 'to_mend.csv'),
    mediaType: 'text/csv',
    bytes: new TextEncoder().encode(`\uFEFF${csvText(['row', 'column', 'value', 'reason'], rows)}`),
  };
}
