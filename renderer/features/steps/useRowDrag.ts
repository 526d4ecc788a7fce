import { useEffect, useRef, useState } from 'react';
import type { PointerEvent as ReactPointerEvent, RefObject } from 'react';
import type { Landing } from './moveSteps.ts';

/** A row of the list as a pointer finds it. */
export interface DragRow {
  kind: 'group' | 'row';
  /** Key of the step, or code of the outing. */
  key: string;
}

export interface RowDrag {
  onPointerDown: (event: ReactPointerEvent<HTMLElement>) => void;
  /** Where what is dragged would land: a line over the list, in pixels from its top; null where nothing is dragged. */
  mark: { top: number; left: number; width: number } | null;
  /** What is dragged. */
  dragged: string | null;
}

interface Dragging {
  key: string;
  fromY: number;
  begun: boolean;
  landing: Landing | null;
}

/** A hand that is not still has not begun to drag yet. */
const slackPx = 6;
const edgePx = 36;
const scrollPx = 14;

/**
 * Rows of a grid dragged by a pointer: by mouse and pen from anywhere in the row, by touch from its grip, so that a finger still
 * scrolls. Escape lets go.
 *
 * @param rows - as the grid lists them
 * @param frame - the element around the grid
 */
export function useRowDrag(x: {
  rows: readonly DragRow[];
  frame: RefObject<HTMLElement | null>;
  onDrop: (key: string, landing: Landing) => void;
}): RowDrag {
  const { rows, frame, onDrop } = x;
  const [mark, setMark] = useState<RowDrag['mark']>(null);
  const [key, setKey] = useState<string | null>(null);
  const dragging = useRef<Dragging | null>(null);
  const end = useRef<(() => void) | null>(null);
  useEffect(() => () => end.current?.(), []);

  const landingAt = (clientY: number): void => {
    const { current: drag } = dragging;
    const { current: around } = frame;
    if (drag === null || around === null) return;
    const lines = [...around.querySelectorAll<HTMLElement>('.bw-grid-row[data-index]')]
      .map((line) => ({ line, box: line.getBoundingClientRect() }))
      .toSorted((a, b) => a.box.top - b.box.top);
    const at = lines.find(({ box }) => clientY < box.bottom) ?? lines.at(-1);
    const row = rows[Number(at?.line.dataset['index'])];
    if (at === undefined || row === undefined) return;
    const { box } = at;
    const isUpper = clientY < box.top + box.height / 2;
    drag.landing =
      row.kind === 'group' ? { side: 'head', outing: row.key } : { side: isUpper ? 'before' : 'after', step: row.key };
    const outer = around.getBoundingClientRect();
    setMark({
      top: (row.kind === 'row' && isUpper ? box.top : box.bottom) - outer.top - 1,
      ...{ left: box.left - outer.left, width: box.width },
    });
    const body = around.querySelector('.bw-grid-body');
    const seen = body?.getBoundingClientRect();
    if (body === null || seen === undefined) return;
    if (clientY < seen.top + edgePx) body.scrollBy(0, -scrollPx);
    else if (clientY > seen.bottom - edgePx) body.scrollBy(0, scrollPx);
  };

  return {
    mark,
    dragged: key,
    onPointerDown(event) {
      if (event.button !== 0 || event.ctrlKey || event.shiftKey || event.metaKey || event.altKey) return;
      const { target, pointerType } = event;
      if (!(target instanceof Element) || target.closest('button, a, input') !== null) return;
      if (pointerType === 'touch' && target.closest('.bw-step-grip') === null) return;
      const line = target.closest<HTMLElement>('.bw-grid-row[data-index]');
      const row = rows[Number(line?.dataset['index'])];
      if (row?.kind !== 'row') return;
      dragging.current = { key: row.key, fromY: event.clientY, begun: false, landing: null };
      const stop = new AbortController();
      const { signal } = stop;
      const over = (): void => {
        stop.abort();
        dragging.current = null;
        end.current = null;
        setMark(null);
        setKey(null);
      };
      end.current = over;
      window.addEventListener(
        'pointermove',
        ({ clientY, buttons }) => {
          const { current: drag } = dragging;
          if (drag === null) return;
          if (buttons === 0) return over();
          if (!drag.begun) {
            if (Math.abs(clientY - drag.fromY) < slackPx) return;
            drag.begun = true;
            setKey(drag.key);
            getSelection()?.removeAllRanges();
          }
          landingAt(clientY);
        },
        { signal },
      );
      window.addEventListener(
        'pointerup',
        () => {
          const { current: drag } = dragging;
          const { key: moved, landing } = drag ?? { key: '', landing: null };
          const begun = drag?.begun === true;
          over();
          if (!begun) return;
          // The click that ends a drag takes no row in hand.
          const swallow = (click: Event): void => click.stopPropagation();
          window.addEventListener('click', swallow, { capture: true });
          setTimeout(() => window.removeEventListener('click', swallow, { capture: true }));
          if (landing !== null) onDrop(moved, landing);
        },
        { signal },
      );
      window.addEventListener('pointercancel', over, { signal });
      window.addEventListener(
        'keydown',
        (press) => {
          if (press.key !== 'Escape') return;
          press.stopPropagation();
          over();
        },
        { signal, capture: true },
      );
    },
  };
}
