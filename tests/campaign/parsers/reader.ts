/** A parser under damaged inputs: it reads or refuses, soon, and nothing else may come of any bytes. */
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { damagedText, damagedValue } from '../../engine/damagedInputs.ts';
import type { Dice } from '../../reference/dice.ts';
import { Loss, must } from '../part.ts';

export interface FuzzReader {
  name: string;
  /** How often it comes in turn: the quick ones more often than those that take a whole plan. */
  weight: number;
  /** Reads a damaged input; a refusal is thrown, or answered with `refused`. */
  read: (chance: Dice) => unknown;
}

/** What a reader answers that says no by its answer. */
export const refused = Symbol('refused');

export const readsText = (
  name: string,
  weight: number,
  from: readonly string[],
  read: (text: string) => unknown,
): FuzzReader => ({
  ...{ name, weight },
  read: (chance) => read(damagedText(chance.pick(from), chance)),
});

export const readsValue = (
  name: string,
  weight: number,
  from: readonly unknown[],
  read: (value: unknown) => unknown,
): FuzzReader => ({ name, weight, read: (chance) => read(damagedValue(chance.pick(from), chance)) });

/** Bytes with some of them changed, cut out or doubled. */
export function damagedBytes(sound: Uint8Array, chance: Dice): Uint8Array {
  let bytes = Uint8Array.from(sound);
  const times = chance.whole(1, 6);
  for (let time = 0; time < times; time += 1) {
    const at = chance.whole(0, Math.max(0, bytes.length - 1));
    const length = chance.whole(1, 30);
    const kind = chance.whole(0, 5);
    if (kind < 3) bytes[at] = chance.whole(0, 255);
    else if (kind === 3) bytes = joined(bytes.subarray(0, at), bytes.subarray(at + length));
    else if (kind === 4) bytes = joined(bytes.subarray(0, at + length), bytes.subarray(at));
    else bytes = bytes.slice(0, at);
  }
  return bytes;
}

const joined = (one: Uint8Array, other: Uint8Array): Uint8Array<ArrayBuffer> => Uint8Array.from([...one, ...other]);

const slowestMs = 5000;

/** @throws Loss where it is neither, or takes longer than five seconds */
export async function outcomeOf(reader: FuzzReader, chance: Dice): Promise<'read' | 'refused'> {
  const began = process.cpuUsage();
  let said: 'read' | 'refused';
  try {
    const answer = await reader.read(chance);
    const odd = notFinite(answer);
    must(odd === null, 'undetected', `${reader.name}: ${odd ?? ''}`);
    said = answer === refused ? 'refused' : 'read';
  } catch (error) {
    if (error instanceof Loss) throw error;
    const isRefusal = error instanceof RefusedError && error.refusal.code !== 'internal' && error.message !== '';
    must(isRefusal, 'broken', `${reader.name}: ${String(error instanceof Error ? error.stack : error)}`);
    said = 'refused';
  }
  // The machine's other work counts for nothing.
  const { user, system } = process.cpuUsage(began);
  const ms = (user + system) / 1000;
  must(ms < slowestMs, 'broken', `${reader.name} took ${Math.round(ms)} ms`);
  return said;
}

/** Where a result holds a number that is none. */
function notFinite(result: unknown, path = ''): string | null {
  if (typeof result === 'number') return Number.isFinite(result) ? null : `${path} is ${result}`;
  if (typeof result !== 'object' || result === null || result instanceof Map || ArrayBuffer.isView(result)) return null;
  for (const [name, inner] of Object.entries(result)) {
    const found = notFinite(inner, `${path}.${name}`);
    if (found !== null) return found;
  }
  return null;
}
