import type { Pattern } from '../../engine/pattern/index.ts';
import { RefusedError } from '../../engine/errors.ts';
import { writtenUnit } from '../StackDrawing/shownLength.ts';

/** The unit a pattern's lengths are typed in; mm where none can be read yet. */
export function writtenIn(pattern: Pattern): 'mm' | 'in' {
  const first =
    pattern.kind === 'circle' ? pattern.diameter : pattern.kind === 'points' ? pattern.points[0]?.x : pattern.across;
  try {
    return writtenUnit([first]);
  } catch (error) {
    if (error instanceof RefusedError) return 'mm';
    throw error;
  }
}

/** A pattern as a caption says it, its lengths in the units shown. */
export function patternWords(pattern: Pattern, typed: (text: string) => string): string {
  const turned = 'turn' in pattern && pattern.turn === 'counterclockwise' ? ', numbered counterclockwise' : '';
  if (pattern.kind === 'circle')
    return `Circle of ${typed(pattern.diameter)}${pattern.from === null ? '' : `, the first at ${pattern.from} from the top`}${turned}`;
  if (pattern.kind === 'points') return 'Each position at its own place';
  const { rows, columns, across, up } = pattern;
  const what = pattern.kind === 'grid' ? 'Grid' : 'Frame';
  return `${what} of ${rows} by ${columns}, ${typed(across)} apart across, ${typed(up)} up${turned}`;
}
