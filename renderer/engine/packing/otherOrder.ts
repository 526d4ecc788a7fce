import { drawsOf } from '../chance/draws.ts';

/**
 * The same things in another order, so that who counts again does not go through them as the packer did.
 *
 * @param things - in the manifest's order
 * @param seed - whole number; the same seed gives the same order
 * @returns a new list; with two things or more never in the order given
 */
export function otherOrder<T>(things: readonly T[], seed: number): T[] {
  const { uniform } = drawsOf(seed);
  const left = [...things];
  const order: T[] = [];
  while (left.length > 0) order.push(...left.splice(Math.floor(uniform() * left.length), 1));
  const same = order.every((thing, index) => thing === things[index]);
  return same ? [...order.slice(1), ...order.slice(0, 1)] : order;
}
