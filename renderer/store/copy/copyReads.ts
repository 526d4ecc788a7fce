import Dexie from 'dexie';
import type { OutingEvent } from '../../../shared-types/records/revision.ts';
import { readTag } from '../../engine/tag/index.ts';
import type { Reads } from '../wholeness/view.ts';
import { breathe } from '../breathe.ts';
import { inPieces } from '../inPieces.ts';
import type { WorkingCopy } from './workingCopy.ts';
import { settled } from './workingCopy.ts';

/** Labels that were read for what was done. */
function labelsOf(deed: OutingEvent['deed']): readonly string[] {
  if (deed.kind === 'carried-over') return deed.counts.flatMap(({ labels }) => labels);
  return 'label' in deed && deed.label !== undefined ? [deed.label] : [];
}

/** How many keys one question takes. */
const most = 2000;
/** So many records are unpacked at a time. */
const pieceSize = 400;

/**
 * What the checks read, from the working copy. Others may write between two answers; the journal then refuses the change
 * as behind, and everything is asked again.
 */
export function readsOf(copy: WorkingCopy): Reads {
  return {
    async byIds(table, ids) {
      const found = await settled(copy.records(table).bulkGet([...ids]));
      return found.filter((record) => record !== undefined);
    },
    where: (table, index, values, isPassedOver = () => false) =>
      settled(
        copy.transaction('r', table, async () => {
          const records = copy.records(table);
          const found = records.where(index).anyOf([...values]);
          // Keys are light: of records that are passed over in their thousands nothing else is read.
          const keys = (await found.primaryKeys()).filter((key) => !isPassedOver(key));
          const rows: Awaited<ReturnType<typeof records.bulkGet>> = [];
          for (const piece of inPieces(keys, pieceSize)) for (const row of await records.bulkGet(piece)) rows.push(row);
          return rows.filter((row) => row !== undefined);
        }),
      ),
    tagUse: async (tag) => {
      // Seldom asked: all that was frozen and done is looked through, by its labels alone.
      let used: string | null = null;
      await settled(
        copy.records('revisions').each(({ number, content, broughtIn }) => {
          const isGiven = broughtIn?.renumbered?.some(({ is }) => is === tag) ?? false;
          if (isGiven || content.things.some((thing) => thing.tag === tag))
            used ??= `revision ${number} was frozen with it`;
        }),
      );
      if (used !== null) return used;
      await settled(
        copy.records('events').each(({ no, deed }) => {
          for (const label of labelsOf(deed)) {
            const reading = readTag(label);
            if ('tag' in reading && reading.tag.kind !== 'manifest' && reading.tag.tag === tag)
              used ??= `a piece was counted by it, event ${no}`;
          }
        }),
      );
      return used;
    },
    async codesUnder(table, index, parent) {
      const codes: string[] = [];
      let after: string | null = null;
      for (;;) {
        const from: unknown[] = after === null ? [parent, Dexie.minKey] : [parent, after];
        const rows: { code: string }[] = await settled(
          copy
            .table<{ code: string }>(table)
            .where(index)
            .between(from, [parent, Dexie.maxKey], after === null, true)
            .limit(most)
            .toArray(),
        );
        for (const { code } of rows) codes.push(code);
        const last = rows.at(-1);
        if (rows.length < most || last === undefined) return codes;
        after = last.code;
        await breathe();
      }
    },
  };
}
