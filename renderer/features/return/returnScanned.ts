import type { FrozenThing } from '../../../shared-types/records/revision.ts';
import { isSome } from '../../engine/return/index.ts';
import type { ReturnLine, ReturnState } from '../../engine/return/index.ts';
import type { TagReading } from '../../engine/tag/index.ts';

/** What a label says to do on a return: count a piece of a line, show a bag; or why it stops everything until someone has seen it. */
export type ReturnScan = { line: ReturnLine; label?: string } | { bag: string } | { refused: string };

/**
 * What to do about a label that was read.
 *
 * @param reading - a label, or why what was read is none
 * @param x.things - of the frozen manifest, with the numbers on their labels
 */
export function returnScanned(
  reading: TagReading,
  x: { state: ReturnState; things: readonly FrozenThing[] },
): ReturnScan {
  if ('refused' in reading) return reading;
  const { tag, text } = reading;
  const refused = (words: string): ReturnScan => ({ refused: words });
  if (tag.kind === 'manifest') return refused(`This is the label of manifest revision ${tag.tag}, and of no piece.`);
  const thing = x.things.find((one) => one.tag === tag.tag && (one.kind === 'bag') === (tag.kind === 'bag'));
  if (thing === undefined) return refused(`Label ${tag.tag} is of nothing on this manifest.`);
  if (tag.kind === 'bag')
    return x.state.lines.some(({ bag }) => bag === thing.id)
      ? { bag: thing.id }
      : refused(`Nothing went out in ${thing.name}.`);
  const lines = x.state.lines.filter(({ item }) => item === thing.id);
  const [first] = lines;
  if (first === undefined) return refused(`Nothing of ${thing.id} ${thing.name} went out on this outing.`);
  const open = lines.find((line) => isSome(line.open));
  if (tag.piece === 0)
    return open === undefined ? refused(`Every piece of ${thing.id} that went out is accounted for.`) : { line: open };
  const packed = lines.find(({ labels }) => labels.includes(text));
  if (packed !== undefined) return { line: packed, label: text };
  // Packed by number, it may be one of those; where all were packed by their labels, it is none of them.
  const byNumber = lines.find((line) => line.labels.length < line.out.pieces && isSome(line.open));
  return byNumber === undefined
    ? refused(
        `Piece ${tag.piece} of ${thing.id} did not go out on this outing: its label was not read when it was packed.`,
      )
    : { line: byNumber, label: text };
}
