import type { Item } from '../../../shared-types/records/item.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { freeTags } from '../../engine/tag/index.ts';
import type { Act } from '../../store/store.ts';
import { countOf } from '../catalog/words.ts';

/** Every label number that was ever given: on things of the catalog, retired ones too, and in frozen manifests. */
export function* givenTags(items: Iterable<Item>, revisions: Iterable<Revision>): Iterable<number> {
  for (const { tag } of items) if (tag !== undefined) yield tag;
  for (const { content, broughtIn } of revisions) {
    for (const { tag } of content.things) if (tag !== undefined) yield tag;
    for (const { is } of broughtIn?.renumbered ?? []) yield is;
  }
}

/**
 * Gives each thing the next number, as one act. It is undone as one, until a number of it is frozen or was read for a piece.
 *
 * @param wanted - things without a number
 * @throws RefusedError where there are not so many numbers left
 */
export function giveLabelsAct(
  wanted: readonly Item[],
  items: Iterable<Item>,
  revisions: Iterable<Revision>,
): { act: Act; first: number; last: number } {
  const tags = freeTags(givenTags(items, revisions), wanted.length);
  return {
    act: {
      action: 'give-labels',
      title: `Give labels to ${countOf(wanted.length, 'thing')}`,
      proposals: wanted.flatMap((item, at) => {
        const tag = tags[at];
        return tag === undefined ? [] : [{ table: 'items' as const, put: { ...item, tag } }];
      }),
    },
    first: tags[0] ?? 0,
    last: tags.at(-1) ?? 0,
  };
}
