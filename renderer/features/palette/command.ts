/** Everything the window can do, once: the palette lists it, the keys call it, the Keys sheet explains it. */
export interface Command {
  id: string;
  kind: 'Go' | 'Do';
  title: string;
  /** Keys pressed one after another, as `['g', 's']`; null where it has none. */
  keys: readonly string[] | null;
  /** Why it cannot be done now; null where it can. */
  hindered: string | null;
  run: () => void;
}

/** One key combination of those used, as it stands on a keyboard. */
export function keysText(keys: readonly string[]): string {
  return keys.map((key) => (key.length === 1 ? key.toUpperCase() : key)).join(' then ');
}
