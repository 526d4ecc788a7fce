import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allTables, tableByKey } from '../../renderer/engine/handbook/index.ts';
import { rowSchemas, tableSchema, type TableKey } from '../../shared-types/handbook.ts';
import { columnSumsOf, decimalSum, transcriptionFaults } from './columnSums.ts';

const folder = new URL('../../data/handbook/', import.meta.url);
const files = readdirSync(folder).toSorted();
const keys = Object.keys(rowSchemas) as TableKey[];
const sources = readFileSync(new URL('../../data/SOURCES.md', import.meta.url), 'utf8');

function read(file: string): unknown {
  return JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
}

/** Fields that are a reader's own arithmetic or numbering, and were never on the page. */
const ownField = /^(recomputed_|formula_|implied_|check_)|^id$/;

it('has one file for every key, and one row schema for every file', () => {
  expect(files).toEqual(keys.map((key) => `${key}.json`).toSorted());
});

it('lists every table once in the engine, as the file has it', () => {
  expect(allTables.map((table) => table.key).toSorted()).toEqual(keys.toSorted());
  for (const key of keys) expect(tableByKey(key)).toEqual(read(`${key}.json`));
});

describe.each(keys)('%s', (key) => {
  const table = tableByKey(key);

  it('has the shape of its table, source fields filled in, and no field the page does not print', () => {
    const checked = tableSchema(rowSchemas[key]).safeParse(table);
    expect(checked.error?.issues ?? []).toEqual([]);
    const fields = new Set(table.rows.flatMap((row) => Object.keys(row)));
    expect([...fields].filter((field) => ownField.test(field))).toEqual([]);
  });

  it('states the tolerance of its torques where its notes do, and only there', () => {
    const stated = /[Tt]olerance (\d+) %/.exec(table.notes)?.[1];
    const isTorque = table.topic === 'torque tables';
    expect(table.tolerancePercent).toBe(isTorque && stated !== undefined ? Number(stated) : undefined);
  });

  it('is named for its key', () => {
    expect(table.key).toBe(key);
  });

  it('has the rows and the column sums it states', () => {
    expect(transcriptionFaults(table)).toEqual([]);
  });

  it('repeats no row', () => {
    const rows = table.rows.map((row) => JSON.stringify(row));
    expect(new Set(rows).size).toBe(rows.length);
  });

  it('keeps every minimum at or below its maximum', () => {
    const inverted = (table.rows as Record<string, unknown>[]).flatMap((row) =>
      Object.entries(row).filter(([field, min]) => {
        const max = field.includes('min') ? row[field.replace('min', 'max')] : undefined;
        return typeof min === 'number' && typeof max === 'number' && min > max;
      }),
    );
    expect(inverted).toEqual([]);
  });

  it('stands in SOURCES.md with how it was obtained', () => {
    const line = sources.split('\n').find((text) => text.startsWith(`| \`${key}\` |`));
    expect(line).toContain(table.source.number);
    expect(line).toContain(`| ${table.obtained} |`);
    expect(line).toContain(`| ${table.confidence} |`);
  });
});

describe('a slip of the pen', () => {
  it('is caught wherever one digit of one cell of any table is another', () => {
    let planted = 0;
    for (const table of allTables) {
      table.rows.forEach((row, index) => {
        for (const [field, cell] of Object.entries(row)) {
          if (typeof cell !== 'number') continue;
          const slipped = structuredClone({ ...table, rows: [...table.rows] as object[] });
          slipped.rows[index] = { ...row, [field]: slip(cell) };
          expect(transcriptionFaults(slipped)).toEqual([expect.stringContaining(field)]);
          planted += 1;
        }
      });
    }
    expect(planted).toBeGreaterThan(1900);
  });

  it('is caught where a row is lost or a list loses a number', () => {
    const nuts = tableByKey('hex-nut-iso-4032');
    expect(transcriptionFaults({ ...nuts, rows: nuts.rows.slice(1) })).toContain('19 rows, 20 stated');
    const rows = structuredClone(tableByKey('nominal-sockets').rows);
    rows[0]?.sizes_mm?.pop();
    expect(transcriptionFaults({ ...tableByKey('nominal-sockets'), rows })).toEqual([
      'sizes_mm sums to 1069, 1083 stated',
    ]);
  });

  it('is caught where a cell is no number any more', () => {
    const schema = tableSchema(rowSchemas['torque-nasa-small']);
    const table = structuredClone(tableByKey('torque-nasa-small'));
    const spoilt = { ...table, rows: table.rows.map((row) => ({ ...row, a286_torque_max_ozf_in: '52' })) };
    expect(schema.safeParse(table).success).toBe(true);
    expect(schema.safeParse(spoilt).success).toBe(false);
    expect(schema.safeParse({ ...table, rows: table.rows.map((row) => ({ ...row, implied_K: 0.2 })) }).success).toBe(
      false,
    );
    expect(schema.safeParse({ ...table, source: { ...table.source, number: '' } }).success).toBe(false);
    expect(schema.safeParse({ ...table, obtained: 'computed here' }).success).toBe(false);
  });
});

it('sums in decimal: ten times 0.1 is 1, and 0.1 + 0.2 is 0.3', () => {
  expect(decimalSum(Array.from({ length: 10 }, () => 0.1))).toBe(1);
  expect(decimalSum([0.1, 0.2])).toBe(0.3);
  expect(decimalSum([-0.0625, 0.05, 1e-7])).toBe(-0.0124999);
  expect(
    columnSumsOf([
      { a: 0.1, b: null, c: [1, 2] },
      { a: 0.2, b: 'x' },
    ]),
  ).toEqual({ a: 0.3, c: 3 });
});

/** Another last digit. */
function slip(value: number): number {
  const text = String(value);
  const last = Number(text.at(-1));
  return Number(`${text.slice(0, -1)}${last === 9 ? 8 : last + 1}`);
}
