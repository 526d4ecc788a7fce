import type { HeadForm } from '../../../../shared-types/plan.ts';
import type { Item, ItemOf } from '../../../../shared-types/records/item.ts';
import { RefusedError } from '../../../engine/errors.ts';
import { Reading } from '../../../engine/plan/reading.ts';
import { Refusals } from '../../../engine/json/refusals.ts';
import { resolveDriver, resolveExtension, resolveSocket } from '../../../engine/plan/resolveCatalog.ts';
import type { ResolvedExtension, ResolvedSocket } from '../../../engine/plan/resolved.ts';
import { hexalobularDrive } from '../../../engine/socket/index.ts';
import { readThread } from '../../../engine/thread/index.ts';
import { quantityIn } from '../../../engine/units/index.ts';
import { driverEntry, planEntryOf, socketEntry } from '../../../engine/records/planEntries.ts';

/** An item in millimetres, as far as it can be drawn. */
export type ItemShape =
  | { kind: 'socket'; part: ResolvedSocket }
  | { kind: 'extension'; part: ResolvedExtension }
  | { kind: 'tool'; driveMm: number; leverMm: number | null; stepDeg: number | null }
  | FastenerShape;

/** A fastener as its record knows it: the head from its end, the thread's diameter, and how long it is where that is said. */
export interface FastenerShape {
  kind: 'fastener';
  headForm: HeadForm;
  /** Width across flats, or across the lobes of a hexalobular drive. */
  acrossMm: number;
  majorMm: number;
  lengthMm: number | null;
}

/** Null for what has no outline of its own, and for an item whose sizes cannot be read. */
export function itemShape(item: Item): ItemShape | null {
  const refusals = new Refusals(undefined, () => undefined);
  try {
    const shape = shapeOf(new Reading(refusals), item);
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
    case 'fastener':
      return fastenerShape(item);
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

function fastenerShape({ head, thread, length }: ItemOf<'fastener'>): FastenerShape {
  const { form, acrossFlats } = head;
  return {
    kind: 'fastener',
    headForm: form,
    acrossMm:
      form === 'hexalobular'
        ? hexalobularDrive({ size: acrossFlats }).referenceAMm
        : quantityIn(acrossFlats, 'length', 'mm'),
    majorMm: readThread(thread).majorMm,
    lengthMm: length === undefined ? null : quantityIn(length, 'length', 'mm'),
  };
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
