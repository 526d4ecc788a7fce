import type { PlanCatalog } from '../../../shared-types/plan.ts';
import type { Item, ItemOf } from '../../../shared-types/records/item.ts';
import { picked, planFields } from './planFields.ts';

/** One entry of a plan's catalog, and the list it stands in. */
export type PlanEntry = { [L in keyof PlanCatalog]: { list: L; entry: PlanCatalog[L][number] } }[keyof PlanCatalog];

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
    case 'extension': {
      const { form: kind } = item;
      return kind === 'offset-head' ? null : { list: 'extensions', entry: { ...extensionEntry(item), kind } };
    }
    case 'driver':
      return { list: 'drivers', entry: driverEntry(item) };
    case 'torque-tool': {
      const { accuracyOfReading } = item;
      if (accuracyOfReading === undefined) return null;
      return { list: 'torqueTools', entry: torqueToolEntry({ ...item, accuracyOfReading }) };
    }
    case 'gear':
      return { list: 'carryGear', entry: gearEntry(item) };
    case 'bag':
      return { list: 'bags', entry: bagEntry(item) };
  }
}

/** A kept fastener as a plan’s catalog writes it. */
export function fastenerEntry(item: ItemOf<'fastener'>): PlanCatalog['fasteners'][number] {
  return { id: item.code, ...picked(item, planFields.fastener) };
}

/** A kept socket as a plan’s catalog writes it. */
export function socketEntry(item: ItemOf<'socket'>): PlanCatalog['sockets'][number] {
  return { id: item.code, ...picked(item, planFields.socket) };
}

/** Without its kind: an offset head has none in a plan. */
export function extensionEntry(item: ItemOf<'extension'>): Omit<PlanCatalog['extensions'][number], 'kind'> {
  const { form: _, ...entry } = picked(item, planFields.extension);
  return { id: item.code, ...entry };
}

/** A kept driver as a plan’s catalog writes it. */
export function driverEntry(item: ItemOf<'driver'>): PlanCatalog['drivers'][number] {
  return { id: item.code, ...picked(item, planFields.driver) };
}

type OfReading = ItemOf<'torque-tool'> & { accuracyOfReading: number };

/** A kept torque tool as a plan’s catalog writes it. */
export function torqueToolEntry(item: OfReading): PlanCatalog['torqueTools'][number] {
  return { id: item.code, ...picked(item, planFields['torque-tool']) };
}

/** Kept gear as a plan’s catalog writes it. */
export function gearEntry(item: ItemOf<'gear'>): PlanCatalog['carryGear'][number] {
  return { id: item.code, ...picked(item, planFields.gear) };
}

/** A kept bag as a plan’s catalog writes it. */
export function bagEntry(item: ItemOf<'bag'>): PlanCatalog['bags'][number] {
  return { id: item.code, ...picked(item, planFields.bag) };
}
