import { useMemo } from 'react';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { RefusedError } from '../../engine/errors.ts';
import { readFrozen } from '../../engine/frozen/index.ts';
import type { Frozen } from '../../engine/frozen/index.ts';

export type FrozenRead = { kind: 'read'; frozen: Frozen } | { kind: 'refused'; reason: string };

const known = new WeakMap<object, FrozenRead>();

/** A frozen manifest read; once for each, as long as it is held somewhere. */
export function frozenRead(revision: Revision): FrozenRead {
  const before = known.get(revision.content);
  if (before !== undefined) return before;
  const read = reading(revision);
  known.set(revision.content, read);
  return read;
}

function reading(revision: Revision): FrozenRead {
  try {
    return { kind: 'read', frozen: readFrozen(revision) };
  } catch (error) {
    if (error instanceof RefusedError) return { kind: 'refused', reason: error.message };
    throw error;
  }
}

export function useFrozenRead(revision: Revision | null): FrozenRead | null {
  return useMemo(() => (revision === null ? null : frozenRead(revision)), [revision]);
}
