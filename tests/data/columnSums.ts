/** Sums in decimal, so that a column's printed total is met to the last digit and never by binary luck. */

interface Decimal {
  units: bigint;
  places: number;
}

function decimalOf(value: number): Decimal {
  const [, sign = '', whole = '', fraction = '', exponent = '0'] =
    /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value)) ?? [];
  const places = fraction.length - Number(exponent);
  const units = BigInt(`${sign}${whole}${fraction}`);
  return places >= 0 ? { units, places } : { units: units * 10n ** BigInt(-places), places: 0 };
}

function plus(a: Decimal, b: Decimal): Decimal {
  const places = Math.max(a.places, b.places);
  return {
    units: a.units * 10n ** BigInt(places - a.places) + b.units * 10n ** BigInt(places - b.places),
    places,
  };
}

export function decimalSum(values: readonly number[]): number {
  const { units, places } = values.map(decimalOf).reduce(plus, { units: 0n, places: 0 });
  return Number(`${units}e-${places}`);
}

/** Every numeric column of some rows with its sum; a cell that is a list counts with each of its numbers. */
export function columnSumsOf(rows: readonly object[]): Record<string, number> {
  const columns = new Map<string, number[]>();
  for (const row of rows) {
    for (const [column, cell] of Object.entries(row)) {
      const numbers = (Array.isArray(cell) ? cell : [cell]).filter((n): n is number => typeof n === 'number');
      if (numbers.length > 0) columns.set(column, [...(columns.get(column) ?? []), ...numbers]);
    }
  }
  return Object.fromEntries([...columns].map(([column, values]) => [column, decimalSum(values)]));
}

/** What a table's count and sums say against its rows; nothing where they agree. */
export function transcriptionFaults(table: {
  rowCount: number;
  columnSums: Record<string, number>;
  rows: readonly object[];
}): string[] {
  const faults: string[] = [];
  if (table.rows.length !== table.rowCount) faults.push(`${table.rows.length} rows, ${table.rowCount} stated`);
  const sums = columnSumsOf(table.rows);
  for (const column of new Set([...Object.keys(sums), ...Object.keys(table.columnSums)])) {
    if (sums[column] !== table.columnSums[column]) {
      faults.push(`${column} sums to ${sums[column]}, ${table.columnSums[column]} stated`);
    }
  }
  return faults;
}
