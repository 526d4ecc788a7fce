import { useEffect, useState } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import { DoublesFinder } from '../../../engine/catalog/index.ts';
import type { Doubles } from '../../../engine/catalog/index.ts';
import { breaths } from '../../../store/breathe.ts';

/** Items that may be kept twice; null while they are looked for, which never holds the page up. */
export function useDoubles(items: readonly Item[]): readonly Doubles[] | null {
  const [found, setFound] = useState<readonly Doubles[] | null>(null);
  useEffect(() => {
    let left = false;
    const look = async (): Promise<void> => {
      const finder = new DoublesFinder();
      const breath = breaths();
      for (const item of items) {
        await breath();
        if (left) return;
        finder.take(item);
      }
      setFound(finder.found());
    };
    void look();
    return () => {
      left = true;
    };
  }, [items]);
  return found;
}
