import { correction, generate, mode } from 'lean-qr';
import { RefusedError } from '../errors.ts';

/** White around the square, in modules. */
export const qrQuiet = 4;

/**
 * A QR code of digits, level Q: read though a quarter of it is covered.
 *
 * @param digits - what it carries; 12 digits fit the smallest, 21 modules wide
 * @returns rows of dark (true) and light modules, without the white around
 * @throws RefusedError for anything but digits
 * @source ISO/IEC 18004, numeric mode; made by the package lean-qr
 * @validity level Q and no other, so that every label is of one size
 * @example qrModules('100012300469').length // 21
 */
export function qrModules(digits: string): boolean[][] {
  if (!/^\d+$/.test(digits))
    throw new RefusedError({ code: 'wrong-shape', message: 'a label’s square carries digits alone', value: digits });
  const { Q } = correction;
  const code = generate(mode.numeric(digits), { minCorrectionLevel: Q, maxCorrectionLevel: Q });
  const places = Array.from({ length: code.size }, (_, at) => at);
  return places.map((y) => places.map((x) => code.get(x, y)));
}
