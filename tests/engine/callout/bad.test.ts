/** Callouts that cannot be read: all told in one go, with row, field, value and reason. Source: the headless contract. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Refusal } from '../../../shared-types/errors.ts';
import { calloutColumns } from '../../../shared-types/callout.ts';
import { judgeCallouts } from '../../../renderer/engine/callout/index.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { csvOf, type Cells } from './judged.ts';
import { shareOf } from '../../support/shareOf.ts';

const plain: Cells = { id: 'A', thread: 'M10', torqueMin: '40 N·m', torqueMax: '50 N·m' };

function refusalOf(rows: readonly Cells[]): Refusal {
  try {
    judgeCallouts({ content: csvOf(rows), file: 'c.csv', skipBad: false });
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

const friction = { frictionThread: '0.1', frictionBearing: '0.1', bearingDiameter: '13 mm' };

const bad: [string, Cells, string, RegExp][] = [
  ['no id', { id: '' }, 'id', /empty/],
  ['no thread', { thread: '' }, 'thread', /empty/],
  ['a thread that is none', { thread: 'Q10' }, 'thread', /read/],
  ['a thread that became a date', { thread: '32-Oct' }, 'thread', /date/],
  ['no torque', { torqueMax: '' }, 'torqueMax', /empty/],
  ['a bare number', { torqueMin: '40' }, 'torqueMin', /unit/],
  ['nanometres', { torqueMin: '40 nm' }, 'torqueMin', /nanometre/],
  ['thousands', { torqueMin: '1,200 lbf·in' }, 'torqueMin', /two ways/],
  ['a unit of another kind', { torqueMin: '40 mm' }, 'torqueMin', /length.*torque/],
  ['a torque below 0', { torqueMin: '-1 N·m' }, 'torqueMin', /0 or more/],
  ['a greatest torque of 0', { torqueMax: '0 N·m' }, 'torqueMax', /more than 0/],
  ['a torque nothing gives', { torqueMax: '1e300 N·m' }, 'torqueMax', /at most/],
  ['two ways of one band', { torque: '45 N·m', tolerance: '5 N·m' }, 'torque', /one of the two/],
  ['a formula', { torqueMin: '=40&" N·m"' }, 'torqueMin', /formula/],
  ['a band that is none', { torqueAlt: 'about 60 N·m' }, 'torqueAlt', /band/],
  ['a band of two kinds', { torqueAlt: '60 mm - 70 N·m' }, 'torqueAlt', /torque/],
  ['a band turned round', { torqueAlt: '70-60 N·m' }, 'torqueAlt', /least above its greatest/],
  ['a strength nobody holds', { strength: '9.9' }, 'strength', /held/],
  ['a strength on a size outside its range', { strength: 'SAE J429 grade 5' }, 'strength', /M10/],
  ['a head that is none', { head: 'round' }, 'head', /none of/],
  ['a wrench that became a date', { wrench: '8-Mar' }, 'wrench', /3\/8/],
  ['a wrench that became the number of a day', { wrench: '45359' }, 'wrench', /number of a day/],
  ['a wrench without a unit', { wrench: '16' }, 'wrench', /unit/],
  ['running torque turned round', { runningMin: '3 N·m', runningMax: '2 N·m' }, 'runningMin', /above runningMax/],
  ['neither yes nor no', { runningIncluded: 'maybe' }, 'runningIncluded', /yes, no/],
  ['a nut factor of 0', { nutFactor: '0' }, 'nutFactor', /0\.001 to 10/],
  ['a nut factor in per cent', { nutFactor: '20 %' }, 'nutFactor', /number/],
  ['nut factor and friction', { nutFactor: '0.2', ...friction }, 'nutFactor', /one of the two/],
  ['a third of the friction', { frictionThread: '0.1' }, 'frictionBearing', /frictionThread/],
  ['friction of 1', { ...friction, frictionThread: '1' }, 'frictionThread', /below 1/],
  ['a scatter of 1', { scatter: '100 %' }, 'scatter', /below 1/],
  ['a scatter that is no number', { scatter: 'some' }, 'scatter', /number/],
  ['an engagement longer than can be', { engagement: '200 mm' }, 'engagement', /diameters/],
  ['an engagement of 0', { engagement: '0 mm' }, 'engagement', /more than 0/],
  ['a strength no material has', { internalUltimate: '1 Pa' }, 'internalUltimate', /material/],
  ['preload limits turned round', { preloadMin: '20 kN', preloadMax: '10 kN' }, 'preloadMin', /above preloadMax/],
  ['a mass for a force', { preloadMin: '20 kg' }, 'preloadMin', /force/],
  ['an accuracy of 4 instead of 4 %', { toolAccuracy: '4' }, 'toolAccuracy', /4 %/],
  ['passes that are none', { passes: '20-25 N·m; hand tight' }, 'passes', /band/],
  ['a turn of 0', { angle: '0 deg' }, 'angle', /more than 0/],
  ['a turn in N·m', { angle: '60 N·m' }, 'angle', /angle/],
];

describe('a callout that cannot be read', () => {
  it.each(bad)('%s', (_, cells, field, reason) => {
    const told = refusalOf([{ ...plain, ...cells }]);
    expect(told.rows?.map((each) => each.field)).toContain(field);
    const own = told.rows?.find((each) => each.field === field);
    expect(own).toMatchObject({ file: 'c.csv', row: 2 });
    expect(own?.message).toMatch(reason);
    const [value] = [cells[field]];
    if (value !== undefined && value !== '' && own?.value !== undefined) expect(own.value).toBe(value);
  });

  it('is told with all the others, each field once, in the order of the lines', () => {
    const told = refusalOf([
      plain,
      { ...plain, torqueMin: 'x', wrench: '8-Mar' },
      { ...plain, thread: '=A1' },
      plain,
      { ...plain, scatter: '2', torqueMax: '' },
    ]);
    expect(told.rows?.map(({ row, field }) => `${row} ${field}`).toSorted()).toEqual([
      '3 torqueMin',
      '3 wrench',
      '4 thread',
      '6 scatter',
      '6 torqueMax',
    ]);
    expect(told.rows?.map(({ row }) => row)).toEqual([3, 3, 4, 6, 6]);
    expect(told).toMatchObject({ row: 3, code: 'unreadable-quantity' });
  });

  it('is passed over and listed where that is asked for', () => {
    const content = csvOf([plain, { ...plain, torqueMin: 'x' }, { ...plain, id: 'C' }]);
    const result = judgeCallouts({ content, skipBad: true });
    expect(result.rows.map(({ id, row }) => [id, row])).toEqual([
      ['A', 2],
      ['C', 4],
    ]);
    expect(result.skipped).toMatchObject([{ row: 3, field: 'torqueMin', value: 'x' }]);
    expect(result.read.rows).toBe(3);
    expect(judgeCallouts({ content: csvOf([plain]), skipBad: false })).not.toHaveProperty('skipped');
  });

  it('needs one of the two ways to write a band', () => {
    expect(refusalOf([{ id: 'A', thread: 'M10', torque: '45 N·m' }])).toMatchObject({
      code: 'missing-field',
      field: 'tolerance',
      row: 1,
    });
    expect(refusalOf([{ ...plain, torqueMin: '', torqueMax: '', torque: '45 N·m', tolerance: '' }]).rows).toMatchObject(
      [{ field: 'tolerance', row: 2 }],
    );
  });
});

describe('whatever stands in a file', () => {
  const pieces = fc.constantFrom(
    '40 N·m',
    '45 lbf·ft',
    '1/4-28',
    'M10',
    '8.8',
    '=1+1',
    '8-Mar',
    '"',
    '""',
    '\n',
    '\r\n',
    ',',
    ';',
    '\t',
    '62-67 N·m',
    '%',
    '-',
    '',
    'yes',
    'no',
    'hex',
    '16 mm',
    'ISO 2320',
    '0.2',
    '99999999999999999999',
    '1e308',
    '\u202E',
    '😀',
    "'",
    '__proto__',
    '±',
    '5 %',
    '{}',
    '[',
  );
  const cells = fc
    .array(fc.oneof(pieces, fc.string({ maxLength: 8 })), { maxLength: 4 })
    .map((parts) => parts.join(' '));
  const row = fc.dictionary(fc.constantFrom(...calloutColumns), cells, { maxKeys: 12 });

  it('is judged, or refused with a reason: nothing else comes of it', () => {
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 6 }), fc.boolean(), (rows, skipBad) => {
        const given = rows.map((each): Cells => ({ ...plain, ...each }));
        try {
          const { rows: judged, skipped = [] } = judgeCallouts({ content: csvOf(given), skipBad });
          expect(judged.length + new Set(skipped.map((refusal) => refusal.row)).size).toBe(given.length);
          for (const { computed } of judged) expect(JSON.stringify(computed)).not.toMatch(/NaN|Infinity/);
        } catch (error) {
          expect(error).toBeInstanceOf(RefusedError);
        }
      }),
      { numRuns: shareOf(2000), seed: 1126 },
    );
  });

  it('is so of bytes too', () => {
    const head = new TextEncoder().encode('id,thread,torqueMin,torqueMax\nA,M10,40 N·m,50 N·m\n');
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), fc.nat({ max: head.length }), (bytes, at) => {
        for (const content of [bytes, Uint8Array.from([...head.slice(0, at), ...bytes, ...head.slice(at)])]) {
          try {
            expect(judgeCallouts({ content, skipBad: true }).rows.length).toBeGreaterThanOrEqual(0);
          } catch (error) {
            expect(error).toBeInstanceOf(RefusedError);
          }
        }
      }),
      { numRuns: shareOf(2000), seed: 1126 },
    );
  });
});
