import { useRef, useState } from 'react';

export interface OpenForm<What> {
  open: What | null;
  /** Handed to the form: counted up where something else shall take its place. */
  leaveAsked: number;
  show: (what: What) => void;
  /** Puts another one in its place at once: what it held is saved. */
  replace: (what: What) => void;
  /** Does something at once, or once the form that is open has been left. */
  guarded: (then: () => void) => void;
  /** The person stays with the form, and so does the focus. */
  stay: () => void;
  /** The form is left; true where something waited for that and is done now. */
  left: () => boolean;
}

/** One form at a time in a pane; it is asked to leave before anything takes its place, and asks where entries would be lost. */
export function useOpenForm<What>(): OpenForm<What> {
  const [open, setOpen] = useState<What | null>(null);
  const [leaveAsked, setLeaveAsked] = useState(0);
  const waiting = useRef<(() => void) | null>(null);
  const guarded = (then: () => void): void => {
    if (open === null) {
      then();
      return;
    }
    waiting.current = then;
    setLeaveAsked(leaveAsked + 1);
  };
  return {
    open,
    leaveAsked,
    show: (what) => guarded(() => setOpen(what)),
    replace: (what) => {
      waiting.current = null;
      setOpen(what);
    },
    guarded,
    stay: () => {
      waiting.current = null;
      // After the question has given the focus back to what asked for the form's place.
      setTimeout(() => document.querySelector<HTMLElement>('.bw-form :is(input, select, textarea)')?.focus());
    },
    left: () => {
      const then = waiting.current;
      waiting.current = null;
      setOpen(null);
      then?.();
      return then !== null;
    },
  };
}
