import type { Doer, Revision } from '../../../shared-types/records/revision.ts';
import { freeze } from '../../engine/frozen/index.ts';
import type { ToFreeze } from '../../engine/frozen/index.ts';
import { contentHash } from '../../engine/record/chain.ts';
import { sha256 } from '../../store/sha256.ts';
import type { Act, SaveState } from '../../store/store.ts';

export interface ToRevision {
  state: ToFreeze;
  /** Key of the task, and what it is called. */
  task: { id: string; name: string };
  id: string;
  number: number;
  by: Doer;
  why: string;
  /** The clock's claim, ISO with its offset. */
  at: string;
}

/** A revision as it is to be kept, with the hash of what it holds. */
export async function revisionOf({ state, task, id, number, by, why, at }: ToRevision): Promise<Revision> {
  const content = freeze(state);
  const hash = await contentHash(content, sha256);
  return { id, rev: 0, task: task.id, number, called: task.name, at, by, why, hash, content };
}

/** It is never changed and never removed, and so no undo takes it away. */
export function freezeAct(revision: Revision): Act {
  return {
    action: 'freeze',
    title: `Freeze as revision ${revision.number}`,
    undoable: false,
    proposals: [{ table: 'revisions', put: revision }],
  };
}

/** Why nothing is frozen at the moment, whatever the task says; null where it may be. */
export function whyNotNow(saving: SaveState): string | null {
  if (saving.kind === 'not-saved') return `The last change is NOT SAVED: ${saving.reason}`;
  if (saving.kind === 'elsewhere') return saving.reason;
  return saving.kind === 'saving' ? 'The last change is still being saved.' : null;
}

/** The number that the next one gets. */
export function nextNumber(revisions: readonly Pick<Revision, 'number'>[]): number {
  return Math.max(0, ...revisions.map(({ number }) => number)) + 1;
}
