import type { Item, ItemKind } from '../../../shared-types/records/item.ts';
import { differencesOf, type FieldDifference } from './differences.ts';
import { mergedByCode, withFileFields, type Merged } from './merged.ts';
import { planFields } from './planFields.ts';

/** A file's catalog worked into one shelf. What comes new stands after what is there. */
export function mergeItems(x: {
  here: readonly Item[];
  file: readonly Item[];
  differing: 'keep' | 'take';
}): Merged<Item> {
  const last = Math.max(0, ...x.here.map(({ position }) => position ?? 0));
  const file = x.file.map((item, index): Item => ({ ...item, position: last + index + 1 }));
  return mergedByCode({ table: 'items', here: x.here, file, differing: x.differing, differences, taken });
}

function differences(here: Item, file: Item): FieldDifference[] {
  const fields = [...new Set([...fieldsOf(here.kind), ...fieldsOf(file.kind)])];
  // One item may have fields that the other kind has not; absent is what it is then.
  return differencesOf<Partial<Record<string, unknown>>>(here, file, ['kind', ...fields, 'retired']);
}

function fieldsOf(kind: ItemKind): readonly string[] {
  return planFields[kind];
}

/** What the file cannot say (kit, storage place, label, serial, calibration) stays as it is here. */
function taken(here: Item, file: Item): Item {
  const { id, rev, parts, kit, keptAt, position, tag } = here;
  if (here.kind !== file.kind) {
    const { position: _, ...entry } = file;
    const own = {
      ...{ id, rev, parts, kit },
      ...(keptAt === undefined ? {} : { keptAt }),
      ...(tag === undefined ? {} : { tag }),
    };
    return { ...entry, ...own, ...(position === undefined ? {} : { position }) };
  }
  const item = withFileFields<Partial<Record<string, unknown>>>(here, file, [
    ...fieldsOf(here.kind),
    'retired',
  ]) as Item;
  const before: Partial<Record<string, unknown>> = here;
  if (item.kind !== 'torque-tool' || item.accuracyOfReading === before['accuracyOfReading']) return item;
  // Another accuracy is not the one the certificate here was for.
  const { accuracyOfFullScale: _full, accuracyFrom: _from, ...tool } = item;
  return tool;
}
