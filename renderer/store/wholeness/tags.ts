import type { Refusal } from '../../../shared-types/errors.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import { nameOf } from '../recordNames.ts';
import type { View } from './view.ts';

/**
 * The number on a label is one thing's: no other gets it, and it is not changed. Only an undo takes it back, and only as long as nobody has used it:
 * not once it is frozen with a manifest, or a label with it was read for a piece.
 */
export async function brokenTags(view: View): Promise<Refusal[]> {
  const refusals: Refusal[] = [];
  const fresh: Item[] = [];
  for (const { before, after } of view.changesIn('items')) {
    const [was, is] = [before as Item | null, after as Item | null];
    if (is?.tag === was?.tag) continue;
    const given = was?.tag;
    if (view.isUndo && given !== undefined && was !== null && is !== null && is.tag === undefined) {
      const used = await view.reads.tagUse(given);
      if (used === null) continue;
      refusals.push({
        code: 'contradiction',
        message: `${nameOf('items', was)}: number ${given} stays on its label: ${used}`,
        field: 'items.tag',
        value: given,
      });
    } else if (was?.tag !== undefined)
      refusals.push({
        code: 'contradiction',
        message:
          is === null
            ? `${nameOf('items', was)} has a label with number ${was.tag}, which shall never name another thing: retire it instead`
            : `${nameOf('items', was)}: the number on its label stays ${was.tag}`,
        field: is === null ? 'items.id' : 'items.tag',
        value: is === null ? was.id : (is.tag ?? null),
      });
    else if (is !== null) fresh.push(is);
  }
  if (fresh.length === 0) return refusals;
  const kept = await view.reads.where(
    'items',
    'tag',
    fresh.flatMap(({ tag }) => tag ?? []),
  );
  const holders = new Map<number, number>();
  for (const { tag } of view.afterwards('items', kept))
    if (tag !== undefined) holders.set(tag, (holders.get(tag) ?? 0) + 1);
  for (const item of fresh)
    if ((holders.get(item.tag ?? 0) ?? 0) > 1)
      refusals.push({
        code: 'duplicate-id',
        message: `${nameOf('items', item)}: label number ${item.tag ?? ''} is on another thing already`,
        field: 'items.tag',
        value: item.tag ?? null,
      });
  return refusals;
}
