/** What stands in cells: formulas, apostrophes, dates made of sizes, decimal commas. Source: the headless contract and RFC 4180. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { cellText, harmless } from '../../../renderer/engine/sheet/cellText.ts';
import { csvText, readTable, TableReading, type RowReading } from '../../../renderer/engine/sheet/index.ts';
import {
  allUnits,
  convertValue,
  kindOf,
  readQuantity,
  type Kind,
  type Unit,
} from '../../../renderer/engine/units/index.ts';

const form = { known: ['id', 'q'], needed: [['id']] };

/** One row's reading of cell q, with what was refused. */
function cell<T>(q: string, read: (row: RowReading) => T, delimiter = ',', others: string[] = []) {
  const quoted = [q, ...others].map((each, at) => `"${at}"${delimiter}"${each.replaceAll('"', '""')}"`);
  const reading = new TableReading(readTable({ content: `id${delimiter}q\n${quoted.join('\n')}\n` }, form), ['q']);
  const [first] = reading.table.records;
  if (first === undefined) throw new Error('no row');
  return { value: read(reading.row(first)), refusals: reading.refusals };
}

const length = { kind: 'length', unit: 'mm', least: 'zero' } as const;
const torque = { kind: 'torque', unit: 'N·m', least: 'zero' } as const;

describe('formulas', () => {
  const live = [
    '=1+1',
    '=HYPERLINK("http://x")',
    "=cmd|' /C calc'!A0",
    '@SUM(A1)',
    '+A1+A2',
    '  =1',
    '＝1',
    '＠x',
    '+1+cmd|x',
    '\t=1',
  ];

  it.each(live)('%j is refused and not evaluated', (q) => {
    const { value, refusals } = cell(q, (row) => row.text('q'));
    expect(value).toBeNull();
    expect(refusals).toMatchObject([{ code: 'wrong-shape', field: 'q', row: 2, value: q.trim() }]);
    expect(refusals[0]?.message).toMatch(/formula/);
  });

  it.each(live)('%j behind an apostrophe is a text', (q) => {
    expect(cell(`'${q}`, (row) => row.text('q'))).toEqual({ value: q.trim(), refusals: [] });
  });

  it.each([
    ['+45 N·m', 45],
    ["'+45 N·m", 45],
    ["'7 N·m", 7],
    ['45 lbf·ft', 61.011807674913015],
    ['45 ft-lb', 61.011807674913015],
  ])('%j is a quantity', (q, nm) => {
    expect(cell(q, (row) => row.quantity('q', torque)?.value)).toEqual({ value: nm, refusals: [] });
  });
});

describe('texts written out', () => {
  it('come back as they were, and begin no formula', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom('=', '+', '-', '@', "'", '"', ',', ' ', '\t', 'a', '1', '＝') }),
        (text) => {
          const out = harmless(text);
          expect(/^\s*[=+\-@＝＋－＠]/.test(out)).toBe(false);
          expect(cellText(out)).toEqual({ text, isFormula: false });
        },
      ),
      { numRuns: 2000, seed: 1126 },
    );
  });

  it('leave numbers alone, negative ones too', () => {
    expect(
      csvText(
        ['a', '=b'],
        [
          [-5, '-5'],
          [null, 'x,"y"'],
        ],
      ),
    ).toBe('"a",\'=b\r\n-5,\'-5\r\n,"x,""y"""\r\n');
  });

  it('go through a file and back', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary' }), { minLength: 1, maxLength: 5 }), (texts) => {
        // A NUL and half a character are no text; line breaks are written one way, and blanks around a cell are nobody's.
        const cells = texts.map((text) => `x${text.replaceAll(/[\0\uD800-\uDFFF]/g, '').replaceAll(/\r\n?/g, '\n')}x`);
        const table = readTable(
          {
            content: csvText(
              ['id', 'q'],
              cells.map((each, at) => [String(at), each]),
            ),
          },
          form,
        );
        expect([...table.records].map((record) => cellText(record.cells[1] ?? '').text)).toEqual(cells);
      }),
      { numRuns: 500, seed: 1126 },
    );
  });
});

describe('dates that a spreadsheet made of sizes', () => {
  it.each([
    '8-Mar',
    '3-Apr',
    '45359',
    '45359.0',
    '03-Apr-24',
    'Mar 8',
    'Apr-2024',
    '8. Mrz',
    '3/8/2024',
    '03.08.2024',
    '2024-03-08',
    '2024-03-08 00:00:00',
    '1-Feb',
    '16-Sep',
    "'8-Mar",
    '5. août',
    '8 March 2024',
    'dic-16',
  ])('%s is refused with the reason', (q) => {
    const { value, refusals } = cell(q, (row) => row.quantity('q', length));
    expect(value).toBeNull();
    expect(refusals).toMatchObject([{ field: 'q', row: 2 }]);
    expect(refusals[0]?.message).toMatch(/date|day/);
    expect(cell(q, (row) => row.sized('q')).refusals).toHaveLength(1);
  });

  it.each([
    '1/4-28',
    '10-32',
    '#10-32',
    '8-32',
    'M10x1.5',
    '.250-28 UNF',
    '3/8 in',
    '1-1/8 in',
    '8.8',
    '12.9',
    'SAE J429 grade 5',
    'A2-70',
  ])('%s is none', (q) => {
    expect(cell(q, (row) => row.sized('q'))).toEqual({ value: q, refusals: [] });
  });
});

describe('decimal commas', () => {
  const read = (q: string, delimiter: string, others: string[] = []) =>
    cell(q, (row) => row.quantity('q', torque)?.value ?? null, delimiter, others);

  it.each([
    ['12,5 N·m', 12.5],
    ['0,125 N·m', 0.125],
    ['1234,567 N·m', 1234.567],
    ['12,5000 N·m', 12.5],
    ['12.5 N·m', 12.5],
  ])('%s is read where semicolons or tabs delimit', (q, value) => {
    expect(read(q, ';')).toEqual({ value, refusals: [] });
    expect(read(q, '\t')).toEqual({ value, refusals: [] });
  });

  it.each(['1,200 lbf·in', '12,345 N·m', '1,200.5 N·m', '1.200,5 N·m', '1,2,3 N·m'])(
    '%s is refused everywhere',
    (q) => {
      for (const delimiter of [',', ';', '\t']) {
        const { value, refusals } = read(q, delimiter);
        expect(value).toBeNull();
        expect(refusals[0]?.code).toMatch(/^(?:ambiguous|unreadable)-quantity$/);
      }
    },
  );

  it('12,5 N·m is refused where commas delimit', () => {
    expect(read('12,5 N·m', ',').refusals[0]?.code).toBe('ambiguous-quantity');
  });

  it('1.250 N·m is refused where other cells have decimal commas, and read where none has', () => {
    expect(read('1.250 N·m', ';', ['12,5 N·m']).refusals[0]?.code).toBe('ambiguous-quantity');
    expect(read('1.250 N·m', ';', ['12.5 N·m']).value).toBe(1.25);
    expect(read('1.250 N·m', ',').value).toBe(1.25);
  });
});

describe('a quantity written plainly', () => {
  const unit = fc.constantFrom(...allUnits);
  const digits = fc.oneof(
    fc.nat({ max: 99_999 }).map(String),
    fc.tuple(fc.nat({ max: 9999 }), fc.nat({ max: 999_999 })).map(([whole, rest]) => `${whole}.${rest}`),
  );
  const anchors: Record<Kind, Unit> = {
    torque: 'N·m',
    length: 'mm',
    force: 'N',
    mass: 'kg',
    area: 'mm2',
    volume: 'L',
    stress: 'MPa',
    angle: 'deg',
  };

  it('is what the units’ own reader makes of it, to the last bit', () => {
    fc.assert(
      fc.property(digits, unit, (number, spelled) => {
        const kind = kindOf(spelled);
        const asked = { kind, unit: anchors[kind], least: 'zero' } as const;
        const { value } = cell(`${number} ${spelled}`, (row) => row.quantity('q', asked));
        const slow = readQuantity(`${number} ${spelled}`, kind);
        expect(value).toEqual({
          value: convertValue(slow.value, slow.unit, anchors[kind]),
          unit: slow.unit,
          number: slow.value,
          text: `${number} ${spelled}`,
        });
      }),
      { numRuns: 2000, seed: 1126 },
    );
  });

  it.each(['45', '45 nm', '45 kg·m', '45 mm', '-1 N·m', 'N·m', '45 N·m 3', '1e400 N·m', 'NaN N·m'])(
    '%s is refused',
    (q) => {
      const { value, refusals } = cell(q, (row) => row.quantity('q', torque));
      expect(value).toBeNull();
      expect(refusals).toMatchObject([{ field: 'q', row: 2, value: q }]);
      expect(() => readQuantity('45', 'torque')).toThrow(RefusedError);
    },
  );
});
