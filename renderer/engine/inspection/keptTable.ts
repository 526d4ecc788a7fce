import type { TypedRow } from '../../../shared-types/inspection.ts';

const quoted = (cell: string): string => `"${cell.replaceAll('"', '""')}"`;

/**
 * Rows kept one by one, as the table they would be: cells stand as typed, nothing is made harmless, for nothing opens it. It is delimited
 * by ";", so that a decimal comma that can be nothing else is read as one, whatever table a row once came from.
 *
 * @param columns - the header, in order
 * @returns the text, and the line on which each row begins
 */
export function keptTable(
  columns: readonly string[],
  rows: readonly Pick<TypedRow, 'cells'>[],
): { text: string; lines: number[] } {
  const parts = ['sep=;', columns.map(quoted).join(';')];
  const lines: number[] = [];
  let line = 3 + columns.reduce((sum, name) => sum + breaksIn(name), 0);
  for (const { cells } of rows) {
    lines.push(line);
    const texts = columns.map((name) => cells[name] ?? '');
    parts.push(texts.map(quoted).join(';'));
    line += 1 + texts.reduce((sum, text) => sum + breaksIn(text), 0);
  }
  return { text: `${parts.join('\n')}\n`, lines };
}

function breaksIn(text: string): number {
  return text.split(/\r\n?|\n/).length - 1;
}
