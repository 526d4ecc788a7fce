import { useEffect, useState } from 'react';
import type { LineView } from '../../../shared-types/inspection.ts';
import type { CalloutDesk, TableState } from '../../workers/callouts.ts';

export const firstView: LineView = {
  text: '',
  state: 'all',
  rule: null,
  severity: 'all',
  acceptance: 'all',
  sort: 'position',
  down: false,
};

let remembered = firstView;

/** How the person looks at callouts; stays for as long as the page does. */
export function useCalloutView(): [LineView, (change: Partial<LineView>) => void] {
  const [view, setView] = useState(remembered);
  const look = (change: Partial<LineView>): void =>
    setView((before) => {
      remembered = { ...before, ...change };
      return remembered;
    });
  return [view, look];
}

/** Back to how everybody begins. */
export function forgetCalloutView(): void {
  remembered = firstView;
}

export const isPlainView = (view: LineView): boolean =>
  Object.entries(firstView).every(([key, value]) => view[key as keyof LineView] === value);

/** Places of the lines shown, in order; null while all of them are shown as they stand. */
export function useOrder(desk: CalloutDesk, of: string, state: TableState | null, view: LineView): Uint32Array | null {
  const turn = state?.judged == null ? null : state.turn;
  const [ordered, setOrdered] = useState<{ of: string; turn: number; view: LineView; places: Uint32Array } | null>(
    null,
  );
  const plain = isPlainView(view);
  useEffect(() => {
    if (turn === null || plain) return undefined;
    let wanted = true;
    void desk.order(of, view).then((places) => {
      if (wanted) setOrdered({ of, turn, view, places });
    });
    return () => {
      wanted = false;
    };
  }, [desk, of, turn, view, plain]);
  // What was ordered for the search before stays until the next is here; places of other rows never do.
  return plain || ordered === null || ordered.of !== of || ordered.turn !== turn ? null : ordered.places;
}
