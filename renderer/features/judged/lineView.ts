import { useEffect, useState } from 'react';
import type { LineView } from '../../../shared-types/inspection.ts';
import type { TableState } from '../../workers/tableDesk.ts';

export const firstView: LineView = {
  text: '',
  state: 'all',
  rule: null,
  severity: 'all',
  acceptance: 'all',
  sort: 'position',
  down: false,
};

const remembered = new Map<string, LineView>();

/** How the person looks at the rows of a place; stays for as long as the page does. */
export function useLineView(of: 'callouts' | 'asrun'): [LineView, (change: Partial<LineView>) => void] {
  const [view, setView] = useState(remembered.get(of) ?? firstView);
  const look = (change: Partial<LineView>): void =>
    setView((before) => {
      const next = { ...before, ...change };
      remembered.set(of, next);
      return next;
    });
  return [view, look];
}

export const isPlainView = (view: LineView): boolean =>
  Object.entries(firstView).every(([key, value]) => view[key as keyof LineView] === value);

/** Places of the lines shown, in order; null while all of them are shown as they stand. */
export function useOrder(
  desk: { order: (of: string, view: LineView) => Promise<Uint32Array> },
  of: string,
  state: TableState | null,
  view: LineView,
): Uint32Array | null {
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
