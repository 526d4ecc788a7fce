import type { LeastOptions } from './least.ts';
import type { Costs } from './model/costs.ts';

interface Figures {
  best: number | null;
  bound: number;
}

/** The figures of the search, told where they change from those told before. */
export function progressTold(
  { onProgress }: Pick<LeastOptions, 'onProgress'>,
  { back }: Costs,
  before: Figures | null = null,
): (figures: Figures) => void {
  let last = before;
  return ({ best, bound }) => {
    if (last !== null && best === last.best && bound === last.bound) return;
    last = { best, bound };
    onProgress?.({ best: best === null ? null : back(best), bound: back(bound) });
  };
}
