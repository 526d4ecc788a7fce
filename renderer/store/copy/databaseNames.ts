/** Databases of one profile share a base and are numbered: each that is built beside another has the next number. */

/** The part of a name that all databases of one profile share. */
export const baseOf = (name: string): string => name.replace(/-\d+$/, '');

export function numberOf(name: string): number {
  return Number(/-(\d+)$/.exec(name)?.[1] ?? 0);
}
