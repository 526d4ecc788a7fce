/** Student's distribution against a printed table, from memory, and the integral of its density, computed here by Simpson's rule. */
import { lgamma } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { studentDeviate, studentShareWithin } from '../../renderer/engine/chance/studentT.ts';
import { fault, numberOf, printed } from './values/printed.ts';

const { source, obtained, rows } = printed<{ degrees: string; share: string; t: string }>('student-t');

describe(`${source.table} (${obtained})`, () => {
  it('has 39 rows', () => {
    expect(rows).toHaveLength(39);
  });

  it.each(rows)('$share lies within $t with $degrees degrees of freedom', ({ degrees, share, t }) => {
    expect(fault(studentDeviate(numberOf(share), numberOf(degrees)), t)).toBeNull();
  });
});

/** The share within t, twice the integral of the density from 0. */
function integrated(t: number, degrees: number): number {
  const logScale = Number(lgamma((degrees + 1) / 2)) - Number(lgamma(degrees / 2)) - Math.log(Math.PI * degrees) / 2;
  const density = (x: number): number => Math.exp(logScale - ((degrees + 1) / 2) * Math.log1p((x * x) / degrees));
  const parts = 4000;
  const step = t / parts;
  let sum = density(0) + density(t);
  for (let part = 1; part < parts; part += 1) sum += (part % 2 === 1 ? 4 : 2) * density(part * step);
  return (2 * sum * step) / 3;
}

it('agrees with the integral of the density for 1 to 60 degrees of freedom', () => {
  for (let degrees = 1; degrees <= 60; degrees += 1)
    for (const t of [0.1, 0.7, 1.3, 2, 3.5, 6])
      expect(studentShareWithin(t, degrees)).toBeCloseTo(integrated(t, degrees), 9);
});

it('takes whole degrees of freedom from 1 to 100,000, and shares between 0 and 1', () => {
  expect(studentDeviate(0.95, 100_000)).toBeCloseTo(1.96, 3);
  for (const degrees of [0, 1.5, -1, 100_001, Number.NaN])
    expect(() => studentDeviate(0.95, degrees)).toThrow('100000');
  for (const share of [0, 1, -0.5, Number.NaN]) expect(() => studentDeviate(share, 5)).toThrow('share');
  for (const t of [-1, Number.NaN]) expect(() => studentShareWithin(t, 5)).toThrow('deviate');
  // Of one degree of freedom the share is (2/π)·arctan t.
  expect(studentDeviate(1 - 1e-9, 1) / Math.tan((Math.PI / 2) * (1 - 1e-9))).toBeCloseTo(1, 6);
});

it('undoes itself', () => {
  for (const degrees of [1, 2, 3, 7, 12, 99, 1000])
    for (const share of [0.001, 0.5, 0.8, 0.95, 0.999, 0.999_999])
      expect(studentShareWithin(studentDeviate(share, degrees), degrees)).toBeCloseTo(share, 12);
});
