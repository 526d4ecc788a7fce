/**
 * Tells a reader that types from a person who types, key by key. Pure: the window hands each key and its time, and does as
 * it is told: keep the key from the page, give keys back that were a person's after all, take what was read.
 *
 * A reader is told by its speed, and its codes by length and check digits. What may belong to a code is held until it is
 * whole, or until `quietAfterMs` have gone by without another key.
 */
import { digitByPlace, isDigit, isEnter, isPrintable, isSilent, isTab, textByKey, textByPlace } from './stroke.ts';
import type { Stroke } from './stroke.ts';
import { readTag, tagDigits } from './tag.ts';
import type { TagReading } from './tag.ts';

/** What the reader puts before a code, and the key it presses after it. */
export interface ReaderSettings {
  before: string;
  after: 'enter' | 'tab' | 'none';
}

export const usualReader: ReaderSettings = { before: '', after: 'enter' };

/** After so long without a key a person's typing, or a whole code, is over; readers take 5 to 50 ms from key to key. */
const quietMs = 80;
/** So long the rest of a code is waited for that has begun at a reader's speed: a busy machine may hear its keys late. */
const restMs = 250;
const begunLeast = 5;

/** From so many keys on, at a reader's speed, it was no person. */
const machineLeast = 6;
const machineMeanMs = 50;
/** So many in one go, each within `quietMs`, no person keeps up. */
const machineSurely = 10;

export interface ReaderState {
  /** Kept from the page, not yet known to be a code or typing. */
  held: readonly Stroke[];
  /** When the last code was over: an Enter right behind it belongs to it. */
  overAt: number | null;
}

export const idleReader: ReaderState = { held: [], overAt: null };

/** What the window is to do. */
export interface ReaderTold {
  state: ReaderState;
  /** The key itself goes no further. */
  isHeld: boolean;
  /** Codes that are whole, or refused with the reason, in their order. */
  read: readonly TagReading[];
  /** A person's keys after all, to be given to the page in this order, before the key itself. */
  typed: readonly Stroke[];
}

/**
 * One key went down.
 *
 * @param settings - what the reader puts around a code
 * @param state - as the last call left it
 * @param stroke - the key
 * @returns what to do with it and with what was held
 */
export function strokePressed(settings: ReaderSettings, state: ReaderState, stroke: Stroke): ReaderTold {
  if (isSilent(stroke)) return { state, isHeld: false, read: [], typed: [] };
  const last = state.held.at(-1);
  if (last !== undefined && stroke.timeMs - last.timeMs > quietAfterMs(settings, state)) {
    const over = readerQuiet(settings, state);
    const next = strokePressed(settings, over.state, stroke);
    return { ...next, read: [...over.read, ...next.read], typed: [...over.typed, ...next.typed] };
  }
  if (belongs(settings, state, stroke)) {
    const held = [...state.held, stroke];
    const isEnd = isEnter(stroke) || isTab(stroke);
    const ended = isEnd ? atEnd(settings, held) : null;
    if (ended !== null) return { ...ended, isHeld: true };
    return { state: { ...state, held }, isHeld: true, read: [], typed: [] };
  }
  if (state.overAt !== null && isEnter(stroke) && stroke.timeMs - state.overAt <= quietMs)
    return { state, isHeld: true, read: [], typed: [] };
  return { ...readerQuiet(settings, state), isHeld: false };
}

/**
 * How long without a key what is held waits for more.
 *
 * @param settings - what the reader puts around a code
 * @param state - as the last call left it
 * @returns the wait after the last key held [ms]
 * @throws nothing
 * @source common practice, no source: people take more than 60 ms from key to key, readers less than 50
 * @validity keyboards and readers whose keys are told with their times
 * @example quietAfterMs(usualReader, idleReader) // 80
 */
export function quietAfterMs(settings: ReaderSettings, { held }: ReaderState): number {
  const signs = signsOf(held);
  const isBroken = signs.length >= begunLeast && bare(settings, signs).length < tagDigits;
  return isBroken && meanMs(signs) <= machineMeanMs ? restMs : quietMs;
}

/**
 * Nothing came for `quietAfterMs`, or something came that cannot belong to a code: what is held is decided.
 *
 * @param settings - what the reader puts around a code
 * @param state - as the last call left it
 * @returns codes, refusals, and keys to give back
 */
export function readerQuiet(settings: ReaderSettings, state: ReaderState): ReaderTold {
  if (state.held.length === 0) return { state, isHeld: false, read: [], typed: [] };
  return wholeIn(settings, state.held) ?? leftOver(settings, state.held);
}

/** Whether a key may be a part of a code. */
function belongs({ before, after }: ReaderSettings, { held }: ReaderState, stroke: Stroke): boolean {
  if (stroke.chord || stroke.repeat) return false;
  const signs = held.filter((one) => !isEnter(one)).length;
  if (isEnter(stroke)) return signs > 0;
  if (isTab(stroke)) return signs >= machineLeast && (after === 'tab' || signs >= tagDigits);
  if (isDigit(stroke)) return true;
  if (!isPrintable(stroke)) return false;
  // Somebody else's code has letters: no shortcut may come of them, and no field get its end.
  if (!stroke.field) return signs > 0 || stroke.key !== ' ';
  return signs >= machineLeast || isBegun(before, [...held, stroke]);
}

/** Whether these keys are signs of what the reader puts before a code, from its first on; neither Caps Lock nor the layout of digits matters. */
const isOf = (before: readonly string[], strokes: readonly Stroke[]): boolean =>
  strokes.every((stroke, at) => {
    const sign = before[at];
    return sign !== undefined && (stroke.key.toLowerCase() === sign.toLowerCase() || digitByPlace(stroke) === sign);
  });

/** Whether all that is held is the beginning of what the reader puts before a code. */
const isBegun = (before: string, held: readonly Stroke[]): boolean => isOf([...before], held);

/** What is held without what the reader puts before a code. */
function bare(settings: ReaderSettings, strokes: readonly Stroke[]): readonly Stroke[] {
  const before = [...settings.before];
  const count = before.length;
  return strokes.length >= count && isOf(before, strokes.slice(0, count)) ? strokes.slice(count) : strokes;
}

/** The key that ends a code came: the code it ends; or null where more may follow, as after an Enter in its middle. */
function atEnd(settings: ReaderSettings, held: readonly Stroke[]): ReaderTold | null {
  const whole = wholeIn(settings, held);
  if (whole !== null) return whole;
  const signs = signsOf(held);
  return bare(settings, signs).length < tagDigits ? null : leftOver(settings, held);
}

const signsOf = (held: readonly Stroke[]): Stroke[] => held.filter((one) => !isEnter(one) && !isTab(one));

/**
 * A code at the end of what is held: what stands behind the last Enter but one, or, where an Enter came into its middle,
 * behind an earlier one. What stands before it is decided by itself.
 */
function wholeIn(settings: ReaderSettings, held: readonly Stroke[]): ReaderTold | null {
  const breaks = held.flatMap((stroke, at) => (isEnter(stroke) && at < held.length - 1 ? [at + 1] : []));
  for (const from of [...breaks.toReversed(), 0]) {
    const reading = readingOf(bare(settings, signsOf(held.slice(from))));
    if (!('tag' in reading)) continue;
    const rest = from === 0 ? null : leftOver(settings, held.slice(0, from));
    return {
      state: { held: [], overAt: held.at(-1)?.timeMs ?? null },
      isHeld: true,
      read: [...(rest?.read ?? []), reading],
      typed: rest?.typed ?? [],
    };
  }
  return null;
}

/** Both layouts are tried; the check digits say which was meant. */
function readingOf(signs: readonly Stroke[]): TagReading {
  const [byKey, byPlace] = [readTag(textByKey(signs)), readTag(textByPlace(signs))];
  if ('tag' in byKey && 'tag' in byPlace && byKey.text !== byPlace.text)
    return { refused: `it can be read as ${byKey.text} and as ${byPlace.text}: type the number instead` };
  if ('tag' in byPlace) return byPlace;
  // Where neither holds, the reason is told of the one that is digits.
  return 'tag' in byKey || /^\d+$/.test(textByKey(signs)) ? byKey : byPlace;
}

/** What is no code of ours: refused where a reader typed it, given back where a person did. */
function leftOver(settings: ReaderSettings, held: readonly Stroke[]): ReaderTold {
  const last = held.at(-1)?.timeMs ?? 0;
  const signs = signsOf(held);
  if (!isMachine(signs)) return { state: idleReader, isHeld: false, read: [], typed: held };
  const reading = readingOf(bare(settings, signs));
  return { state: { held: [], overAt: last }, isHeld: true, read: [reading], typed: [] };
}

function isMachine(signs: readonly Stroke[]): boolean {
  return signs.length >= machineSurely || (signs.length >= machineLeast && meanMs(signs) <= machineMeanMs);
}

/** From key to key, of two or more. */
function meanMs(signs: readonly Stroke[]): number {
  const [first, last] = [signs[0], signs.at(-1)];
  return first === undefined || last === undefined ? 0 : (last.timeMs - first.timeMs) / Math.max(1, signs.length - 1);
}
