import { RefusedError } from '../../errors.ts';

/**
 * Refuses a number a formula is not valid for. Every comparison with NaN is false, so that NaN is refused with the rest.
 *
 * @param holds - whether the number lies in the formula's range
 * @param quantity - what it is, as a person says it
 * @param value - the number
 * @param range - the range it must lie in
 * @throws RefusedError out-of-range, or not-finite
 */
export function demand(holds: boolean, quantity: string, value: number, range: string): void {
  if (holds && Number.isFinite(value)) return;
  throw new RefusedError({
    code: Number.isFinite(value) ? 'out-of-range' : 'not-finite',
    message: `The ${quantity} must be ${range}; it is ${value}.`,
    value: Number.isFinite(value) ? value : String(value),
  });
}
