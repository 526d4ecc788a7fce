import { RefusedError } from '../errors.ts';
import { cellText } from '../sheet/cellText.ts';
import type { Grid } from '../sheet/grid.ts';
import { readQuantity, type Kind, type Unit } from '../units/index.ts';
import { isBareNumber } from './bareNumber.ts';

/** In how many cells of a column each unit stands. */
export interface UnitsSeen {
  units: { unit: Unit; cells: number }[];
  /** Numbers without one. */
  bare: number;
}

/** Cells looked at: enough to find a second unit that is no slip, and few enough to look at while a person waits. */
const lookedAt = 5000;

/**
 * Which units stand in a column's cells.
 *
 * @param at - the column's place, from 0
 * @param kind - what its units measure
 * @returns the commonest first; cells that are no quantity are passed over
 */
export function unitsSeen({ records }: Grid, at: number, kind: Kind): UnitsSeen {
  const counts = new Map<Unit, number>();
  let bare = 0;
  const step = Math.max(1, Math.ceil(records.length / lookedAt));
  for (let index = 0; index < records.length; index += step) {
    const text = cellText(records[index]?.cells[at] ?? '').text.trim();
    if (text === '') continue;
    if (isBareNumber(text)) bare += 1;
    else {
      const unit = unitOf(text, kind);
      if (unit !== null) counts.set(unit, (counts.get(unit) ?? 0) + 1);
    }
  }
  const units = [...counts].map(([unit, cells]) => ({ unit, cells })).toSorted((a, b) => b.cells - a.cells);
  return { units, bare };
}

function unitOf(text: string, kind: Kind): Unit | null {
  try {
    return readQuantity(text.replace(/(\d),(\d)/g, '$1.$2'), kind).unit;
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}
