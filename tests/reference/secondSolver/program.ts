/** A linear program over whole and continuous numbers from 0 up, in no solver's own words. */

export type Term = [column: number, coefficient: number];

export interface Column {
  cost: number;
  upper: number;
  whole: boolean;
}

export interface Row {
  lower: number;
  upper: number;
  terms: Term[];
}

export class LinearProgram {
  readonly columns: Column[] = [];
  readonly rows: Row[] = [];

  column({ cost = 0, upper = Infinity, whole = true }: Partial<Column>): number {
    this.columns.push({ cost, upper, whole });
    return this.columns.length - 1;
  }

  row(lower: number, upper: number, terms: readonly Term[]): void {
    const summed = new Map<number, number>();
    for (const [column, coefficient] of terms) summed.set(column, (summed.get(column) ?? 0) + coefficient);
    this.rows.push({ lower, upper, terms: [...summed].filter(([, coefficient]) => coefficient !== 0) });
  }

  atLeast(lower: number, terms: readonly Term[]): void {
    this.row(lower, Infinity, terms);
  }

  atMost(upper: number, terms: readonly Term[]): void {
    this.row(-Infinity, upper, terms);
  }

  /** As HiGHS takes a model. */
  forHighs() {
    const starts = [0];
    const indices: number[] = [];
    const values: number[] = [];
    for (const { terms } of this.rows) {
      for (const [column, coefficient] of terms) {
        indices.push(column);
        values.push(coefficient);
      }
      starts.push(indices.length);
    }
    const [numCols, numRows] = [this.columns.length, this.rows.length];
    return {
      numCols,
      numRows,
      colCost: this.columns.map(({ cost }) => cost),
      colLower: this.columns.map(() => 0),
      colUpper: this.columns.map(({ upper }) => upper),
      rowLower: this.rows.map(({ lower }) => lower),
      rowUpper: this.rows.map(({ upper }) => upper),
      matrix: { format: 'csr' as const, numRows, numCols, starts, indices, values },
      integrality: this.columns.map(({ whole }) => (whole ? (1 as const) : (0 as const))),
    };
  }
}

const termsEachLine = 6;

/** Digits without an exponent, which not every reader of the format takes. */
function plain(value: number): string {
  const text = String(value);
  return text.includes('e')
    ? value.toLocaleString('en-US', { useGrouping: false, maximumSignificantDigits: 17 })
    : text;
}

function sumText(terms: readonly Term[]): string {
  const parts = terms.map(([column, coefficient]) => {
    const sign = coefficient < 0 ? '-' : '+';
    return `${sign} ${plain(Math.abs(coefficient))} c${column}`;
  });
  const lines: string[] = [];
  for (let at = 0; at < parts.length; at += termsEachLine) lines.push(parts.slice(at, at + termsEachLine).join(' '));
  return lines.join('\n ');
}

/** The program in the LP format, its columns named by number and first met in their order. */
export function lpText({ columns, rows }: LinearProgram): string {
  const all = columns.map(({ cost }, index): Term => [index, cost]);
  const lines = ['Minimize', ` cost: ${sumText(all)}`, 'Subject To'];
  let number = 0;
  for (const { lower, upper, terms } of rows) {
    const sum = terms.length === 0 ? '+ 0 c0' : sumText(terms);
    const bounds: [string, number][] =
      lower === upper
        ? [['=', lower]]
        : [
            ...(lower > -Infinity ? [['>=', lower] as [string, number]] : []),
            ...(upper < Infinity ? [['<=', upper] as [string, number]] : []),
          ];
    for (const [sign, bound] of bounds) {
      number += 1;
      lines.push(` r${number}: ${sum} ${sign} ${bound < 0 ? '-' : ''}${plain(Math.abs(bound))}`);
    }
  }
  lines.push('Bounds');
  for (const [index, { upper }] of columns.entries()) {
    lines.push(upper < Infinity ? ` 0 <= c${index} <= ${plain(upper)}` : ` c${index} >= 0`);
  }
  const whole = columns.flatMap((one, index) => (one.whole ? [`c${index}`] : []));
  if (whole.length > 0) lines.push('General', ...whole.map((name) => ` ${name}`));
  lines.push('End', '');
  return lines.join('\n');
}
