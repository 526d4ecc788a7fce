import type { OpeningForm } from '../../../shared-types/plan.ts';

/**
 * Step angle of a tool without a ratchet: it is lifted and set again on the next flats.
 *
 *   360° ÷ the number of positions in which the opening goes on
 *
 * @param opening - form of the socket's opening
 * @returns [deg]
 * @throws nothing
 * @source the contract's rule 13; start positions of 6 and 12 points: common practice, no source
 * @validity six flats on the head, or four for a square
 * @example resetAngleDeg('hex12') // 30
 */
export function resetAngleDeg(opening: OpeningForm): number {
  return resets[opening];
}

const resets: Record<OpeningForm, number> = { hex6: 60, hexKey: 60, hexalobular: 60, hex12: 30, square: 90 };
