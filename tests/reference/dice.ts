/** A small seeded source of chance (mulberry32), so that a plan is its seed and nothing else. */
export interface Dice {
  /** A number in [0, 1). */
  roll: () => number;
  chance: (share: number) => boolean;
  whole: (min: number, max: number) => number;
  pick: <T>(from: readonly [T, ...T[]] | readonly T[]) => T;
}

export function dice(seed: number): Dice {
  let state = Math.imul(seed, 0x9e3779b1) >>> 0;
  const roll = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return {
    roll,
    chance: (share) => roll() < share,
    whole: (min, max) => min + Math.floor(roll() * (max - min + 1)),
    pick: (from) => {
      const one = from[Math.floor(roll() * from.length)];
      if (one === undefined) throw new Error('reference: nothing to pick from');
      return one;
    },
  };
}
