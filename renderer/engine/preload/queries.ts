import type { JointNumbers, JointQuery } from '../../../shared-types/joint.ts';
import { atMost } from '../tolerance.ts';
import { showNumber } from '../units/index.ts';

/**
 * What the numbers of a joint say against it: the result stands as computed, and this beside it.
 *
 *   least preload < 0; greatest tension > Sp; greatest equivalent stress > Rp
 *
 * @param numbers - as computeJoint gives them
 * @returns one query for each rule that is broken, in that order; none where a share is not known
 * @throws nothing
 * @source meaning of the quantities: a joint without clamp load is open; ISO 898-1 for proof load
 * @validity as computeJoint
 * @example a least preload of −30 000 N: preload-below-zero
 */
export function queriesOf({ preloadN, proofShare, yieldShare }: JointNumbers): JointQuery[] {
  const queries: JointQuery[] = [];
  if (preloadN.min < 0) {
    queries.push({
      rule: 'preload-below-zero',
      message: `The least preload is ${showNumber(preloadN.min)} N: losses take all of it, and the joint opens.`,
    });
  }
  if (proofShare !== null && !atMost(proofShare.max, 1)) {
    queries.push({
      rule: 'preload-over-proof',
      message: `The greatest preload is ${percent(proofShare.max)} % of the proof load: above it, the fastener is permanently stretched.`,
    });
  }
  if (yieldShare !== null && !atMost(yieldShare.max, 1)) {
    queries.push({
      rule: 'preload-over-yield',
      message: `The greatest equivalent stress is ${percent(yieldShare.max)} % of the yield strength: the numbers hold below yield alone.`,
    });
  }
  return queries;
}

function percent(share: number): string {
  return showNumber(100 * share);
}
