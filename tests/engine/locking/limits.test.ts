import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { lockingLimits, lockingLimitsOf } from '../../../renderer/engine/locking/index.ts';
import { allHeldLimits } from '../../../renderer/engine/locking/heldLimits.ts';
import { strictest } from '../../../renderer/engine/locking/strictest.ts';
import { readThread } from '../../../renderer/engine/thread/index.ts';

const limits = (thread: string, document: string) => lockingLimits({ thread: readThread(thread), document });
const lbfIn = 0.1129848290276167;

function refusal(run: () => unknown) {
  try {
    run();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('limits of a locking fastener', () => {
  it('are those of the document named, in N·m, with the print beside', () => {
    const found = limits('1/4-28 UNF-3B', 'MIL-DTL-45916C');
    expect(found.runningMaxNm).toBeCloseTo(30 * lbfIn, 12);
    expect(found.breakawayMinNm).toBeCloseTo(3.5 * lbfIn, 12);
    expect(found.reusedMinNm).toBeNull();
    expect(found.printed).toEqual([
      { limit: 'runningMax', reading: 'greatest locking torque, any cycle', variant: null, value: 30, unit: 'lbf·in' },
      {
        limit: 'breakawayMin',
        reading: 'least breakaway torque, through the 15-cycle test',
        variant: null,
        value: 3.5,
        unit: 'lbf·in',
      },
    ]);
    expect(found).toMatchObject({ matched: 'thread', condition: null, notes: [] });
    expect(found).not.toHaveProperty('variants');
  });

  it('keep the minimum of a reused nut and the military breakaway minimum apart: 7/16-20 has 8 and 14 lbf·in', () => {
    expect(limits('7/16-20', 'FAA AC 43.13-1B')).toMatchObject({ breakawayMinNm: null });
    expect(limits('7/16-20', 'FAA AC 43.13-1B').reusedMinNm).toBeCloseTo(8 * lbfIn, 12);
    expect(limits('7/16-20', 'NASM25027').breakawayMinNm).toBeCloseTo(14 * lbfIn, 12);
    expect(limits('7/16-20', 'NASM25027').reusedMinNm).toBeNull();
  });

  it('of ISO 2320 are first on, first off and fifth off, in coarse pitch', () => {
    expect(limits('M10', 'ISO 2320')).toMatchObject({ runningMaxNm: 10.5, breakawayMinNm: 1.5, reusedMinNm: 1 });
    expect(limits('M10x1.5-6H', 'iso2320:2008')).toMatchObject({ runningMaxNm: 10.5, condition: 'nut class 04' });
    for (const fine of ['M10x1.25', 'M10x1', 'M8x0.75', 'M12x1.5'])
      expect(refusal(() => limits(fine, 'ISO 2320'))).toMatchObject({ code: 'not-held', field: 'thread' });
  });

  it('of ISO 2320 are held for M8x1, the one fine thread it prints', () => {
    expect(limits('M8x1', 'ISO 2320')).toMatchObject({ runningMaxNm: 6, breakawayMinNm: 0.85, reusedMinNm: 0.6 });
  });

  it('say that nothing is printed: numbers 2 and 4 have no least breakaway torque', () => {
    expect(limits('2-56', 'NASM25027')).toMatchObject({ breakawayMinNm: null, matched: 'thread' });
    expect(limits('#4-40', 'NASM25027').runningMaxNm).toBeCloseTo(5 * lbfIn, 12);
  });

  it('of a table with kinds of nut are the stricter, with each kind beside', () => {
    const found = limits('3/8-16', 'TM 9-6115-604-34');
    expect(found.reusedMinNm).toBeCloseTo(12 * lbfIn, 12);
    expect(found.variants?.map(({ variant }) => variant)).toEqual(['all-metal', 'nylon']);
    expect(found.variants?.[1]?.reusedMinNm).toBeCloseTo(9 * lbfIn, 12);
    expect(found.printed.map(({ also }) => also?.value)).toEqual([1.4, 1]);
    expect(limits('5/16-18', 'TM 9-6115-604-34').printed[1]).not.toHaveProperty('also');
  });

  it('by diameter say so, whatever the pitch; an inch size is no metric one', () => {
    for (const thread of ['1/2-13', '1/2-20', '1/2-28'])
      expect(limits(thread, 'TM 9-6115-604-34')).toMatchObject({
        matched: 'diameter',
        notes: ['The table prints no pitches: matched by diameter alone.'],
      });
    expect(refusal(() => limits('M12.7x1', 'TM 9-6115-604-34')).code).toBe('not-held');
  });

  it('of a UNJ thread are those of its diameter and pitch, and say what was passed over', () => {
    const unj = limits('.2500-28 UNJF-3A', 'NASM25027');
    const un = limits('1/4-28', 'NASM25027');
    expect({ ...unj, notes: [] }).toEqual(un);
    expect(unj.notes).toEqual([expect.stringMatching(/no thread form.*UNJ/)]);
    expect(limits('5/16-24 UNF LH', 'NASM25027').notes).toEqual([expect.stringContaining('left-hand')]);
  });
});

describe('what is not held is refused', () => {
  it.each([
    ['1/4-28', 'ISO 4014', 'locking', /MIL-DTL-45916C, TM 1-1500-204-23-6, .*ISO 2320/],
    ['1/4-28', 'NASA TM-106943', 'locking', /Held are/],
    ['1/4-28', 'MIL-DTL-45916B', 'locking', /Held are/],
    ['1/4-28', '', 'locking', /Held are/],
    ['1/4-28', 'TM 1-1500-204-23-6', 'thread', /5\/16-18.*5\/16-24.*fingers/],
    ['1/4-32', 'NASM25027', 'thread', /0\.250-28/],
    ['M10', 'NASM25027', 'thread', /0\.250-28/],
    ['3/16-24', 'NASM25027', 'thread', /0\.190-24/],
    ['M11', 'ISO 2320', 'thread', /M10, M12/],
  ])('%s by "%s": the %s, naming what is held', (thread, document, field, words) => {
    const found = refusal(() => (thread === 'M11' ? limits('M11x1.5', document) : limits(thread, document)));
    expect(found).toMatchObject({ code: 'not-held', field });
    expect(found.message).toMatch(words);
  });
});

describe('the limits of every document', () => {
  it('stand side by side for one size', () => {
    expect(lockingLimitsOf(readThread('7/16-20')).map(({ source }) => source.number)).toEqual([
      'MIL-DTL-45916C',
      'TM 1-1500-204-23-6',
      'TM 55-1520-240-23-1',
      'FAA AC 43.13-1B',
      'TM 9-6115-604-34',
    ]);
  });

  it('are none for a size that no document has', () => {
    expect(lockingLimitsOf(readThread('M10x1.25'))).toEqual([]);
    expect(lockingLimitsOf(readThread('2-4.5'))).toEqual([]);
  });

  it('are one entry for each row, found by its own thread or size', () => {
    expect(allHeldLimits).toHaveLength(13 + 13 + 14 + 13 + 13 + 9 + 9 + 8 + 20);
    for (const held of allHeldLimits) {
      const thread = readThread(held.matched === 'thread' ? held.size : `${held.size}-24`);
      const found = lockingLimitsOf(thread).filter(({ source }) => source.key === held.citation.key);
      expect(found.map(({ printed }) => printed)).toEqual([held.printed]);
    }
  });
});

it('the stricter of several kinds is the lower running maximum and the higher minima', () => {
  const limit = (name: 'runningMax' | 'breakawayMin' | 'reusedMin', value: number) => ({
    limit: name,
    reading: 'invented',
    variant: null,
    value,
    unit: 'N·m' as const,
  });
  expect(
    strictest([
      limit('runningMax', 9),
      limit('runningMax', 7),
      limit('breakawayMin', 2),
      limit('breakawayMin', 3),
      limit('reusedMin', 1),
      limit('reusedMin', 0.5),
    ]),
  ).toEqual({ runningMaxNm: 7, breakawayMinNm: 3, reusedMinNm: 1 });
  expect(strictest([])).toEqual({ runningMaxNm: null, breakawayMinNm: null, reusedMinNm: null });
});
