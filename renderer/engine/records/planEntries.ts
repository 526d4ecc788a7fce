import type { PlanCatalog } from '../../../shared-types/plan.ts';
import type { Item, ItemOf } from '../../../shared-types/records/item.ts';

/** One entry of a plan's catalog, and the list it stands in. */
export type PlanEntry = { [L in keyof PlanCatalog]: { list: L; entry: PlanCatalog[L][number] } }[keyof PlanCatalog];

const described = ['name', 'notes'] as const;
const carried = [...described, 'mass', 'volume', 'size', 'tethers', 'onHand'] as const;

/** The named fields that a record has; a field without a value is no field of a plan. */
export function picked<T extends object, K extends keyof T>(from: T, fields: readonly K[]): Pick<T, K> {
  const found: Partial<Pick<T, K>> = {};
  for (const field of fields) if (from[field] !== undefined) found[field] = from[field];
  return found as Pick<T, K>;
}

/**
 * A kept item as the plan's catalog writes it. What only people read (kit, storage place, serial) stays behind.
 *
 * @returns null for what a plan has no entry for: an offset head, a torque tool known by full scale alone
 */
export function planEntryOf(item: Item): PlanEntry | null {
  switch (item.kind) {
    case 'fastener':
      return { list: 'fasteners', entry: fastenerEntry(item) };
    case 'socket':
      return { list: 'sockets', entry: socketEntry(item) };
    case 'extension':
      return item.form === 'offset-head'
        ? null
        : { list: 'extensions', entry: { ...extensionEntry(item), kind: item.form } };
    case 'driver':
      return { list: 'drivers', entry: driverEntry(item) };
    case 'torque-tool':
      return item.accuracyOfReading === undefined
        ? null
        : { list: 'torqueTools', entry: { ...torqueToolEntry(item), accuracyOfReading: item.accuracyOfReading } };
    case 'gear':
      return { list: 'carryGear', entry: { id: item.code, ...picked(item, [...carried, 'consumed']) } };
    case 'bag':
      return { list: 'bags', entry: bagEntry(item) };
  }
}

export function fastenerEntry(item: ItemOf<'fastener'>): PlanCatalog['fasteners'][number] {
  return {
    id: item.code,
    ...picked(item, [...carried, 'thread', 'head', 'strength', 'locking', 'threadRun']),
  };
}

export function socketEntry(item: ItemOf<'socket'>): PlanCatalog['sockets'][number] {
  return {
    id: item.code,
    ...picked(item, [...carried, 'drive', 'opening', 'length', 'innerDepth', 'outsideDiameter', 'ratedTorque']),
  };
}

/** Without its form, which an offset head has none of in a plan. */
export function extensionEntry(item: ItemOf<'extension'>): Omit<PlanCatalog['extensions'][number], 'kind'> {
  return {
    id: item.code,
    ...picked(item, [...carried, 'driveIn', 'driveOut', 'length', 'outsideDiameter', 'ratedTorque']),
  };
}

export function driverEntry(item: ItemOf<'driver'>): PlanCatalog['drivers'][number] {
  return { id: item.code, ...picked(item, [...carried, 'drive', 'max', 'lever', 'stepDeg']) };
}

/** Without its accuracy, which a plan states of the reading only. */
export function torqueToolEntry(
  item: ItemOf<'torque-tool'>,
): Omit<PlanCatalog['torqueTools'][number], 'accuracyOfReading'> {
  return {
    id: item.code,
    ...picked(item, [...carried, 'drive', 'min', 'max', 'increment', 'settings', 'lever', 'stepDeg', 'loosens']),
  };
}

export function bagEntry(item: ItemOf<'bag'>): PlanCatalog['bags'][number] {
  return {
    id: item.code,
    ...picked(item, [...described, 'role', 'mass', 'massMax', 'volumeMax', 'itemsMax', 'sizeMax', 'tetherPoints']),
  };
}
