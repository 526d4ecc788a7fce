/** A value that is never edited in place, and those who want to know when it is another. */
export interface Topic<T> {
  get(): T;
  set(value: T): void;
  subscribe(listener: () => void): () => void;
  listeners(): number;
}

export function createTopic<T>(first: T): Topic<T> {
  const listeners = new Set<() => void>();
  let held = first;
  return {
    get: () => held,
    set(value) {
      held = value;
      for (const listener of [...listeners]) listener();
    },
    subscribe(listener) {
      // Wrapped, so that one function subscribed twice is told twice and leaves twice.
      const told = (): void => listener();
      listeners.add(told);
      return () => void listeners.delete(told);
    },
    listeners: () => listeners.size,
  };
}
