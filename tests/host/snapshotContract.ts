/** What every host promises of the snapshots of its journal. They go on with the journal that the tests before have filled. */
import { expect, describe, it } from 'vitest';
import type { Host } from '../../shared-types/host.ts';
import { refusalFrom } from './refusalFrom.ts';

export function snapshotContract(host: () => Host): void {
  describe('its snapshots', () => {
    it('are made when asked, listed, and read back with what the journal comes to', async () => {
      const { seq, hash, counts } = await host().journal.open();
      const made = await host().snapshots.make({ why: 'asked' });
      expect(made).toMatchObject({ seq, why: 'asked', places: ['here'] });
      const list = await host().snapshots.list();
      expect(list).toMatchObject({ second: null, shrunk: null });
      expect(list.folder).toMatch(/snapshots$/);
      expect(list.snapshots).toEqual([made]);
      const { head, records, next } = await host().snapshots.read({ name: made?.name ?? '', from: 0 });
      expect(head).toMatchObject({ seq, hash, counts });
      expect(next).toBeNull();
      expect(records.filter(([table]) => table === 'shelves')).toHaveLength(counts.shelves);
      await host().snapshots.meant({ what: 'less-is-kept' });
      await host().snapshots.noSecond();
    });

    it('are refused by any other name than one of their own, and for any other reason than those', async () => {
      for (const name of [
        '',
        '../journal/device',
        'a.snapshot',
        '/etc/passwd',
        '2031-04-05T10-20-30Z_1_asked.snapshot',
      ])
        expect(await refusalFrom(host().snapshots.read({ name, from: 0 }))).toMatchObject({ code: 'wrong-shape' });
      const gone = '2031-04-05T10-20-30Z_000000000099_asked.snapshot';
      expect(await refusalFrom(host().snapshots.read({ name: gone, from: 0 }))).toMatchObject({
        code: 'unreadable-file',
        file: gone,
      });
      const wrong = { why: 'half-hour' } as unknown as { why: 'asked' };
      expect(await refusalFrom(host().snapshots.make(wrong))).toMatchObject({ code: 'wrong-shape' });
    });
  });
}
