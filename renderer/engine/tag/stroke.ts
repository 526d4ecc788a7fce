/** One key going down, as a window tells it; readers that type are told from people by these alone. */
export interface Stroke {
  /** What the key means in the layout of the machine: `5`, `(`, `Enter`. */
  key: string;
  /** Where the key lies, whatever the layout: `Digit5`, `Numpad5`. */
  code: string;
  /** Of the machine's own clock of input. */
  timeMs: number;
  /** Held down until it repeats: no reader does that. */
  repeat: boolean;
  /** With Ctrl, Alt or Meta, or while signs are being composed. */
  chord: boolean;
  /** A text field has the focus. */
  field: boolean;
}

const silent = new Set(['Shift', 'CapsLock', 'NumLock', 'ScrollLock', 'Control', 'Alt', 'AltGraph', 'Meta', 'Fn']);

/** Keys that change what others mean; they stand for nothing themselves. */
export const isSilent = ({ key }: Stroke): boolean => silent.has(key);

/** Enter, of the letters or of the pad. */
export const isEnter = ({ key }: Stroke): boolean => key === 'Enter';

/** Tab, which moves the focus where a person presses it. */
export const isTab = ({ key }: Stroke): boolean => key === 'Tab';

/** A key that writes one sign. */
export const isPrintable = ({ key }: Stroke): boolean => [...key].length === 1;

/** The digit that lies on the key, in every layout that has its digits in the row above the letters or on a pad. */
export function digitByPlace({ code }: Stroke): string | null {
  return /^(?:Digit|Numpad)(\d)$/.exec(code)?.[1] ?? null;
}

/** Whether it may be a digit of a label, by its meaning or by its place. */
export function isDigit(stroke: Stroke): boolean {
  return isPrintable(stroke) && (/^\d$/.test(stroke.key) || digitByPlace(stroke) !== null);
}

/** What was typed, by the layout of the machine. */
export const textByKey = (strokes: readonly Stroke[]): string => strokes.map(({ key }) => key).join('');

/** The same, where digits stand for what lies on their keys: right where the reader types in another layout than the machine has. */
export const textByPlace = (strokes: readonly Stroke[]): string =>
  strokes.map((stroke) => digitByPlace(stroke) ?? stroke.key).join('');
