/** Command `setting` a second time: every setting looked at, in the tool's own unit, sharing no code with the program. */

export interface Case {
  callout: [number, number];
  running: [number, number] | null;
  included: boolean;
  min: number;
  max: number;
  marks: { increment: number } | { settings: number[] };
  ofReading: number;
  ofFullScale: number;
  head: { lever: number; length: number; angleDeg: number } | null;
  shareMin: number;
}

export interface Found {
  value: number | null;
  margin: number;
  decision: 'conforming' | 'nonconforming' | 'indeterminate';
  correction: number;
}

const slack = 1e-9;
const below = (a: number, b: number): boolean => a < b - slack * Math.max(Math.abs(a), Math.abs(b));

export function aimOf(x: Case): [number, number] {
  const { callout, running, included } = x;
  return included || running === null ? callout : [callout[0] + running[1], callout[1] + running[0]];
}

export function everySetting(x: Case): number[] {
  const lowest = Math.max(x.min, x.shareMin * x.max);
  const all =
    'settings' in x.marks
      ? x.marks.settings
      : Array.from(
          { length: Math.ceil(x.max / x.marks.increment) + 2 },
          (_, n) => (n + 1) * ('increment' in x.marks ? x.marks.increment : 0),
        );
  return all.filter((value) => !below(value, lowest) && !below(x.max, value)).toSorted((a, b) => a - b);
}

export function correctionOf({ head }: Case): number {
  if (head === null) return 1;
  return head.lever / (head.lever + head.length * Math.cos((head.angleDeg / 180) * Math.PI));
}

export function bandAt(x: Case, value: number): [number, number] {
  const spread = value * x.ofReading + x.max * x.ofFullScale;
  const correction = correctionOf(x);
  return [(value - spread) / correction, (value + spread) / correction];
}

export function marginAt(x: Case, value: number): number {
  const [low, high] = aimOf(x);
  const [from, to] = bandAt(x, value);
  return Math.min(from - low, high - to);
}

export function reference(x: Case): Found {
  const [low, high] = aimOf(x);
  const correction = correctionOf(x);
  const none: Found = { value: null, margin: Number.NaN, decision: 'nonconforming', correction };
  if (below(high, low)) return none;
  let best: number | null = null;
  for (const value of everySetting(x)) {
    // Lowest first: a later one must be truly better.
    if (best === null || marginAt(x, value) - marginAt(x, best) > slack * bandAt(x, value)[1]) best = value;
  }
  if (best === null) return none;
  const [from, to] = bandAt(x, best);
  const decision =
    !below(from, low) && !below(high, to)
      ? 'conforming'
      : below(to, low) || below(high, from)
        ? 'nonconforming'
        : 'indeterminate';
  return { value: best, margin: marginAt(x, best), decision, correction };
}

/** A small generator of its own, so that the cases are the same on every machine. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A case of whole and half numbers in which everything that can be given is given now and then. */
export function randomCase(next: () => number): Case {
  const upTo = (most: number): number => Math.floor(next() * most);
  const max = 20 + 5 * upTo(40);
  const min = Math.min(max, upTo(4) * 5);
  const low = 5 + upTo(max);
  const width = upTo(5) === 0 ? upTo(3) : upTo(30);
  const running: [number, number] | null = upTo(3) === 0 ? [upTo(3), 3 + upTo(4)] : null;
  const ofFullScale = upTo(3) === 0 ? upTo(5) / 100 : 0;
  return {
    callout: [low + 4, low + 4 + width],
    running,
    included: running === null || upTo(3) === 0,
    min,
    max,
    marks:
      upTo(3) === 0
        ? { settings: Array.from({ length: 1 + upTo(6) }, () => 1 + upTo(max + 10)) }
        : { increment: [0.1, 0.25, 0.5, 1, 2, 5, 7.5][upTo(7)] ?? 1 },
    ofReading: ofFullScale > 0 ? 0 : upTo(11) / 100,
    ofFullScale,
    head:
      upTo(3) === 0
        ? {
            lever: 200 + 10 * upTo(20),
            length: 10 * upTo(15),
            angleDeg: [0, 30, 45, 90, 120, 180, -45, 270][upTo(8)] ?? 0,
          }
        : null,
    shareMin: upTo(3) === 0 ? 0.2 : 0,
  };
}
