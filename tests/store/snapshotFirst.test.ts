import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { changedMost, reasonBefore, removedMost, snapshotFirst } from '../../renderer/store/writing/snapshotFirst.ts';
import type { Act } from '../../renderer/store/store.ts';

const act = (puts: number, removals: number, more: Partial<Act> = {}): Act => ({
  ...{ action: 'edit', title: 'Edit', ...more },
  proposals: [
    ...Array.from({ length: puts }, (_, at) => ({
      table: 'shelves' as const,
      put: { id: `s${at}`, rev: 0, name: 'S' },
    })),
    ...Array.from({ length: removals }, (_, at) => ({ table: 'items' as const, remove: { id: `i${at}`, rev: 1 } })),
  ],
});

describe('before a change', () => {
  it.each([
    [act(1, 0), null],
    [act(0, removedMost), null],
    [act(0, removedMost + 1), 'before-deletion'],
    [act(changedMost, 0), null],
    [act(changedMost + 1, 0), 'before-large-change'],
    [act(changedMost + 1, removedMost + 1), 'before-deletion'],
    [act(changedMost + 1, removedMost + 1, { snapshotMade: true }), null],
  ])('a snapshot is made where it removes much or is large (case %#)', (one, why) => {
    expect(reasonBefore(one)).toBe(why);
  });

  it('a snapshot that cannot be made keeps the change from being made, and says why', async () => {
    const asked: string[] = [];
    await snapshotFirst(act(0, 1), { make: async ({ why }) => (asked.push(why), null) });
    expect(asked).toEqual([]);
    const full = { make: () => Promise.reject(new Error('ENOSPC')) };
    const error: unknown = await snapshotFirst(act(0, 30, { title: 'Remove list' }), full).catch(
      (cause: unknown) => cause,
    );
    expect(error).toBeInstanceOf(RefusedError);
    expect((error as RefusedError).message).toBe(
      'Remove list: nothing was changed, because a snapshot has to be there before it. ENOSPC.',
    );
  });
});
