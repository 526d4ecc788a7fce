import type { Item } from '../../../../shared-types/records/item.ts';
import { RefusedError } from '../../../engine/errors.ts';
import { Reading } from '../../../engine/plan/reading.ts';
import { Refusals } from '../../../engine/json/refusals.ts';
import { resolveDriver, resolveExtension, resolveSocket } from '../../../engine/plan/resolveCatalog.ts';
import type { ResolvedExtension, ResolvedSocket } from '../../../engine/plan/resolved.ts';
import { driverEntry, planEntryOf, socketEntry } from '../../../engine/records/planEntries.ts';

/** An item in millimetres, as far as it can be drawn. */
export type ItemShape =
  | { kind: 'socket'; part: ResolvedSocket }
  | { kind: 'extension'; part: ResolvedExtension }
  | { kind: 'tool'; driveMm: number; leverMm: number | null; stepDeg: number | null };

/** Null for what has no outline of its own, and for an item whose sizes cannot be read. */
export function itemShape(item: Item): ItemShape | null {
  const refusals = new Refusals(undefined, () => undefined);
  const shape = shapeOf(new Reading(refusals), item);
  try {
    refusals.settle();
    return shape;
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}

function shapeOf(r: Reading, item: Item): ItemShape | null {
  switch (item.kind) {
    case 'socket':
      return { kind: 'socket', part: resolveSocket(r, '', socketEntry(item)) };
    case 'extension': {
      // A plan has no offset heads, and neither has the drawing.
      const made = planEntryOf(item);
      return made?.list === 'extensions' ? { kind: 'extension', part: resolveExtension(r, '', made.entry) } : null;
    }
    case 'driver':
      return toolOf(resolveDriver(r, '', driverEntry(item)));
    case 'torque-tool':
      return toolOf(
        resolveDriver(r, '', {
          id: item.code,
          mass: item.mass,
          onHand: item.onHand,
          drive: item.drive,
          max: item.max,
          ...(item.lever === undefined ? {} : { lever: item.lever }),
          ...(item.stepDeg === undefined ? {} : { stepDeg: item.stepDeg }),
        }),
      );
    default:
      return null;
  }
}

function toolOf({
  driveMm,
  leverMm,
  stepDeg,
}: {
  driveMm: number;
  leverMm: number | null;
  stepDeg: number | null;
}): ItemShape {
  return { kind: 'tool', driveMm, leverMm, stepDeg };
}
