/** The right to write. One window has it at a time; whoever loses it is told why. */
import { randomBytes } from 'node:crypto';

export interface HeldLease {
  id: string;
  /** Gives it back; nobody is told. */
  end(): void;
}

export interface LeaseDesk {
  /** Null where another has it and `takeOver` is false. */
  take(request: { takeOver: boolean }, onLost: (reason: string) => void): HeldLease | null;
  isHeld(id: string): boolean;
  end(id: string): void;
  /** Takes it away from whoever has it. */
  revoke(reason: string): void;
  /** Resolves when nobody has it, or after `patienceMs`. */
  untilFree(patienceMs: number): Promise<void>;
}

export function leaseDesk(): LeaseDesk {
  let holder: { id: string; onLost: (reason: string) => void } | null = null;
  let waiting: (() => void)[] = [];

  const free = (): void => {
    holder = null;
    for (const go of waiting.splice(0)) go();
  };
  const end = (id: string): void => {
    if (holder?.id === id) free();
  };
  const revoke = (reason: string): void => {
    const former = holder;
    free();
    former?.onLost(reason);
  };

  return {
    take({ takeOver }, onLost) {
      if (holder !== null && !takeOver) return null;
      revoke('Another window of Bagwright saves now.');
      const id = randomBytes(16).toString('hex');
      holder = { id, onLost };
      return { id, end: () => end(id) };
    },
    isHeld: (id) => holder !== null && holder.id === id,
    end,
    revoke,
    untilFree(patienceMs) {
      if (holder === null) return Promise.resolve();
      return new Promise((resolve) => {
        const alarm = setTimeout(resolve, patienceMs);
        waiting.push(() => {
          clearTimeout(alarm);
          resolve();
        });
        waiting = waiting.slice(-100);
      });
    },
  };
}
