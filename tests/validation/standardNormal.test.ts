/** The standard normal distribution against a printed table, from memory, and an error function computed elsewhere. */
import { erf } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { standardNormalCdf, standardNormalQuantile } from '../../renderer/engine/chance/normal.ts';
import { fault, numberOf, printed } from './values/printed.ts';

const { source, obtained, rows } = printed<{ z: string; share: string }>('standard-normal');

describe(`${source.table} (${obtained})`, () => {
  it('has 24 rows', () => {
    expect(rows).toHaveLength(24);
  });

  it.each(rows)('Φ($z) is $share', ({ z, share }) => {
    expect(fault(standardNormalCdf(numberOf(z)), share)).toBeNull();
  });

  it.each(rows.filter(({ z }) => z.length === 6))('$share lies below $z', ({ z, share }) => {
    expect(fault(standardNormalQuantile(numberOf(share)), z)).toBeNull();
  });
});

it('agrees with an error function of another make at 4,000 places', () => {
  for (let n = 0; n < 4000; n += 1) {
    const z = -5 + n / 400;
    expect(Math.abs(standardNormalCdf(z) - (1 + erf(z / Math.SQRT2)) / 2)).toBeLessThan(1e-14);
  }
});
