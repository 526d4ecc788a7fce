import { useCallback, useEffect, useRef } from 'react';
import type { RefObject } from 'react';

export interface FocusAfter {
  /** Of the thing in hand. */
  headingRef: (element: HTMLHeadingElement | null) => void;
  /** Around the list. */
  table: RefObject<HTMLDivElement | null>;
  /** Where the focus shall be once what was done is drawn. */
  next: (where: 'heading' | 'row') => void;
}

/** Where a deed moves something, the focus goes along as soon as it is drawn. */
export function useFocusAfter(): FocusAfter {
  const table = useRef<HTMLDivElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const wanted = useRef<'heading' | 'row' | null>(null);
  const next = useCallback((where: 'heading' | 'row'): void => {
    wanted.current = where;
  }, []);
  // A sheet may take the place of another one, as when a step is judged: from heading to heading the focus is kept.
  const headingRef = useCallback((element: HTMLHeadingElement | null): void => {
    if (element === null && heading.current !== null && document.activeElement === heading.current)
      wanted.current = 'heading';
    heading.current = element;
  }, []);
  useEffect(() => {
    const { current: where } = wanted;
    if (where === null) return;
    const rows = table.current;
    // Where rows are chosen together, several are selected; one is in hand.
    const row =
      rows?.querySelector<HTMLElement>('[data-hand="true"]') ??
      rows?.querySelector<HTMLElement>('[aria-selected="true"]') ??
      null;
    const target = where === 'heading' ? heading.current : row;
    if (target === null) return;
    wanted.current = null;
    target.focus({ preventScroll: where === 'row' });
  });
  return { headingRef, table, next };
}
