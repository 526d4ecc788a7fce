import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import { idleReader, quietAfterMs, readerQuiet, strokePressed } from '../../engine/tag/index.ts';
import type { ReaderSettings, ReaderTold, Stroke, TagReading } from '../../engine/tag/index.ts';
import { isTyping } from '../palette/useCommandKeys.ts';
import { giveBack, isGivenBack } from './giveBack.ts';

/** Who asks for scans, numbered as they were first drawn: what lies in a screen or over it has them, and gives them back when it goes. */
const asking = new Set<number>();
let drawn = 0;

/**
 * Codes from a reader that types, wherever the focus is, as long as the screen that asks is shown and no later one asks. Nothing of a code reaches a
 * field or a button; what a person types does, at once or within a tenth of a second.
 *
 * @param settings - what the reader puts around a code
 * @param onRead - each label, or why what was scanned is none; called in their order
 * @param isOn - false where the screen does not want them now
 */
export function useScanner(settings: ReaderSettings, onRead: (reading: TagReading) => void, isOn = true): void {
  const latest = useRef(onRead);
  useLayoutEffect(() => void (latest.current = onRead));
  const { before, after } = settings;
  const [own] = useState(() => (drawn += 1));
  useEffect(() => {
    if (!isOn) return;
    asking.add(own);
    return () => void asking.delete(own);
  }, [isOn, own]);
  useEffect(() => {
    if (!isOn) return;
    const reader: ReaderSettings = { before, after };
    let state = idleReader;
    let target: Element = document.body;
    let timer: ReturnType<typeof setTimeout> | undefined;

    const take = ({ state: next, read, typed }: ReaderTold): void => {
      state = next;
      clearTimeout(timer);
      if (state.held.length > 0) timer = setTimeout(lookOnce, quietAfterMs(reader, state));
      if (typed.length > 0) giveBack(typed, target);
      // Each is drawn before the next is told: a screen that reckons with what it shows loses none of two at once.
      for (const reading of read) flushSync(() => latest.current(reading));
    };
    // Keys that came while the page was busy stand in line before this: they are heard first.
    const lookOnce = (): void => void (timer = setTimeout(quiet));
    const quiet = (): void => {
      const last = state.held.at(-1);
      if (last === undefined) return;
      const leftMs = last.timeMs + quietAfterMs(reader, state) - performance.now();
      if (leftMs > 0) timer = setTimeout(lookOnce, leftMs);
      else take(readerQuiet(reader, state));
    };
    const onKeyDown = (event: KeyboardEvent): void => {
      if (isGivenBack(event) || own !== Math.max(...asking)) return;
      const told = strokePressed(reader, state, strokeOf(event));
      if (told.isHeld) {
        event.preventDefault();
        event.stopImmediatePropagation();
      }
      take(told);
      // What was given back went to where it was typed; what is held now may have been typed elsewhere.
      if (told.isHeld && event.target instanceof Element) target = event.target;
    };
    window.addEventListener('keydown', onKeyDown, { capture: true });
    return () => {
      window.removeEventListener('keydown', onKeyDown, { capture: true });
      clearTimeout(timer);
      giveBack(readerQuiet(reader, state).typed, target);
    };
  }, [isOn, own, before, after]);
}

function strokeOf(event: KeyboardEvent): Stroke {
  const { key, code, timeStamp, repeat, ctrlKey, altKey, metaKey, isComposing } = event;
  // AltGr is told as Ctrl and Alt, and writes signs.
  const chord = isComposing || metaKey || (ctrlKey !== altKey && !event.getModifierState('AltGraph'));
  return { key, code, timeMs: timeStamp, repeat, chord, field: isTyping(event.target) };
}
