/** Names of a bag's pockets, as they are typed: one text, with semicolons between them. */

/** Each name without blanks around it, in the order given. */
export function pocketsOf(typed: string): string[] {
  return typed.split(';').map((name) => name.trim());
}

/** Whether each pocket has a name, and none the name of another. */
export function arePockets(typed: string): boolean {
  const names = pocketsOf(typed);
  return names.every((name) => name !== '' && name.length <= 80) && new Set(names).size === names.length;
}
