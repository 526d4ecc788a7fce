import { RefusedError } from '../errors.ts';

/** Widths of bar, space, bar, space, bar, space of the values 0 to 105; 103 to 105 begin a symbol, in set A, B, C. */
const widths = (
  '212222 222122 222221 121223 121322 131222 122213 122312 132212 221213 221312 231212 112232 122132 122231 113222 ' +
  '123122 123221 223211 221132 221231 213212 223112 312131 311222 321122 321221 312212 322112 322211 212123 212321 ' +
  '232121 111323 131123 131321 112313 132113 132311 211313 231113 231311 112133 112331 132131 113123 113321 133121 ' +
  '313121 211331 231131 213113 213311 213131 311123 311321 331121 312113 312311 332111 314111 221411 431111 111224 ' +
  '111422 121124 121421 141122 141221 112214 112412 122114 122411 142112 142211 241211 221114 413111 241112 134111 ' +
  '111242 121142 121241 114212 124112 124211 411212 421112 421211 212141 214121 412121 111143 111341 131141 114113 ' +
  '114311 411113 411311 113141 114131 311141 411131 211412 211214 211232'
).split(' ');

const startC = 105;
const stop = '2331112';

/** White on both sides of the bars, in widths of the narrowest bar. */
export const code128Quiet = 10;

/**
 * Code 128, set C: digits as bars, two digits to a character.
 *
 *   start C, pairs, check, stop;  check = (105 + Σ i·value_i) mod 103
 *
 * @param digits - an even number of digits
 * @returns widths of bar, space, bar, … in widths of the narrowest bar, without the white around
 * @throws RefusedError for anything else
 * @source ISO/IEC 15417, Table 1 (widths) and annex on the symbol check character; read from public pages that print the
 *   table, each pattern counted to 11 modules and read back by another program in the tests
 * @validity set C alone
 * @example code128Widths('1234').length // 31
 */
export function code128Widths(digits: string): number[] {
  if (!/^(?:\d\d)+$/.test(digits))
    throw new RefusedError({ code: 'wrong-shape', message: 'set C takes pairs of digits', value: digits });
  const values = [startC, ...(digits.match(/\d\d/g) ?? []).map(Number)];
  const check = values.reduce((sum, value, at) => sum + value * Math.max(1, at), 0) % 103;
  const text = [...values, check].map((value) => widths[value] ?? '').join('') + stop;
  return [...text].map(Number);
}
