import type { Decision } from '../../../shared-types/judged.ts';
import type { BandNm } from '../plan/resolved.ts';
import { atLeast, atMost } from '../tolerance.ts';

/**
 * Whether a torque known only as a band lies where it shall.
 *
 *   conforming: applied ⊆ aim; nonconforming: applied ∩ aim = ∅; else indeterminate. Both bands include their ends, so bands that
 *   touch at one end have that torque in common and are indeterminate.
 *
 * @param applied - the torque applied, over the tool's permissible deviation [N·m]
 * @param aim - where it shall lie [N·m]
 * @returns the decision
 * @throws nothing
 * @source interval rule after ISO 14253-1 (from memory), applied to a permissible deviation, which is no expanded uncertainty
 * @validity limits are compared within 1e-9, relative
 * @example intervalDecision({ minNm: 24, maxNm: 26 }, { minNm: 20, maxNm: 25 }) // "indeterminate"
 */
export function intervalDecision(applied: BandNm, aim: BandNm): Decision {
  if (atLeast(applied.minNm, aim.minNm) && atMost(applied.maxNm, aim.maxNm)) return 'conforming';
  const meets = atLeast(applied.maxNm, aim.minNm) && atMost(applied.minNm, aim.maxNm);
  return meets ? 'indeterminate' : 'nonconforming';
}
