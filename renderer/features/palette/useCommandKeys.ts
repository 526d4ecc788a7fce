import { useLayoutEffect, useRef } from 'react';
import type { Command } from './command.ts';

/** From when a first key was heard: a page that was busy then takes nothing off it. */
const patienceMs = 1500;

/** Whether letters typed at it belong to it. */
export function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return !['radio', 'checkbox', 'button', 'submit'].includes(target.type);
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable;
}

/** "Ctrl Z"; the Command key counts as Ctrl, and Ctrl Shift Z as Ctrl Y, as other programs have it. */
function chordOf({ ctrlKey, metaKey, altKey, shiftKey, key }: KeyboardEvent): string | null {
  if (!(ctrlKey || metaKey) || altKey || key.length !== 1) return null;
  const letter = key.toUpperCase();
  return shiftKey ? (letter === 'Z' ? 'Ctrl Y' : null) : `Ctrl ${letter}`;
}

/** The command that the keys pressed so far call, or whether they begin one. */
function matchKeys(commands: readonly Command[], pressed: readonly string[]): Command | 'begun' | null {
  const begins = commands.filter(
    ({ keys }) => keys !== null && pressed.length <= keys.length && pressed.every((key, index) => key === keys[index]),
  );
  const whole = begins.find(({ keys }) => keys?.length === pressed.length);
  return whole ?? (begins.length > 0 ? 'begun' : null);
}

/** Calls commands by their keys. Those with Ctrl always; keys of one letter only where they are wanted and nothing is typed into. */
export function useCommandKeys(commands: Command[], { singleKeys }: { singleKeys: boolean }): void {
  const pressed = useRef<{ keys: string[]; at: number }>({ keys: [], at: 0 });
  // Before the first paint: a key pressed at what is seen is never lost.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.isComposing || document.querySelector('dialog[open]') !== null) return;
      const chord = chordOf(event);
      if (chord !== null) {
        const command = commands.find(({ keys }) => keys?.length === 1 && keys[0] === chord);
        // In a field, what was typed is undone by the field itself; only the finder opens from everywhere.
        if (command === undefined || (command.id !== 'find' && isTyping(event.target))) return;
        event.preventDefault();
        if (command.hindered === null) command.run();
        return;
      }
      if (!singleKeys || event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
      if (event.key.length !== 1) return;
      const key = event.key.toLowerCase();
      const before = event.timeStamp - pressed.current.at < patienceMs ? pressed.current.keys : [];
      const keys = matchKeys(commands, [...before, key]) === null ? [key] : [...before, key];
      const found = matchKeys(commands, keys);
      pressed.current = found === 'begun' ? { keys, at: performance.now() } : { keys: [], at: 0 };
      if (found === null || found === 'begun') return;
      event.preventDefault();
      if (found.hindered === null) found.run();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, [commands, singleKeys]);
}
