/** What every host promises of the journal. The tests of one host go on with one journal, in this order. */
import { describe, expect, it, vi } from 'vitest';
import { emptyHash, type AppendRequest } from '../../shared-types/journal.ts';
import type { JournalHost } from '../../shared-types/host.ts';
import { recordsVersion, tableNames } from '../../shared-types/records/index.ts';
import { refusalFrom } from './refusalFrom.ts';
import { patience } from '../support/patience.ts';

const notLost = (): void => undefined;

function request(lease: string, seq: number): AppendRequest {
  const id = `s${seq}`;
  return {
    lease,
    seq,
    user: 'A. Example',
    action: 'edit',
    payload: {
      title: `Add shelf ${seq} ½`,
      key: crypto.randomUUID(),
      undoable: true,
      changes: [{ table: 'shelves', id, before: null, after: { id, rev: 1, name: `Store ${seq} “½”` } }],
    },
  };
}

export function journalContract(journal: () => JournalHost): void {
  describe('its journal', () => {
    const lease = async (): Promise<{ id: string; end: () => void }> => {
      const held = await journal().lease({ takeOver: true }, notLost);
      if (held === null) throw new Error('no lease');
      return held;
    };

    it('is empty at first', async () => {
      const none = Object.fromEntries(tableNames.map((name) => [name, 0]));
      expect(await journal().open()).toEqual({
        seq: 0,
        hash: emptyHash,
        counts: none,
        schema: recordsVersion,
        database: expect.stringMatching(/^bagwright/) as string,
        damage: null,
        tail: null,
        further: null,
        recent: [],
      });
      expect(await journal().read({ from: 1 })).toEqual({ entries: [], next: null });
    });

    it('keeps what is appended under the lease, and gives it back whole', async () => {
      const { id, end } = await lease();
      const asked = request(id, 1);
      const first = await journal().append(asked);
      expect(first).toEqual({ seq: 1, hash: expect.stringMatching(/^[0-9a-f]{64}$/) as string, utc: first.utc });
      expect(Date.parse(first.utc)).toBeGreaterThan(0);
      const second = await journal().append(request(id, 2));
      const { entries, next } = await journal().read({ from: 1 });
      expect(next).toBeNull();
      expect(entries.map(({ seq, prevHash, hash }) => [seq, prevHash, hash])).toEqual([
        [1, emptyHash, first.hash],
        [2, first.hash, second.hash],
      ]);
      expect(entries[0]).toMatchObject({ user: 'A. Example', action: 'edit', payload: asked.payload });
      expect(await journal().open()).toMatchObject({ seq: 2, hash: second.hash, counts: { shelves: 2 } });
      end();
    });

    it('answers the same key as the first time', async () => {
      const { id, end } = await lease();
      const asked = request(id, 3);
      const first = await journal().append(asked);
      expect(await journal().append(asked)).toEqual(first);
      expect((await journal().open()).seq).toBe(3);
      end();
    });

    it('refuses an append without the lease, or out of order, and a shape that is none', async () => {
      expect(await refusalFrom(journal().append(request('0'.repeat(32), 4)))).toMatchObject({ code: 'not-writer' });
      const { id, end } = await lease();
      for (const seq of [1, 3, 5]) {
        expect(await refusalFrom(journal().append(request(id, seq)))).toMatchObject({ code: 'behind' });
      }
      const wrong = { ...request(id, 4), action: 'NOT AN ACTION' };
      expect(await refusalFrom(journal().append(wrong))).toMatchObject({ code: 'wrong-shape' });
      expect(await refusalFrom(journal().read({ from: 0 }))).toMatchObject({ code: 'wrong-shape' });
      expect((await journal().open()).seq).toBe(3);
      end();
      await vi.waitFor(async () => {
        expect(await refusalFrom(journal().append(request(id, 4)))).toMatchObject({ code: 'not-writer' });
      }, patience);
    });

    it('refuses what would not come back as it was', async () => {
      const { id, end } = await lease();
      const shelf = JSON.parse('{"id":"x","rev":1,"name":"x","__proto__":{"polluted":1}}') as Record<string, unknown>;
      let deep: unknown = 1;
      for (let level = 0; level < 200; level += 1) deep = [deep];
      for (const [code, before] of [
        ['forbidden-key', shelf],
        ['too-deep', { deep }],
      ] as const) {
        const asked = request(id, 4);
        asked.payload.changes = [{ table: 'shelves', id: 'x', before, after: null }];
        expect(await refusalFrom(journal().append(asked))).toMatchObject({ code });
      }
      expect((await journal().open()).seq).toBe(3);
      end();
    });

    it('remembers which database belongs to it, and takes no name that is none', async () => {
      const { id, end } = await lease();
      await journal().setDatabase({ lease: id, name: 'bagwright-7' });
      expect((await journal().open()).database).toBe('bagwright-7');
      for (const name of ['', '../../x', 'a b', 'x'.repeat(200)]) {
        expect(await refusalFrom(journal().setDatabase({ lease: id, name }))).toMatchObject({ code: 'wrong-shape' });
      }
      end();
    });

    it('begins again with what is to be kept', async () => {
      const { id, end } = await lease();
      const { state, setAside } = await journal().beginAgain({ lease: id, keepThrough: 2 });
      expect(state).toMatchObject({ seq: 2, counts: { shelves: 2 }, damage: null });
      expect(setAside).toMatch(/^[\w-]+$/);
      expect((await journal().append(request(id, 3))).seq).toBe(3);
      end();
    });

    it('gives the lease back, to be had again', async () => {
      const first = await lease();
      first.end();
      await vi.waitFor(async () => {
        const second = await journal().lease({ takeOver: false }, notLost);
        expect(second).not.toBeNull();
        second?.end();
      }, patience);
    });
  });
}
