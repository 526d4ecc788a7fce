/** Makes a snapshot every half hour in which something was written, and one on leaving. */
import type { SnapshotKeeper } from './keeper.ts';

const everyMs = 30 * 60_000;
/** Leaving does not wait for longer: the journal has all of it anyhow. */
const leavingMs = 4_000;

export interface Regularly {
  /** Makes the last one and stops. Never throws. */
  leave(): Promise<void>;
  /** Makes no more. */
  stop(): void;
}

/** What goes wrong is told to `say`, and tried again with the next. */
export function regularly(keeper: SnapshotKeeper, say: (words: string) => void, every = everyMs): Regularly {
  const make = async (why: 'half-hour' | 'leaving'): Promise<void> => {
    try {
      await keeper.make(why);
    } catch (cause) {
      say(`No snapshot was made: ${cause instanceof Error ? cause.message : String(cause)}`);
    }
  };
  const timer = setInterval(() => void make('half-hour'), every);
  timer.unref();
  return {
    async leave() {
      clearInterval(timer);
      let tooLate: NodeJS.Timeout | undefined;
      const late = new Promise<void>((resolve) => (tooLate = setTimeout(resolve, leavingMs)));
      await Promise.race([make('leaving'), late]);
      clearTimeout(tooLate);
    },
    stop: () => clearInterval(timer),
  };
}
