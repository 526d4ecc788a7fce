/**
 * Thread stripping against print: limits of size of ASME B1.1, shear areas of FED-STD-H28/2B, inserts of NASA TM-106943. Areas and
 * limits come out of the headless command's own function; none of the printed numbers is in the program.
 */
import { describe, expect, it } from 'vitest';
import type { EngagementResult } from '../../shared-types/engagement.ts';
import { engagementFrom } from '../../renderer/engine/engagement/index.ts';
import { insertShearAreasMm2, pullOutLoadN } from '../../renderer/engine/engagement/inserts.ts';
import { shearStrengthMPa } from '../../renderer/engine/strength/index.ts';
import { readThread } from '../../renderer/engine/thread/index.ts';
import { convertValue } from '../../renderer/engine/units/index.ts';
import { fault, faultWithin, numberOf, printed, type Miss } from './values/printed.ts';

describe('shear areas at one diameter, FED-STD-H28/2B', () => {
  interface Row {
    thread: string;
    engagementIn: string;
    printed: Record<string, string>;
  }
  const { rows, source } = printed<Row>('shear-areas-fed-std-h28-2b');
  const cells = rows.flatMap((row) => Object.entries(row.printed).map(([column, text]) => ({ row, column, text })));

  function areaIn2(row: Row, column: string): number {
    if (column === 'stressArea') return readThread(row.thread).stressAreaMm2 / 645.16;
    const [side = '', classes = ''] = column.split(' ');
    const [externalClass, internalClass] = classes.split('/');
    const result = engagementFrom({
      thread: row.thread,
      externalClass,
      internalClass,
      engagement: `${row.engagementIn} in`,
    });
    return (side === 'external' ? result.shearAreaExternalMm2 : result.shearAreaInternalMm2) / 645.16;
  }

  /** The tolerances of the source file, which has print and formula side by side. */
  function share(row: Row, column: string): number {
    if (column !== 'external 2A/2B') return 0.005;
    return row.thread === '0.875-9' ? 0.015 : 0.01;
  }

  it('has 14 threads and 68 areas', () => {
    expect(rows).toHaveLength(14);
    expect(cells).toHaveLength(68);
  });

  it.each(cells)('$row.thread, $column: $text in²', ({ row, column, text }) => {
    const computed = areaIn2(row, column);
    expect(faultWithin(computed, text, share(row, column) * numberOf(text), source)).toBeNull();
  });
});

describe('limits of size, ASME B1.1 (from memory)', () => {
  interface Row {
    thread: string;
    externalClass: string;
    internalClass: string;
    printed: Record<string, string>;
  }
  const { rows, source } = printed<Row>('limits-of-size-asme-b1.1');
  const rounded: Miss = {
    by: 0.0001,
    reason: 'the standard rounds allowance and tolerances to four decimals before it takes them off',
  };
  const misses: Record<string, Miss> = {
    '1/2-13 majorExternalMinIn': rounded,
    '1/2-13 pitchExternalMinIn': rounded,
    '3/8-16 majorExternalMinIn': rounded,
  };
  const fields: Record<string, keyof EngagementResult['limits']> = {
    majorExternalMinIn: 'majorExternalMinMm',
    pitchExternalMinIn: 'pitchExternalMinMm',
    pitchInternalMaxIn: 'pitchInternalMaxMm',
    minorInternalMaxIn: 'minorInternalMaxMm',
  };
  const cells = rows.flatMap((row) => Object.entries(row.printed).map(([column, text]) => ({ row, column, text })));

  it('has 2 threads and 8 limits', () => {
    expect(cells).toHaveLength(8);
  });

  it.each(cells)('$row.thread $column: $text', ({ row: { thread, externalClass, internalClass }, column, text }) => {
    const { limits } = engagementFrom({ thread, externalClass, internalClass, engagement: '0.5 in' });
    const field = fields[column];
    if (field === undefined) throw new Error(`no field ${column}`);
    expect(fault(limits[field] / 25.4, text, misses[`${thread} ${column}`], undefined, source)).toBeNull();
  });
});

const a286 = 'A-286';
const cres = '300-series CRES';
/** The parent metal of the memorandum's Table V, in no table of the program. */
const parent6061Ksi = 27;

function pullOutLbf(areaIn2: number, shearMPa: number): number {
  const newtons = pullOutLoadN({ shearAreaMm2: convertValue(areaIn2, 'in2', 'mm2'), shearStrengthMPa: shearMPa });
  return convertValue(newtons, 'N', 'lbf');
}

describe('internal threads of inserts, NASA TM-106943, Table III', () => {
  interface Row {
    thread: string;
    majorIn: string;
    engagementIn: string;
    printed: { a286Lbf: string; cresLbf: string };
  }
  const { rows, source } = printed<Row>('insert-internal-thread-nasa-tm-106943');
  const misses: Record<string, Miss> = {
    '6-32 a286Lbf': { by: 10, reason: 'printed 4988 for 4998, a misprint' },
  };

  it('has 8 threads', () => {
    expect(rows).toHaveLength(8);
  });

  it.each(rows)('$thread', (row) => {
    const thread = readThread(row.thread);
    expect(thread.majorMm / 25.4).toBeCloseTo(Number(row.majorIn), 12);
    const areas = insertShearAreasMm2({ thread, engagementMm: Number(row.engagementIn) * 25.4 });
    const areaIn2 = (areas?.internal ?? Number.NaN) / 645.16;
    const load = {
      a286Lbf: pullOutLbf(areaIn2, shearStrengthMPa(a286)),
      cresLbf: pullOutLbf(areaIn2, shearStrengthMPa(cres)),
    };
    expect(fault(load.a286Lbf, row.printed.a286Lbf, misses[`${row.thread} a286Lbf`], undefined, source)).toBeNull();
    expect(fault(load.cresLbf, row.printed.cresLbf, undefined, undefined, source)).toBeNull();
  });
});

describe('external threads of inserts and parent metal, NASA TM-106943, Tables IV and V', () => {
  interface Row {
    thread: string;
    areaIn2: string;
    printed: { a286Lbf: string; cresLbf: string; parent6061Lbf: string };
  }
  const { rows, source } = printed<Row>('insert-external-thread-nasa-tm-106943');

  it('has 8 threads', () => {
    expect(rows).toHaveLength(8);
  });

  it.each(rows)('$thread', (row) => {
    const area = Number(row.areaIn2);
    expect(
      fault(pullOutLbf(area, shearStrengthMPa(a286)), row.printed.a286Lbf, undefined, undefined, source),
    ).toBeNull();
    expect(
      fault(pullOutLbf(area, shearStrengthMPa(cres)), row.printed.cresLbf, undefined, undefined, source),
    ).toBeNull();
    expect(fault(pullOutLbf(area, convertValue(parent6061Ksi, 'ksi', 'MPa')), row.printed.parent6061Lbf)).toBeNull();
  });
});
