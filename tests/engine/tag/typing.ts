/** A keyboard with a reader on it: strokes with their times, played to the reader of keys as a window would. */
import { idleReader, quietAfterMs, readerQuiet, strokePressed } from '../../../renderer/engine/tag/index.ts';
import type { ReaderSettings, ReaderTold, Stroke, Tag } from '../../../renderer/engine/tag/index.ts';

/** The digit row of a French keyboard without Shift (from memory). */
const azertyRow = 'à&é"\'(-è_ç';

export type Layout = 'own' | 'azerty' | 'pad' | 'no-places' | 'moved';

/** A digit as a reader types it that was made for the US layout, on a machine with another. */
function digitStroke(digit: string, layout: Layout): Pick<Stroke, 'key' | 'code'> {
  if (layout === 'azerty') return { key: azertyRow[Number(digit)] ?? '', code: `Digit${digit}` };
  if (layout === 'pad') return { key: digit, code: `Numpad${digit}` };
  // The reader types in the layout of the machine, whose digits lie elsewhere.
  if (layout === 'moved') return { key: digit, code: `Digit${(Number(digit) + 3) % 10}` };
  return { key: digit, code: layout === 'no-places' ? '' : `Digit${digit}` };
}

export interface Typed {
  layout?: Layout;
  field?: boolean;
}

/** Keys from a time on, so many ms apart; "⏎" is Enter, "⇥" Tab, "⌫" Backspace. */
export function keys(text: string, fromMs: number, everyMs: number | (() => number), typed: Typed = {}): Stroke[] {
  const { layout = 'own', field = false } = typed;
  const named: Record<string, string> = { '⏎': 'Enter', '⇥': 'Tab', '⌫': 'Backspace' };
  let timeMs = fromMs;
  return [...text].map((sign): Stroke => {
    const name = named[sign];
    const key =
      name !== undefined
        ? { key: name, code: name }
        : /\d/.test(sign)
          ? digitStroke(sign, layout)
          : { key: sign, code: `Key${sign.toUpperCase()}` };
    const stroke = { ...key, timeMs, repeat: false, chord: false, field };
    timeMs += typeof everyMs === 'number' ? everyMs : everyMs();
    return stroke;
  });
}

export interface Played {
  tags: Tag[];
  refused: string[];
  /** What reached the page, of its own or given back, in its order. */
  page: string;
  /** The longest that a person's keys were held after the last of them. */
  heldMs: number;
}

/** Plays strokes in the order of their times, with quiet told as a window's timer would. */
export function played(settings: ReaderSettings, strokes: readonly Stroke[]): Played {
  const seen: Played = { tags: [], refused: [], page: '', heldMs: 0 };
  const take = (told: ReaderTold, nowMs: number): void => {
    for (const reading of told.read) {
      if ('tag' in reading) seen.tags.push(reading.tag);
      else seen.refused.push(reading.refused);
    }
    for (const { key } of told.typed) seen.page += shown(key);
    const last = told.typed.at(-1);
    if (last !== undefined) seen.heldMs = Math.max(seen.heldMs, nowMs - last.timeMs);
  };
  let state = idleReader;
  for (const stroke of strokes) {
    const last = state.held.at(-1)?.timeMs;
    const quietMs = quietAfterMs(settings, state);
    if (last !== undefined && stroke.timeMs > last + quietMs) {
      const told = readerQuiet(settings, state);
      take(told, last + quietMs);
      state = told.state;
    }
    const told = strokePressed(settings, state, stroke);
    take(told, stroke.timeMs);
    if (!told.isHeld) seen.page += shown(stroke.key);
    state = told.state;
  }
  const told = readerQuiet(settings, state);
  take(told, (state.held.at(-1)?.timeMs ?? 0) + quietAfterMs(settings, state));
  return seen;
}

const shown = (key: string): string => (key === 'Enter' ? '⏎' : key === 'Tab' ? '⇥' : key === 'Backspace' ? '⌫' : key);
