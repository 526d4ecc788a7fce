/**
 * A hash as it is printed and read out: its first eight digits in two groups.
 *
 * @param hash - 64 hexadecimal digits
 * @returns "7f3a 91c2"
 */
export function shortHash(hash: string): string {
  return `${hash.slice(0, 4)} ${hash.slice(4, 8)}`;
}
