import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { torqueBands } from '../../../renderer/engine/torqueTable/index.ts';
import { heldBands } from '../../../renderer/engine/torqueTable/heldBands.ts';

const bands = (thread: string, document?: string) =>
  torqueBands({ thread: readThread(thread), ...(document === undefined ? {} : { document }) });
const lbfIn = 0.1129848290276167;
const lbfFt = 12 * lbfIn;

describe('torque bands of a thread', () => {
  it('are in N·m with the print beside', () => {
    const [tension] = bands('1/4-28', 'FAA AC 43.13-1B');
    expect(tension).toMatchObject({
      printed: { thread: '1/4-28', min: 50, max: 70, unit: 'lbf·in' },
      matched: 'thread',
      notes: [],
    });
    expect(tension?.minNm).toBeCloseTo(50 * lbfIn, 12);
    expect(tension?.maxNm).toBeCloseTo(70 * lbfIn, 12);
  });

  it('have no least torque where only the greatest is printed', () => {
    const greatest = bands('1/4-28', 'FAA AC 43.13-1B').filter(({ condition }) => /maximum allowable/.test(condition));
    expect(greatest.map(({ minNm, printed }) => [minNm, printed.min, printed.max])).toEqual([
      [null, null, 100],
      [null, null, 60],
    ]);
  });

  it('have one value at both ends where one is printed', () => {
    const [grade2] = bands('1-8', 'TM 10-4320-346-12&P');
    expect(grade2?.minNm).toBe(grade2?.maxNm);
    expect(grade2?.minNm).toBeCloseTo(235 * lbfFt, 9);
  });

  it('leave out what a table could not be read for', () => {
    expect(bands('3/8-24', 'NASA TM-106943').map(({ condition }) => condition)).toEqual([
      'A-286 bolt, cadmium-plated nut',
      'A-286 bolt, greased',
      '300-series CRES bolt, passivated',
      '300-series CRES bolt, plated',
      '300-series CRES bolt, lubricated',
    ]);
    expect(bands('1-1/8-12', 'TM 10-4320-346-12&P').map(({ condition }) => condition)).toEqual([
      'grade 2, dry threads',
      'grade 5, dry threads',
      'grade 8, dry threads',
    ]);
  });

  it('of small sizes are in ounce-force inches, a sixteenth of a pound-force inch', () => {
    const [cres] = bands('8-32', 'TM 106943');
    expect(cres?.printed).toMatchObject({ min: 181, max: 200, unit: 'ozf·in' });
    expect(cres?.minNm).toBeCloseTo((181 * lbfIn) / 16, 12);
  });

  it('without a pitch in print are found by diameter, and say so', () => {
    for (const thread of ['1/4-20', '1/4-28', '1/4-36']) {
      const found = bands(thread, 'TM 9-2320-362-14&P');
      expect(found.map(({ matched }) => matched)).toEqual(['diameter', 'diameter']);
      expect(found[0]?.notes[0]).toContain('matched by diameter alone');
    }
    expect(bands('M10x1.25').map(({ printed, matched }) => [printed.thread, printed.max, matched])).toEqual([
      ['M10', 40, 'diameter'],
      ['M10', 48, 'diameter'],
    ]);
  });

  it('by dash number go from number 10 in sixteenths of an inch', () => {
    const found = (thread: string) => bands(thread, 'TM 55-1520-240-23-1').map(({ printed }) => printed);
    expect(found('#10-32')).toEqual([{ thread: 'MS21224-3', min: 15, max: 20, unit: 'lbf·in' }]);
    expect(found('9/16-18')).toEqual([{ thread: 'MS21224-9', min: 280, max: 400, unit: 'lbf·in' }]);
    expect(found('3/16-32')).toEqual([]);
    expect(found('8-32')).toEqual([]);
    expect(found('5/8-18')).toEqual([]);
  });

  it('carry the flag of a shear range marked as estimated, on that range alone', () => {
    expect(bands('1-14', 'FAA AC 43.13-1B').map(({ notes }) => notes.length)).toEqual([0, 1, 0, 0]);
  });

  it('of a UNJ thread are those of its diameter and pitch, and say what was passed over', () => {
    const unj = bands('1/4-28 UNJF-3A');
    const un = bands('1/4-28 UNF-3A');
    expect(unj.map((band) => ({ ...band, notes: [] }))).toEqual(un.map((band) => ({ ...band, notes: [] })));
    for (const band of unj) expect(band.notes.at(-1)).toMatch(/no thread form.*UNJ/);
  });

  it('are none for a size no table has', () => {
    for (const thread of ['M3', 'M10.5x1', '1/4-32 UNS', '5-40', '3-4']) {
      const found = bands(thread).filter(({ matched }) => matched === 'thread');
      expect({ thread, found }).toEqual({ thread, found: [] });
    }
    expect(bands('M3')).toEqual([]);
    expect(bands('M3', 'NASA TM-106943')).toEqual([]);
  });
});

describe('a document', () => {
  it.each([
    ['ISO 4014', 'no torque in it'],
    ['TB 43-0218', 'rules and no table'],
    ['MIL-DTL-45916C', 'limits and no torque'],
    ['FAA AC 99', 'unknown'],
    ['', 'empty'],
  ])('%s is refused: %s', (document) => {
    expect(() => bands('1/4-28', document)).toThrow(RefusedError);
    expect(() => bands('1/4-28', document)).toThrow(
      /Held are: FAA AC 43.13-1B, NASA TM-106943, TM 55-1520-240-23-1, TM 10-4320-346-12&P, TM 9-2320-362-14&P\./,
    );
  });

  it('gives a part of what all give, and all of them together everything', () => {
    const documents = [...new Set(heldBands.map(({ citation }) => citation.number))];
    for (const thread of ['1/4-28', '3/8-24', '8-32', '1-8', 'M10', '#10-32']) {
      const together = documents.flatMap((document) => bands(thread, document));
      expect(together).toHaveLength(bands(thread).length);
      expect(bands(thread)).toEqual(expect.arrayContaining(together));
    }
  });
});

it('every band held is found by its own thread, once, and lies above 0 with its ends in order', () => {
  expect(heldBands).toHaveLength(11 * 4 + 14 * 4 + 9 * 3 - 1 + 9 * 3 + 4 * 2 + 7 + 7 * 4 - 1 + 10 * 2 + 7 * 2);
  for (const held of heldBands) {
    const thread = held.matched === 'thread' || held.size.startsWith('M') ? held.size : `${held.size}"-24`;
    const found = bands(thread).filter(
      ({ source, condition }) => source.key === held.citation.key && condition === held.condition,
    );
    expect({ thread, found: found.length }).toEqual({ thread, found: 1 });
    const [{ minNm, maxNm } = { minNm: null, maxNm: null }] = found;
    expect(maxNm).toBeGreaterThan(0);
    if (minNm !== null && maxNm !== null) expect(minNm).toBeLessThanOrEqual(maxNm);
  }
});

it('a pitch beside a printed one finds no band by thread', () => {
  fc.assert(
    fc.property(fc.constantFrom('1/4', '3/8', '1/2', '5/8'), fc.integer({ min: 9, max: 40 }), (size, threads) => {
      const found = bands(`${size}-${threads}`).filter(({ matched }) => matched === 'thread');
      const printed = heldBands.filter((held) => held.size === `${size}-${threads}`);
      expect(found).toHaveLength(printed.length);
    }),
  );
});
