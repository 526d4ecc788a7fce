/** A wish from outside of a sheet, as the palette has it: kept until the sheet that can fulfil it takes it. */
export interface Asking<Wish> {
  ask: (wish: Wish) => void;
  /** What is wished now; taken off by `take`. */
  wish: () => Wish | null;
  take: () => void;
  subscribe: (listener: () => void) => () => void;
}

export function createAsking<Wish>(): Asking<Wish> {
  let wish: Wish | null = null;
  const listeners = new Set<() => void>();
  const set = (next: Wish | null): void => {
    wish = next;
    for (const listener of listeners) listener();
  };
  return {
    ask: (next) => set(next),
    wish: () => wish,
    take: () => set(null),
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
