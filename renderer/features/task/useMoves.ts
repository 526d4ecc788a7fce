import { useEffect, useRef, useState } from 'react';

/**
 * Moves one after another: one that is asked for while the one before is being saved goes on from where that has led. One
 * that is not done ends the row of them.
 *
 * @param move - does one, from the rows as they are now; true where it is kept
 */
export function useMoves(move: (by: -1 | 1) => Promise<boolean>): (by: -1 | 1) => void {
  const moving = useRef(false);
  const waiting = useRef<(-1 | 1)[]>([]);
  const [ended, setEnded] = useState(0);
  const begin = (by: -1 | 1): void => {
    if (moving.current) {
      waiting.current.push(by);
      return;
    }
    moving.current = true;
    void move(by).then((done) => {
      moving.current = false;
      if (!done) waiting.current = [];
      setEnded((count) => count + 1);
    });
  };
  useEffect(() => {
    const next = waiting.current.shift();
    if (next !== undefined) begin(next);
    // Only the end of a move makes the next one due.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [ended]);
  return begin;
}
