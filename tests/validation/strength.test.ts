/**
 * Proof and ultimate loads of ISO 898-1 against print: strength by the name of its class, times the stress area of the designation.
 * The printed loads are nowhere in the program.
 */
import { describe, expect, it } from 'vitest';
import { proofLoadN, readStrength, ultimateLoadN } from '../../renderer/engine/strength/index.ts';
import { readThread } from '../../renderer/engine/thread/index.ts';
import { fault, faultWithin, numberOf, printed, type Miss } from './values/printed.ts';

interface Row {
  thread: string;
  printed: Record<string, string>;
}

/** The load of the weakest bolt of a class on a thread. */
function load(kind: 'proofMPa' | 'ultimateMPa', thread: string, propertyClass: string, areaDigits = 17): number {
  const sized = readThread(thread);
  const stressAreaMm2 = Number(sized.stressAreaMm2.toPrecision(areaDigits));
  const strengthMPa = readStrength(propertyClass, { thread: sized, field: 'strength' })[kind] ?? Number.NaN;
  return kind === 'proofMPa'
    ? proofLoadN({ proofMPa: strengthMPa, stressAreaMm2 })
    : ultimateLoadN({ ultimateMPa: strengthMPa, stressAreaMm2 });
}

function cells(rows: readonly Row[]) {
  return rows.flatMap((row) =>
    Object.entries(row.printed).map(([propertyClass, text]) => ({ thread: row.thread, propertyClass, text })),
  );
}

describe('proof loads of ISO 898-1, Table 7', () => {
  const { rows, source } = printed<Row>('proof-loads-coarse-iso-898-1');
  const misses: Record<string, Miss> = {
    'M6 8.8': { by: 72, reason: '580 MPa × 20.1 mm² = 11 658 N, printed 11600: cut off, not rounded' },
  };

  it('has 10 threads and 87 loads', () => {
    expect(rows).toHaveLength(10);
    expect(cells(rows)).toHaveLength(87);
  });

  // The tolerance is the source file's own: the table multiplies areas and rounds by rules that are not printed with it.
  it.each(cells(rows))('$thread class $propertyClass: $text N within 0.6 %', ({ thread, propertyClass, text }) => {
    const computed = load('proofMPa', thread, propertyClass);
    const miss = misses[`${thread} ${propertyClass}`];
    expect(
      miss === undefined
        ? faultWithin(computed, text, 0.006 * numberOf(text), source)
        : fault(computed, text, miss, 3, source),
    ).toBeNull();
  });
});

describe('minimum ultimate loads of ISO 898-1, Table 6', () => {
  const { rows, source } = printed<Row>('ultimate-loads-coarse-iso-898-1');
  const cutOff = 'cut off to three digits, not rounded';
  const misses: Record<string, Miss> = {
    'M6 5.8': { by: 52, reason: `520 MPa × 20.1 mm² = 10 452 N, printed 10400: ${cutOff}` },
    'M16 6.8': { by: 200, reason: '600 MPa × 157 mm² = 94 200 N, printed 94000: from the area before its rounding' },
    'M16 8.8': { by: 600, reason: `800 MPa × 157 mm² = 125 600 N, printed 125000: ${cutOff}` },
  };

  it('has 10 threads and 96 loads', () => {
    expect(rows).toHaveLength(10);
    expect(cells(rows)).toHaveLength(96);
  });

  // The table multiplies stress areas of three digits; the program does not round them, and stays within 0.7 % of every load.
  it.each(cells(rows))('$thread class $propertyClass: $text N', ({ thread, propertyClass, text }) => {
    const rounded = load('ultimateMPa', thread, propertyClass, 3);
    expect(fault(rounded, text, misses[`${thread} ${propertyClass}`], 3, source)).toBeNull();
    expect(Math.abs(load('ultimateMPa', thread, propertyClass) / numberOf(text) - 1)).toBeLessThan(0.007);
  });
});
