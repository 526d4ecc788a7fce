import type { Item, ItemOf } from '../../../shared-types/records/item.ts';
import { RefusedError } from '../errors.ts';
import {
  resolveBag,
  resolveDriver,
  resolveExtension,
  resolveFastener,
  resolveGear,
  resolveSocket,
  resolveTorqueTool,
} from '../plan/resolveCatalog.ts';
import type { Reading } from '../plan/reading.ts';
import { readQuantity } from '../units/index.ts';
import { faultsOfReading, type Fault } from './faults.ts';
import {
  bagEntry,
  driverEntry,
  extensionEntry,
  fastenerEntry,
  gearEntry,
  socketEntry,
  torqueToolEntry,
} from './planEntries.ts';

/** An item whose shape is right: are its quantities, thread, drives and sizes readable, and do they go together? */
export function itemFaults(item: Item): Fault[] {
  const read = faultsOfReading((r) => readItem(r, item)).map((fault) => scaleFault(item, fault));
  return [...read, ...hexalobularFaults(item), ...accuracyFaults(item)];
}

/** Both or neither of increment and settings is a fault of the whole tool: it is shown where it can be mended. */
function scaleFault(item: Item, fault: Fault): Fault {
  if (fault.path !== '' || item.kind !== 'torque-tool') return fault;
  return { ...fault, path: item.increment === undefined ? 'increment' : 'settings' };
}

/** Paths begin with a dot, as they would below an entry of a list; `faultsOfReading` takes it off. */
const here = '';

function readItem(r: Reading, item: Item): void {
  switch (item.kind) {
    case 'fastener':
      return readFastener(r, item);
    case 'socket':
      return void resolveSocket(r, here, socketEntry(item));
    case 'extension':
      // The form decides nothing about how its fields are read.
      resolveExtension(r, here, { ...extensionEntry(item), kind: 'rigid' });
      return void r.optional(item.offset, (text) => r.lengthMm('offset', text));
    case 'driver':
      return void resolveDriver(r, here, driverEntry(item));
    case 'torque-tool':
      // Its accuracy is a number already, and is looked at below.
      return void resolveTorqueTool(
        r,
        here,
        torqueToolEntry({ ...item, accuracyOfReading: item.accuracyOfReading ?? Number.NaN }),
      );
    case 'gear':
      resolveGear(r, here, gearEntry(item));
      return void r.optional(item.ratedMass, (text) => r.massKg('ratedMass', text));
    case 'bag':
      return void resolveBag(r, here, bagEntry(item));
  }
}

function readFastener(r: Reading, item: ItemOf<'fastener'>): void {
  resolveFastener(r, here, fastenerEntry(item));
  r.optional(item.volume, (text) => r.volumeL('volume', text));
  r.optional(item.size, (text) => r.lengthMm('size', text));
  r.optional(item.length, (text) => r.lengthMm('length', text));
  const limits = item.acrossFlatsLimits;
  if (limits === undefined) return;
  const minMm = r.extentMm('acrossFlatsLimits.min', limits.min);
  const maxMm = r.extentMm('acrossFlatsLimits.max', limits.max);
  r.refusals.attempt('acrossFlatsLimits.min', limits.min, undefined, () => {
    if (!r.isAbove(minMm, maxMm)) return;
    throw new RefusedError({ code: 'contradiction', message: `is above max, "${limits.max}"` });
  });
}

/** Letters and a number, as "T30" or "E12". */
const hexalobularSize = /^\p{L}{0,4}\s?\d{1,3}\p{L}{0,4}$/u;

/** A hexalobular size is a name, compared as text: a length there would fit nothing, without a word. */
function hexalobularFaults(item: Item): Fault[] {
  const head =
    item.kind === 'fastener' && item.head.form === 'hexalobular'
      ? { path: 'head.acrossFlats', text: item.head.acrossFlats }
      : item.kind === 'socket' && item.opening.form === 'hexalobular'
        ? { path: 'opening.size', text: item.opening.size }
        : null;
  if (head === null || (hexalobularSize.test(head.text.trim()) && !isLength(head.text))) return [];
  return [{ path: head.path, message: `"${head.text}" is no hexalobular size: write it as "T30" or "T25".` }];
}

function isLength(text: string): boolean {
  try {
    readQuantity(text, 'length');
    return true;
  } catch (error) {
    if (error instanceof RefusedError) return false;
    throw error;
  }
}

function accuracyFaults(item: Item): Fault[] {
  if (item.kind !== 'torque-tool') return [];
  const ofReading = item.accuracyOfReading !== undefined;
  if (ofReading !== (item.accuracyOfFullScale !== undefined)) return [];
  return [
    {
      path: ofReading ? 'accuracyOfFullScale' : 'accuracyOfReading',
      message: ofReading
        ? 'A torque tool’s accuracy is of the reading or of full scale; both are given: leave one empty.'
        : 'is missing: give the accuracy of the reading or of full scale, as 0.04 for 4 %.',
    },
  ];
}
