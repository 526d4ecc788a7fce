import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TorqueBand } from '../../../renderer/engine/torqueTable/index.ts';
import { refusalFrom, resultOf, told } from './inProcess.ts';

interface Rows {
  rows: TorqueBand[];
  note?: string;
  caution: string;
}

const table = (...args: string[]): Promise<Rows> => resultOf('torquetable', ...args);

describe('bagwright torquetable', () => {
  it('has every field of the contract in every row', async () => {
    const { rows, caution } = await table('1/4-28');
    // FAA four, NASA A-286 three, CRES three; by diameter one dash number and two grades.
    expect(rows).toHaveLength(13);
    for (const row of rows) {
      expect(row).toMatchObject({
        condition: expect.any(String) as string,
        maxNm: expect.any(Number) as number,
        printed: { max: expect.any(Number) as number, unit: expect.stringMatching(/^lbf·(in|ft)$/) as string },
        matched: expect.stringMatching(/^(thread|diameter)$/) as string,
      });
      expect(row).toHaveProperty('minNm');
      expect(row.printed).toHaveProperty('min');
      for (const field of ['title', 'number', 'edition', 'table', 'obtained'])
        expect(row.source).toHaveProperty(field, expect.any(String));
    }
    expect(rows.map(({ matched }) => matched)).toEqual([
      ...Array.from({ length: 10 }, () => 'thread'),
      ...Array.from({ length: 3 }, () => 'diameter'),
    ]);
    expect(caution).toContain('Verify before use');
  });

  it('tells rows of one thread and document apart by their condition', async () => {
    for (const thread of ['1/4-28', '1-14', 'M10', '8-32', '1-1/8-12', '#10-32']) {
      const names = (await table(thread)).rows.map(({ condition, source }) => `${source.key}: ${condition}`);
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it.each([
    ['FAA AC 43.13-1B', 4],
    ['ac 43.13-1b', 4],
    ['FAA AC 43.13-1', 4],
    ['NASA TM-106943', 6],
    ['TM106943', 6],
    ['TM 106943', 6],
    ['TM-106943', 6],
    ['TM 9-2320-362-14&P', 2],
  ])('by the document "%s" has %i rows', async (document, count) => {
    expect((await table('1/4-28', '--document', document)).rows).toHaveLength(count);
  });

  it('gives no row for a size none holds, and says so', async () => {
    for (const args of [['M3'], ['M3', '--document', 'NASA TM-106943'], ['5-40']])
      expect(await told('torquetable', ...args)).toMatchObject({
        exit: 0,
        result: { rows: [], note: expect.stringMatching(/No published value held/) as string },
      });
    expect(await table('M10')).not.toHaveProperty('note');
  });

  it.each([
    [[], 'usage', 'thread', /thread is missing/],
    [['1/4-28', '--document'], 'usage', undefined, /needs a value/],
    [['1/4-28', '--locking', 'x'], 'usage', undefined, /--locking is unknown here; known are --document/],
    [['1/4'], 'unreadable-thread', 'thread', /threads per inch/],
    [['1/4-28', '--document', 'TB 43-0218'], 'not-held', 'document', /FAA AC 43.13-1B/],
    [['1/4-28', '--document', 'ISO 2320'], 'not-held', 'document', /Held are/],
    [['1/4-28', '--document', ' '], 'not-held', 'document', /Held are/],
    [['M3', '--document', 'FAA AC 43.13-1C'], 'not-held', 'document', /Held are/],
  ])('%j is refused as %s of the %s', async (args, code, field, words) => {
    const refused = await refusalFrom('torquetable', ...args);
    expect(refused.code).toBe(code);
    expect(refused.field).toBe(field);
    expect(refused.message).toMatch(words);
  });

  it('answers or refuses whatever is typed, and never fails', async () => {
    const odd = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 40 }),
      fc.constantFrom('', '1/4-28', '.190-32', 'M10', 'M10.', '1-8', '1-64', 'No. 8-32', '1/4-28 UNF 2A LH'),
    );
    await fc.assert(
      fc.asyncProperty(odd, fc.option(odd), async (thread, document) => {
        const named = document === null || document.startsWith('--') ? [] : ['--document', document];
        const answer = await told<Rows>('torquetable', thread, ...named);
        if (answer.exit === 2) expect(answer.error.code).not.toBe('internal');
        else for (const row of answer.result.rows) expect(row.maxNm).toBeGreaterThan(0);
      }),
      { numRuns: 400 },
    );
  });
});
