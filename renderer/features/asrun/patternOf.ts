import type { AsRunLook } from '../../../shared-types/inspection.ts';
import { cellNamed } from '../../engine/inspection/index.ts';
import { placeOfRecord } from '../judged/interfaceOf.ts';
import type { KnownPlaces } from '../judged/interfaceOf.ts';

/** Where positions lie, and who says so. */
export interface KnownPattern {
  text: string;
  /** "interface A1, named by the record’s column “interface”" */
  from: string;
  /** How many positions it has; a circle is divided among them, whatever is recorded of them. */
  count?: number;
}

/**
 * Where the positions of a record's callout lie: by the callout's own column "pattern"; else by the interface that the record, its step, or
 * its callout names. Null where none says it.
 */
export function patternOf(
  { callout, cells }: Pick<AsRunLook, 'callout' | 'cells'>,
  known: KnownPlaces,
): KnownPattern | null {
  const own = cellNamed(callout, 'pattern');
  if (own !== '') return { text: own, from: 'the callout’s column “pattern”' };
  const place = placeOfRecord(cells, callout, known);
  const text = place?.interface.pattern?.trim() ?? '';
  if (place === null || text === '') return null;
  const { code, count } = place.interface;
  return { text, from: `interface ${code}, by ${place.by}`, count };
}
