/**
 * One way of going wrong, tried many times. A trial is its seed, its part and its number and nothing else, so that one of
 * them can be tried again by itself; tests run the same parts in a short form.
 */
import { isDeepStrictEqual } from 'node:util';
import { dice, type Dice } from '../reference/dice.ts';

/** What is gone where a trial is not survived. */
export type LossKind =
  /** A record that was called saved. */
  | 'lost'
  /** A change of which a part is there. */
  | 'partial'
  /** Damage that was taken for whole. */
  | 'undetected'
  /** Anything else that was promised: a word, a refusal, the way back. */
  | 'broken';

export class Loss extends Error {
  override readonly name = 'Loss';
  readonly kind: LossKind;
  constructor(kind: LossKind, message: string) {
    super(message);
    this.kind = kind;
  }
}

export function must(holds: boolean, kind: LossKind, what: string): asserts holds {
  if (!holds) throw new Loss(kind, what);
}

export function mustEqual(found: unknown, wanted: unknown, kind: LossKind, what: string): void {
  if (isDeepStrictEqual(found, wanted)) return;
  throw new Loss(kind, `${what}: found ${shown(found)}, wanted ${shown(wanted)}`);
}

function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 400 ? `${text.slice(0, 400)}…` : text;
}

export interface Rig {
  trial(n: number, chance: Dice): Promise<void> | void;
  close?(): Promise<void> | void;
}

export interface Part {
  /** F1 to F16. */
  of: string;
  /** What is done to the program. */
  fault: string;
  /** How many at full length. */
  trials: number;
  /** Why it cannot be tried on this machine. */
  notHere?: () => string | null;
  /** What all trials stand on, made once. */
  open: () => Promise<Rig> | Rig;
}

export interface Failure {
  trial: number;
  kind: LossKind;
  message: string;
}

export interface Tally {
  trials: number;
  failures: Failure[];
  seconds: number;
}

/** So long may one trial take before it counts as not survived: longer than any that is merely slow. */
const hungMs = 240_000;
/** A part that fails on and on is not tried to its end. */
const failuresMost = 25;

/** The chance of one trial: of the seed, the part, and its number. */
export function chanceOf(seed: number, { of, fault }: Pick<Part, 'of' | 'fault'>, trial: number): Dice {
  let mixed = seed;
  for (const sign of `${of} ${fault} ${trial}`) mixed = Math.imul(mixed ^ (sign.codePointAt(0) ?? 0), 0x01000193);
  return dice(mixed >>> 0);
}

/** @param from - number of the first trial */
export async function runPart(
  part: Part,
  { seed, trials, from = 0 }: { seed: number; trials: number; from?: number },
): Promise<Tally> {
  const began = performance.now();
  const failures: Failure[] = [];
  let rig: Rig | null = null;
  let done = 0;
  /** What only shows over all of its trials, a rig says when it is closed. */
  const close = async (n: number): Promise<void> => {
    const closing = rig;
    rig = null;
    try {
      await closing?.close?.();
    } catch (cause) {
      failures.push(failureOf(cause, n));
    }
  };
  for (let n = from; n < from + trials && failures.length < failuresMost; n += 1) {
    done += 1;
    try {
      rig ??= await part.open();
      await inTime(rig.trial(n, chanceOf(seed, part, n)), n);
    } catch (cause) {
      failures.push(failureOf(cause, n));
      // What a failed trial leaves behind must not fail the next.
      await close(n);
    }
  }
  await close(from + done - 1);
  return { trials: done, failures, seconds: (performance.now() - began) / 1000 };
}

async function inTime(work: Promise<void> | void, n: number): Promise<void> {
  if (work === undefined) return;
  let alarm: NodeJS.Timeout | undefined;
  const hung = new Promise<never>((_, reject) => {
    alarm = setTimeout(() => reject(new Loss('broken', `trial ${n} did not end in ${hungMs / 1000} s`)), hungMs);
  });
  await Promise.race([work, hung]).finally(() => clearTimeout(alarm));
}

function failureOf(cause: unknown, trial: number): Failure {
  if (cause instanceof Loss) return { trial, kind: cause.kind, message: cause.message };
  const message = cause instanceof Error ? (cause.stack ?? cause.message) : String(cause);
  return { trial, kind: 'broken', message };
}
