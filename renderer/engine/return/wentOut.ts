import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { beginPacking, packOn } from '../packing/fold.ts';
import { countedOf } from '../packing/folded.ts';
import type { Amount } from './amount.ts';

interface Packed extends Amount {
  bag: string;
  item: string;
  /** As the manifest has them. */
  lies: { pocket?: string; apart?: readonly { pocket: string; pieces: number }[] };
  /** Of single pieces among them. */
  labels: string[];
}

/**
 * What was in the bags of an outing when they left, by the packing's own fold.
 *
 * @param revision - what was to be packed
 * @param before - the events before the leaving, in any order
 * @param outing - code of the outing
 * @returns one for each line of the manifest of the outing, in its order
 */
export function packedOf(
  revision: Pick<Revision, 'content'>,
  before: readonly OutingEvent[],
  outing: string,
): Packed[] {
  const inOrder = before.toSorted((one, other) => one.no - other.no);
  const { lines } = packOn(beginPacking(revision, outing), inOrder);
  return [...lines.values()].map((folded) => ({
    ...{ bag: folded.line.bag, item: folded.line.item },
    lies: {
      ...(folded.line.pocket === undefined ? {} : { pocket: folded.line.pocket }),
      ...(folded.line.apart === undefined ? {} : { apart: folded.line.apart }),
    },
    ...countedOf(folded),
    labels: folded.entries.flatMap(({ labels }) => labels),
  }));
}
