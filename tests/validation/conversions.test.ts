/**
 * Conversions against print, through the headless command `convert`, which is asked once for each file. Printed numbers are held to
 * half of their last digit; factors that are exact, or that we evaluated from the exact definitions, to 1e-12.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { toldEach } from '../electron/headless/inProcess.ts';
import { fault, numberOf, printed } from './values/printed.ts';

interface Row {
  quantity: string;
  from: string;
  to: string;
  printed: string;
  exactAsPrinted?: boolean;
  /** Evaluated from the exact definitions; no print. */
  exact?: string;
}

interface Line {
  exit: number;
  result?: { value: number; kind: string };
  error?: { code: string };
}

const files: { name: string; rows: number }[] = [
  { name: 'conversions-nist-sp811', rows: 14 },
  { name: 'conversions-gnu-units', rows: 11 },
  { name: 'conversions-army-lbf-in', rows: 8 },
  { name: 'conversions-army-lbf-ft', rows: 14 },
  { name: 'conversions-army-table-f1', rows: 10 },
  { name: 'conversions-army-length', rows: 4 },
];

/** Units of the sources that the program does not speak: it has to say so, not guess. */
const unspoken = new Set(['dyn*cm', 'ozf', 'mil', 'lbf/in', 'bar', 'slug']);

describe.each(files)('$name', ({ name, rows: count }) => {
  const { source, obtained, rows } = printed<Row>(name);
  let lines: Line[] = [];

  beforeAll(async () => {
    lines = await toldEach(
      'convert',
      rows.map(({ quantity, from, to }) => [`${quantity} ${from}`, to]),
    );
  });

  it(`has ${count} rows of ${source.number}, ${source.table} (${obtained})`, () => {
    expect(rows).toHaveLength(count);
    expect(lines).toHaveLength(count);
  });

  it.each(rows.map((row, index) => ({ ...row, index })))('$quantity $from is $printed $to', (row) => {
    const line = lines[row.index];
    if (unspoken.has(row.from)) {
      expect(line).toMatchObject({ exit: 2, error: { code: 'unknown-unit' } });
      return;
    }
    const value = line?.result?.value ?? Number.NaN;
    expect(fault(value, row.printed)).toBeNull();
    if (row.exact !== undefined) expect(Math.abs(value / Number(row.exact) - 1)).toBeLessThanOrEqual(1e-12);
    if (row.exactAsPrinted === true) expect(Math.abs(value / numberOf(row.printed) - 1)).toBeLessThanOrEqual(1e-12);
  });
});
