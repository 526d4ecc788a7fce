import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import {
  allTables,
  documentsOf,
  lockingTables,
  sameDocument,
  tableByKey,
  tablesByDocument,
} from '../../../renderer/engine/handbook/index.ts';

function refusalOf(act: () => unknown): RefusedError['refusal'] {
  try {
    act();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('was not refused');
}

describe('two texts name one document', () => {
  it.each([
    ['MIL-DTL-45916C', 'MIL-DTL-45916C', true],
    ['mil-dtl-45916c', 'MIL-DTL-45916C', true],
    [' MIL - DTL-45916 C ', 'MIL-DTL-45916C', true],
    ['MIL-DTL-45916', 'MIL-DTL-45916C', true],
    ['MIL\u2011DTL\u201145916C', 'MIL-DTL-45916C', true],
    ['NASM25027A', 'NASM25027', true],
    ['FAA AC 43.13-1', 'FAA AC 43.13-1B', true],
    ['faaac43.13-1b', 'FAA AC 43.13-1B', true],
    ['ISO2320', 'ISO 2320', true],
    ['MIL-DTL-45916B', 'MIL-DTL-45916C', false],
    ['MIL-DTL-4591', 'MIL-DTL-45916C', false],
    ['ISO 4014', 'ISO 4017', false],
    ['ISO 272', 'ISO 2725', false],
    ['TM 9-2320-362-14', 'TM 9-2320-362-14&P', false],
    ['C', 'MIL-DTL-45916C', false],
    ['', 'ISO 272', false],
    ['   ', '', false],
  ])('"%s" and "%s": %s', (asked, held, same) => {
    expect(sameDocument(asked, held)).toBe(same);
  });
});

describe('tables of a document', () => {
  it.each([
    ['NASM25027', ['prevailing-mil-dtl-45916-coarse', 'prevailing-mil-dtl-45916-fine']],
    ['MIL-N-25027D', ['prevailing-mil-dtl-45916-coarse', 'prevailing-mil-dtl-45916-fine']],
    ['iso 2320', ['prevailing-iso-2320-class-04']],
    ['AC 43.13-1B', ['reuse-faa-ac-43.13-coarse', 'reuse-faa-ac-43.13-fine', 'running-torque-rules']],
    ['FAA AC 43.13-1B 7-2', ['reuse-faa-ac-43.13-coarse', 'reuse-faa-ac-43.13-fine']],
  ])('%s, of the locking tables', (name, keys) => {
    expect(tablesByDocument(name, Object.values(lockingTables)).map((table) => table.key)).toEqual(keys);
  });

  it('are found among all tables where no choice is given', () => {
    expect(tablesByDocument('TM 1-1500-204-23-6').map((table) => table.key)).toEqual([
      'run-down-rule-army',
      'breakaway-army-coarse',
      'breakaway-army-fine',
    ]);
  });

  it('are found by every number and alias a table has', () => {
    for (const table of allTables) {
      for (const name of [table.source.number, ...table.aliases]) expect(tablesByDocument(name)).toContain(table);
    }
  });

  it('are refused by name where none is held, with the documents that are', () => {
    const refusal = refusalOf(() => tablesByDocument('ISO 691'));
    expect(refusal.code).toBe('not-held');
    expect(refusal.value).toBe('ISO 691');
    expect(refusal.message).toContain('"ISO 691"');
    for (const number of documentsOf(allTables)) expect(refusal.message).toContain(number);
    const amongLocking = refusalOf(() => tablesByDocument('ISO 4014', Object.values(lockingTables)));
    expect(amongLocking.message).toContain('MIL-DTL-45916C');
    expect(amongLocking.message).not.toContain('ISO 4032');
  });

  it('are refused for an empty name, which names nothing', () => {
    expect(refusalOf(() => tablesByDocument(' ')).code).toBe('not-held');
  });
});

describe('a table by its key', () => {
  it('is that table', () => {
    expect(tableByKey('hex-nut-iso-4032').source.number).toBe('ISO 4032');
  });

  it('is refused where no such table is held, naming the keys that are', () => {
    const refusal = refusalOf(() => tableByKey('openings-iso-691'));
    expect(refusal.code).toBe('not-held');
    expect(refusal.message).toContain('wrench-openings-asme-b18.2.2');
  });
});
