import { useRef } from 'react';
import type { PointerEvent } from 'react';

/** As wide as its widest text, or so many px. */
export type WantedWidth = number | 'fits';

/** The edge of a heading, to be dragged; pressed twice, the column fits its widest text. Keys do the same on the heading itself. */
export function WidthGrip({ onWidth }: { onWidth: (width: WantedWidth) => void }) {
  const from = useRef<{ x: number; widthPx: number } | null>(null);
  const next = useRef<number | null>(null);
  const move = (event: PointerEvent<HTMLElement>): void => {
    if (from.current === null) return;
    const px = Math.round(from.current.widthPx + event.clientX - from.current.x);
    // The table is drawn anew no oftener than the screen is.
    if (next.current === null)
      requestAnimationFrame(() => {
        const wanted = next.current;
        next.current = null;
        if (wanted !== null) onWidth(wanted);
      });
    next.current = px;
  };
  const end = (): void => {
    from.current = null;
  };
  return (
    <span
      className="bw-grid-grip"
      aria-hidden="true"
      title="Drag to make the column wider; press twice to fit its widest text"
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.preventDefault();
        event.currentTarget.setPointerCapture(event.pointerId);
        const cell = event.currentTarget.parentElement;
        from.current = { x: event.clientX, widthPx: cell?.getBoundingClientRect().width ?? 0 };
      }}
      onPointerMove={move}
      onPointerUp={end}
      onPointerCancel={end}
      onDoubleClick={() => onWidth('fits')}
    />
  );
}
