import { useRef, useState } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';

/** What stands beside the table. */
export type Pane =
  | { kind: 'item' }
  | { kind: 'edit'; item: Item }
  | { kind: 'add'; initial: Item; copyOf?: string }
  /** Null for a new shelf; `id` is its key. */
  | { kind: 'shelf'; shelf: string | null; id: string };

export interface PaneState {
  pane: Pane;
  /** Counted up where somebody wants the form closed. */
  leaveAsked: number;
  show: (pane: Pane) => void;
  /** Does it now; where a form is open, once its entries are dealt with. */
  whenFree: (deed: () => void) => void;
  stayed: () => void;
  /** The form is done with; `instead` is what happens where nothing else was asked for. */
  left: (instead: () => void) => void;
}

/** The sheet beside the table, and what waits for an open form. */
export function usePane(): PaneState {
  const [pane, setPane] = useState<Pane>({ kind: 'item' });
  const [leaveAsked, setLeaveAsked] = useState(0);
  const waiting = useRef<(() => void) | null>(null);
  return {
    pane,
    leaveAsked,
    show: setPane,
    whenFree: (deed) => {
      if (pane.kind === 'item') {
        deed();
        return;
      }
      waiting.current = deed;
      setLeaveAsked((before) => before + 1);
    },
    stayed: () => {
      waiting.current = null;
    },
    left: (instead) => {
      setPane({ kind: 'item' });
      const next = waiting.current ?? instead;
      waiting.current = null;
      next();
    },
  };
}
