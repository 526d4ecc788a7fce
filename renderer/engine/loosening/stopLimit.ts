import type { StopLimit } from '../../../shared-types/joint.ts';

/** Something in the string between hand and root, with the torque it may carry; null where no rating is held. */
export interface Rated {
  name: string;
  ratedNm: number | null;
}

/**
 * Torque at which to stop when a fastener will not turn, and the part that sets it.
 *
 *   least of the driver's maximum, each part's rated torque, and, while seated, the torque at which the root shears
 *
 * @param parts - the driver, every part of the stack and, while seated, the root; each with its torque [N·m], > 0, or null
 * @returns the least torque [N·m] with the first part that has it; without a limit where any part's torque is not held
 * @throws nothing
 * @source common practice, no source: a string is as strong as its weakest part
 * @validity slow, steady turning; impact loads part and fastener beyond what is shown here
 * @example stopLimit([{ name: 'ratchet', ratedNm: 200 }, { name: 'root', ratedNm: 40 }]) // 40, set by the root
 */
export function stopLimit(parts: readonly Rated[]): StopLimit {
  const unrated = parts.filter((part) => part.ratedNm === null).map((part) => part.name);
  if (unrated.length > 0 || parts.length === 0) {
    const reason = `no stop limit: no torque is held for ${unrated.length === 0 ? 'any part' : unrated.join(', ')}`;
    return { torqueNm: null, setBy: null, reason };
  }
  let least: { name: string; torqueNm: number } | null = null;
  for (const { name, ratedNm } of parts) {
    if (ratedNm !== null && (least === null || ratedNm < least.torqueNm)) least = { name, torqueNm: ratedNm };
  }
  return { torqueNm: least?.torqueNm ?? null, setBy: least?.name ?? null, reason: null };
}
