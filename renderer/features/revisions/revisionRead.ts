import type { Revision } from '../../../shared-types/records/revision.ts';
import { isOfManifest } from '../../engine/tag/index.ts';
import type { TagReading } from '../../engine/tag/index.ts';

/** The revision whose label was read, or why it is none of these. */
export function revisionRead<R extends Pick<Revision, 'number' | 'hash'>>(
  reading: TagReading,
  revisions: readonly R[],
): R | { refused: string } {
  if ('refused' in reading) return reading;
  const { tag } = reading;
  if (tag.kind !== 'manifest') return { refused: `label ${tag.tag} is of a ${tag.kind === 'bag' ? 'bag' : 'thing'}` };
  const found = revisions.find((one) => isOfManifest(tag, one));
  if (found !== undefined) return found;
  return {
    refused: revisions.some(({ number }) => number === tag.tag)
      ? `it is of a revision ${tag.tag} of other content than this task’s: of another task, or of another copy of the program`
      : `this task has no revision ${tag.tag}`,
  };
}
