import type { HeadForm } from '../../../../shared-types/plan.ts';
import { pocketsOf } from '../../../../shared-types/pockets.ts';
import type { Item, ItemOf } from '../../../../shared-types/records/item.ts';
import { RefusedError } from '../../../engine/errors.ts';
import { Reading } from '../../../engine/plan/reading.ts';
import { Refusals } from '../../../engine/json/refusals.ts';
import { resolveDriver, resolveExtension, resolveSocket } from '../../../engine/plan/resolveCatalog.ts';
import type { ResolvedExtension, ResolvedSocket } from '../../../engine/plan/resolved.ts';
import { hexalobularDrive } from '../../../engine/socket/index.ts';
import { readThread } from '../../../engine/thread/index.ts';
import { quantityIn } from '../../../engine/units/index.ts';
import { driverEntry, extensionEntry, socketEntry } from '../../../engine/records/planEntries.ts';

/** An item in millimetres, as far as it can be drawn. */
export type ItemShape =
  | { kind: 'socket'; part: ResolvedSocket }
  | { kind: 'extension'; part: ResolvedExtension }
  | { kind: 'tool'; driveMm: number; leverMm: number | null; stepDeg: number | null }
  | FastenerShape
  | OffsetShape
  | PackShape;

/** A fastener as its record knows it: the head from its end, the thread's diameter, and how long it is where that is said. */
export interface FastenerShape {
  kind: 'fastener';
  headForm: HeadForm;
  /** Width across flats, or across the lobes of a hexalobular drive. */
  acrossMm: number;
  majorMm: number;
  lengthMm: number | null;
}

/** An offset head: two ends whose axes lie apart. */
export interface OffsetShape {
  kind: 'offset-head';
  lengthMm: number;
  outsideMm: number;
  driveInMm: number;
  driveOutMm: number;
  /** From axis to axis; null where it is not said. */
  offsetMm: number | null;
}

/** Gear by its longest size, a bag by the longest piece it takes. */
export interface PackShape {
  kind: 'gear' | 'bag';
  longMm: number;
  acrossMm: number;
  /** Whether `acrossMm` is of a block with its volume; else it is assumed. */
  byVolume: boolean;
  pockets: number;
}

/** Why an item has no drawing: what it has no figure for. */
export function whyNotDrawn(item: Item): string {
  if (item.kind === 'gear' && item.size === undefined) return 'its greatest extent is not given';
  if (item.kind === 'bag' && item.sizeMax === undefined) return 'the longest piece it takes is not given';
  return 'its sizes cannot be read';
}

/** Null where it lacks the figures of a drawing, or where they cannot be read. */
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
      // A plan has no offset heads; their sizes are read as those of any extension.
      const { form } = item;
      const part = resolveExtension(r, '', { ...extensionEntry(item), kind: form === 'offset-head' ? 'rigid' : form });
      return form === 'offset-head' ? offsetShape(item, part) : { kind: 'extension', part };
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
    case 'gear':
      return packShape('gear', item.size, item.volume, 0);
    case 'bag':
      return packShape('bag', item.sizeMax, item.volumeMax, pocketCount(item) ?? 0);
  }
}

function offsetShape({ offset }: ItemOf<'extension'>, part: ResolvedExtension): OffsetShape {
  return {
    kind: 'offset-head',
    lengthMm: part.lengthMm,
    outsideMm: part.outsideDiameterMm,
    driveInMm: part.driveInMm,
    driveOutMm: part.driveOutMm,
    offsetMm: offset === undefined ? null : quantityIn(offset, 'length', 'mm'),
  };
}

/** So wide a thing is drawn whose volume is not given, as in the bag maps: common practice, no source. */
const acrossShare = 0.55;
const mm3PerL = 1e6;

/** As thick as a block of its volume with a square end, and never more than it is long. */
function packShape(
  kind: 'gear' | 'bag',
  size: string | undefined,
  volume: string | undefined,
  pockets: number,
): PackShape | null {
  if (size === undefined) return null;
  const longMm = quantityIn(size, 'length', 'mm');
  if (!(longMm > 0)) return null;
  const volumeMm3 = volume === undefined ? 0 : quantityIn(volume, 'volume', 'L') * mm3PerL;
  const byVolume = volumeMm3 > 0;
  const acrossMm = byVolume ? Math.min(longMm, Math.sqrt(volumeMm3 / longMm)) : longMm * acrossShare;
  return { kind, longMm, acrossMm, byVolume, pockets };
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

/** How many pockets a bag has: those named, else as many as are said. */
export function pocketCount({ pockets, pocketNames }: ItemOf<'bag'>): number | undefined {
  return pocketNames === undefined ? pockets : pocketsOf(pocketNames).length;
}
