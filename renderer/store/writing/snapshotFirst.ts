/** A change that takes much away, or is large, is made only once a snapshot of what is kept before it is there. */
import type { SnapshotHost } from '../../../shared-types/host.ts';
import type { AskedReason } from '../../../shared-types/snapshot.ts';
import { RefusedError } from '../../engine/errors.ts';
import type { Act } from '../store.ts';

/** A change that removes more records than this is a bulk deletion. */
export const removedMost = 20;
/** A change of more records than this is a large one, as the import of a long table is. */
export const changedMost = 500;

/** Null where the change needs none, or says that one was made. */
export function reasonBefore({ proposals, snapshotMade = false }: Act): AskedReason | null {
  if (snapshotMade) return null;
  const removed = proposals.filter((proposal) => 'remove' in proposal).length;
  if (removed > removedMost) return 'before-deletion';
  return proposals.length > changedMost ? 'before-large-change' : null;
}

/** @throws RefusedError where it could not be made; then nothing is changed */
export async function snapshotFirst(act: Act, host: Pick<SnapshotHost, 'make'>): Promise<void> {
  const why = reasonBefore(act);
  if (why === null) return;
  try {
    await host.make({ why });
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message : String(cause);
    throw new RefusedError({
      code: 'disk',
      message: `${act.title}: nothing was changed, because a snapshot has to be there before it. ${reason.replace(/(?<![.!?])$/, '.')}`,
    });
  }
}
