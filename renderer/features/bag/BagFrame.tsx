import { useEffect, useRef } from 'react';
import type { ReactNode } from 'react';

/** Keeps the drawing of large bags from pushing the reasons out of sight; the piece in hand is brought into view. */
export function BagFrame({ inHand, children }: { inHand: string | null; children: ReactNode }) {
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const piece = frame.current?.querySelector('[aria-pressed="true"]');
    if (frame.current === null || piece === null || piece === undefined) return;
    const around = frame.current.getBoundingClientRect();
    const { top, bottom } = piece.getBoundingClientRect();
    if (top < around.top || bottom > around.bottom) frame.current.scrollTop += top - around.top - around.height / 3;
  }, [inHand]);
  return (
    <div ref={frame} className="bw-bag-frame" role="group" aria-label="Bags, drawn" tabIndex={0}>
      {children}
    </div>
  );
}
