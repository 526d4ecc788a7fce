/**
 * What single callouts come to: the second unit, near sizes, what cannot be judged and says so once, and what is shown beside. Source:
 * the headless contract, rules of `callouts`.
 */
import { describe, expect, it } from 'vitest';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { torqueBands } from '../../../renderer/engine/torqueTable/index.ts';
import { fired, judged, judgedRows, type Cells } from './judged.ts';

const plain = { thread: 'M10', torqueMin: '40 N·m', torqueMax: '50 N·m' };

/** Exact sizes, so that the ends of the band are known to the last digit: 1 N·m = 100 cN·m, 1 lbf·in = 16 ozf·in. */
const seconds: [string, Cells, string, 'reject' | 'query' | null][] = [
  ['exact', {}, '4000-5000 cN·m', null],
  ['exact, with more digits', {}, '4000.00-5000.00 cN·m', null],
  ['rounded inward by less than a unit', { torqueMin: '40.001 N·m', torqueMax: '49.999 N·m' }, '40.01-49.99 N·m', null],
  ['rounded inward by a whole unit', {}, '4001-4999 cN·m', null],
  ['least inward by more than a unit', {}, '4002-5000 cN·m', 'reject'],
  ['greatest inward by more than a unit', {}, '4000-4998 cN·m', 'reject'],
  ['least outward by a whole unit', {}, '3999-5000 cN·m', 'query'],
  ['greatest outward by a whole unit', {}, '4000-5001 cN·m', 'query'],
  ['both outward by less', { torqueMin: '40.005 N·m', torqueMax: '49.995 N·m' }, '4000-5000 cN·m', 'query'],
  ['least outward by more than a unit', {}, '3998-5000 cN·m', 'reject'],
  ['greatest outward by more than a unit', {}, '4000-5002 cN·m', 'reject'],
  ['one outward, one off', {}, '3999-5005 cN·m', 'reject'],
  ['outward within the tolerance', { torqueMin: '40.00000003 N·m' }, '4000-5000 cN·m', null],
  ['outward beyond the tolerance', { torqueMin: '40.0000002 N·m' }, '4000-5000 cN·m', 'query'],
  ['off by a unit of a tenth', {}, '4000.0-5000.2 cN·m', 'reject'],
  ['off by less than a unit of a tenth, outward', { torqueMax: '49.9999 N·m' }, '4000.0-5000.0 cN·m', 'query'],
  ['fine units', { torqueMin: '10 lbf·in', torqueMax: '12 lbf·in' }, '160-192 ozf·in', null],
  ['fine units, outward', { torqueMin: '10 lbf·in', torqueMax: '12 lbf·in' }, '159-192 ozf·in', 'query'],
  ['fine units, off', { torqueMin: '10 lbf·in', torqueMax: '12 lbf·in' }, '158-192 ozf·in', 'reject'],
  ['foot pounds inward', { torqueMin: '45 lbf·ft', torqueMax: '50 lbf·ft' }, '62-67 N·m', null],
  ['foot pounds, least outward', { torqueMin: '45 lbf·ft', torqueMax: '50 lbf·ft' }, '61-67 N·m', 'query'],
  ['foot pounds, greatest outward', { torqueMin: '45 lbf·ft', torqueMax: '50 lbf·ft' }, '62-68 N·m', 'query'],
  ['foot pounds, off', { torqueMin: '45 lbf·ft', torqueMax: '50 lbf·ft' }, '62-69 N·m', 'reject'],
  ['foot pounds, off inside', { torqueMin: '45 lbf·ft', torqueMax: '50 lbf·ft' }, '63-67 N·m', 'reject'],
  ['a unit at each end', { torqueMin: '45 lbf·ft', torqueMax: '50 lbf·ft' }, '62 N·m – 67 N·m', null],
  ['around a middle', {}, '45 ± 5 N·m', null],
  ['around a middle, outward', {}, '45 ± 6 N·m', 'query'],
  ['unit with a dash', {}, '40-50 N-m', null],
];

describe('dual-unit', () => {
  it.each(seconds)('%s', (_, cells, torqueAlt, severity) => {
    expect(fired(judged({ ...plain, ...cells, torqueAlt }), 'dual-unit')).toEqual(severity === null ? [] : [severity]);
  });

  it('has at least ten of each', () => {
    expect(seconds.filter(([, , , severity]) => severity === null).length).toBeGreaterThanOrEqual(10);
    expect(seconds.filter(([, , , severity]) => severity === 'query').length).toBeGreaterThanOrEqual(8);
    expect(seconds.filter(([, , , severity]) => severity === 'reject').length).toBeGreaterThanOrEqual(8);
  });
});

describe('a torque and what it is kept within', () => {
  it.each([
    ['45 N·m', '5 N·m', 40, 50],
    ['45 N·m', '± 5 N·m', 40, 50],
    ['50 N·m', '10 %', 45, 55],
    ['50 N·m', '±10%', 45, 55],
    ['50 N·m', '0 %', 50, 50],
    ['100 lbf·in', '1 N·m', 10.29848290276167, 12.29848290276167],
  ])('%s, %s', (torque, tolerance, min, max) => {
    const { computed } = judged({ thread: 'M10', torque, tolerance });
    expect(computed.calloutNm.min).toBeCloseTo(min, 12);
    expect(computed.calloutNm.max).toBeCloseTo(max, 12);
  });
});

describe('wrong-wrench', () => {
  it.each([
    ['M8', 'hex', '33/64 in', 'reject'],
    ['M5', 'hex', '5/16 in', 'query'],
    ['M10', 'hex', '16.005 mm', null],
    ['M10', 'hex', '16.02 mm', 'reject'],
    ['1/4-28', 'hex', '11.11 mm', null],
  ])('%s %s with %s: %s', (thread, head, wrench, severity) => {
    // 8 mm hexagons of M5 are 8.00 to 7.78 mm (ISO 4014); a 5/16 in opening is 8.0264 to 8.1788 mm (ASME B18.2.2).
    expect(fired(judged({ ...plain, thread, head, wrench }), 'wrong-wrench')).toEqual(
      severity === null ? [] : [severity],
    );
  });
});

describe('outside-published-band, where the document states a tolerance', () => {
  // TM 9-2320-362-14&P, Table F-1: M12 70 lbf·ft under the column of grade 5, tolerance 10 %.
  const f1 = { thread: 'M12', lubrication: 'under the column of grade 5' };

  it.each([
    ['the value itself', { torque: '70 lbf·ft', tolerance: '0 %' }, []],
    ['the whole tolerance', { torque: '70 lbf·ft', tolerance: '10 %' }, ['keeps']],
    ['the whole tolerance, as two ends', { torqueMin: '63 lbf·ft', torqueMax: '77 lbf·ft' }, ['keeps']],
    ['less than it', { torqueMin: '65 lbf·ft', torqueMax: '75 lbf·ft' }, ['keeps']],
    ['above it by a millionth', { torqueMin: '63 lbf·ft', torqueMax: '77.000077 lbf·ft' }, ['does not keep']],
    ['under it by a millionth', { torqueMin: '62.999937 lbf·ft', torqueMax: '77 lbf·ft' }, ['does not keep']],
  ])('%s', (_, cells, said) => {
    const found = judged({ ...f1, ...cells }).findings.filter(({ rule }) => rule === 'outside-published-band');
    expect(found.map(({ severity }) => severity)).toEqual(said.map(() => 'query'));
    for (const [at, keeps] of said.entries()) expect(found[at]?.message).toContain(`: the callout ${keeps} to it.`);
  });

  it('says what is printed, and its tolerance beside', () => {
    const row = judged({ ...f1, torqueMin: '63 lbf·ft', torqueMax: '80 lbf·ft' });
    const found = row.findings.find(({ rule }) => rule === 'outside-published-band');
    expect(found?.message).toContain('the nearest published band, 70 lbf·ft, as printed 70 lbf·ft');
    expect(found?.message).toContain('states a tolerance of 10 %, 63 lbf·ft to 77 lbf·ft');
    expect(found?.limit).toBeCloseTo(70 * 1.355_817_948_331_4, 9);
  });

  it('lends no tolerance to a table that states none', () => {
    // TM 10-4320-346-12&P prints single values too: 1-8 grade 2.
    const [value] = torqueBands({ thread: readThread('1-8'), document: 'TM 10-4320-346-12&P' });
    expect(value?.tolerance).toBeUndefined();
    const of = { thread: '1-8', lubrication: value?.condition ?? '' };
    const torque = `${value?.printed.max} lbf·ft`;
    expect(fired(judged({ ...of, torque, tolerance: '0 %' }), 'outside-published-band')).toEqual([]);
    expect(fired(judged({ ...of, torque, tolerance: '1 %' }), 'outside-published-band')).toEqual(['query']);
  });
});

describe('what cannot be judged', () => {
  const notes = (cells: Cells) =>
    judged({ ...plain, ...cells }).findings.filter(({ rule }) => rule === 'no-published-value');

  it('is one note where neither nut factor nor friction is given, whatever else is', () => {
    for (const cells of [
      {},
      { strength: '8.8' },
      { strength: '8.8', preloadMin: '10 kN', preloadMax: '20 kN', scatter: '0.3' },
    ]) {
      expect(notes(cells).filter(({ about }) => about?.startsWith('preload'))).toHaveLength(1);
    }
    expect(notes({ nutFactor: '0.2', strength: '8.8' }).filter(({ about }) => about?.startsWith('preload'))).toEqual(
      [],
    );
  });

  it.each([
    ['no band for the thread', { thread: 'M3.5' }, 'outside-published-band'],
    ['no band of that condition', { lubrication: 'molybdenum' }, 'outside-published-band'],
    ['no proof stress of stainless steel', { strength: 'A2-70', nutFactor: '0.2' }, 'preload-over-proof'],
    ['limits of size of metric threads', { engagement: '10 mm', internalUltimate: '300 MPa' }, 'thread-strips-first'],
    ['limits of size of class 1', { thread: '1/2-13 UNC-1A', engagement: '10 mm' }, 'thread-strips-first'],
    ['a document nobody holds', { locking: 'QQ-99', runningIncluded: 'yes' }, 'running-over-limit'],
    [
      'a size the document has not',
      { thread: '1/4-28', locking: 'ISO 2320', runningIncluded: 'yes' },
      'running-over-limit',
    ],
    [
      'a limit the document does not print',
      { thread: '1/4-28', locking: 'TM 55-1520-240-23-1', runningMax: '1 N·m', runningIncluded: 'yes' },
      'running-over-limit',
    ],
    ['a wrench without a head', { wrench: '16 mm' }, 'wrong-wrench'],
    ['a form of head nobody holds', { head: 'twelve-point', wrench: '16 mm' }, 'wrong-wrench'],
  ])('is a note: %s', (_, cells, about) => {
    const found = notes(cells).filter((note) => note.about === about);
    expect(found).toHaveLength(1);
    expect(found[0]?.severity).toBe('note');
  });

  /** Each beside one of those above, and of everything it asks something is held; M10 of 50 N·m is in a band of Table F-1. */
  const judgedAll: [string, Cells][] = [
    ['a band for the thread', { thread: 'M10' }],
    ['a band of that condition', { lubrication: 'CLEAN DRY' }],
    ['a band by diameter alone', { thread: 'M12x1.25' }],
    ['proof stress of a class', { strength: '8.8' }],
    ['proof stress of a grade', { thread: '3/8-24', strength: 'SAE J429 grade 5', preloadMin: '1 kN' }],
    [
      'friction in place of K',
      { nutFactor: '', frictionThread: '0.12', frictionBearing: '0.12', bearingDiameter: '14 mm' },
    ],
    ['limits of preload with K', { preloadMin: '1 kN', preloadMax: '90 kN', scatter: '0.3' }],
    [
      'limits of size of class 2',
      { thread: '1/2-13', strength: 'SAE J429 grade 5', engagement: '1 in', internalUltimate: '300 MPa' },
    ],
    [
      'limits of size of class 3',
      { thread: '1/2-13 UNC-3A', strength: 'SAE J429 grade 5', engagement: '1 in', internalUltimate: '300 MPa' },
    ],
    ['a document that is held', { locking: 'ISO 2320', runningIncluded: 'yes' }],
    ['a size the document has', { thread: '1/4-28', locking: 'MIL-DTL-45916', runningIncluded: 'yes' }],
    ['a limit the document prints', { locking: 'ISO 2320', runningMax: '1 N·m', runningIncluded: 'yes' }],
    ['a wrench with its head', { head: 'hex', wrench: '16 mm' }],
    ['a socket with its head', { head: 'hex-socket', wrench: '8 mm' }],
  ];

  it.each(judgedAll)('is no note: %s', (_, cells) => {
    expect(notes({ nutFactor: '0.2', ...cells })).toEqual([]);
  });

  it('has at least ten that are judged whole', () => expect(judgedAll.length).toBeGreaterThanOrEqual(10));

  it('does not let stainless steel past its yield by tension alone', () => {
    // A2-70 on M10: 450 MPa on 57.99 mm² are 26.1 kN; by K 0.2, 52.2 N·m.
    expect(
      fired(judged({ ...plain, torqueMax: '52 N·m', strength: 'A2-70', nutFactor: '0.2' }), 'preload-over-yield'),
    ).toEqual([]);
    expect(
      fired(judged({ ...plain, torqueMax: '53 N·m', strength: 'A2-70', nutFactor: '0.2' }), 'preload-over-yield'),
    ).toEqual(['reject']);
  });
});

describe('running torque', () => {
  it('is taken out of a band that has it, and added to one that has not', () => {
    const running = { runningMin: '1 N·m', runningMax: '3 N·m' };
    const [included, added, unsaid] = judgedRows([
      { ...plain, ...running, runningIncluded: 'yes' },
      { ...plain, ...running, runningIncluded: 'no' },
      { ...plain, ...running },
    ]);
    expect(included?.computed).toMatchObject({ aimNm: { min: 40, max: 50 }, seatingNm: { min: 37, max: 49 } });
    expect(added?.computed).toMatchObject({ aimNm: { min: 43, max: 51 }, seatingNm: { min: 40, max: 50 } });
    expect(unsaid?.computed).toMatchObject({
      seatingNm: { min: 37, max: 49 },
      ifRunningAdded: { aimNm: { min: 43, max: 51 }, seatingNm: { min: 40, max: 50 } },
    });
  });

  it('leaves nothing where it takes the whole band', () => {
    const row = judged({ ...plain, runningMin: '51 N·m', runningMax: '60 N·m', runningIncluded: 'yes' });
    expect(fired(row, 'empty-band')).toEqual(['reject']);
  });

  it('makes a tool that keeps to the band too coarse for what is left, in a note', () => {
    const row = judged({
      ...plain,
      runningMin: '1 N·m',
      runningMax: '8 N·m',
      runningIncluded: 'no',
      toolAccuracy: '8 %',
    });
    expect(fired(row, 'tool-too-coarse')).toEqual([]);
    expect(fired(row, 'tool-too-coarse-with-running')).toEqual(['note']);
  });
});

describe('what is shown beside', () => {
  it('is every document that has the thread, agreeing or not', () => {
    const row = judged({
      thread: '1/4-28',
      torqueMin: '50 lbf·in',
      torqueMax: '70 lbf·in',
      locking: 'NASM25027',
      runningIncluded: 'yes',
    });
    expect(row.computed.locking?.document).toBe('MIL-DTL-45916C');
    expect(row.computed.bands.agreeing.length).toBeGreaterThanOrEqual(1);
    expect(fired(row, 'outside-published-band')).toEqual([]);
  });

  it('is the preload and its shares: M10 8.8, K 0.12, 45 to 50 N·m', () => {
    const row = judged({ ...plain, torqueMin: '45 N·m', strength: '8.8', nutFactor: '0.12' });
    expect(row.computed.preloadN?.max).toBeCloseTo(41_666.67, 1);
    expect(row.computed.proofShare?.max).toBeCloseTo(41_666.67 / 57.99 / 580, 3);
  });

  it('is the turn after the snug torque, as a length', () => {
    expect(judged({ ...plain, angle: '60 deg ± 6 deg' }).computed.turn?.advanceMm.max).toBeCloseTo(
      (66 / 360) * 1.5,
      12,
    );
  });

  it('tells an id that stands twice', () => {
    const rows = judgedRows([
      { id: 'A', ...plain },
      { id: 'A', ...plain },
    ]);
    expect(rows.map((row) => fired(row, 'repeated-id'))).toEqual([[], ['note']]);
  });

  it('does not judge the least preload of a joint that goes on by a turn', () => {
    const joint = { ...plain, nutFactor: '0.2', preloadMin: '40 kN' };
    expect(fired(judged(joint), 'preload-below-minimum')).toEqual(['reject']);
    expect(fired(judged({ ...joint, angle: '60 deg' }), 'preload-below-minimum')).toEqual([]);
  });
});
