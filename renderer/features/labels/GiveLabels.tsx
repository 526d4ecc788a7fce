import { useMemo } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import { RefusedError } from '../../engine/errors.ts';
import { DeedDialog } from '../catalog/DeedDialog.tsx';
import { countOf } from '../catalog/words.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { giveLabelsAct } from './giveLabels.ts';

/** Numbers for things that have none, said before they are given. */
export function GiveLabels({ wanted, onDone }: { wanted: readonly Item[]; onDone: () => void }) {
  const store = useStore();
  const items = useTable('items').rows;
  const revisions = useTable('revisions');
  const given = useMemo(() => {
    try {
      return giveLabelsAct(wanted, items.values(), revisions.rows.values());
    } catch (error) {
      if (error instanceof RefusedError) return { fault: error.message };
      throw error;
    }
  }, [wanted, items, revisions.rows]);
  const title = `Give labels to ${countOf(wanted.length, 'thing')}`;
  if (!revisions.ready || 'fault' in given)
    return (
      <DeedDialog title={title} deed={null} run={() => Promise.resolve()} onDone={onDone} onClose={onDone}>
        <p>{'fault' in given ? `Not given: ${given.fault}.` : 'Looking for numbers that were given before…'}</p>
      </DeedDialog>
    );
  const { act, first, last } = given;
  const range = first === last ? `number ${first}` : `numbers ${first} to ${last}`;
  return (
    <DeedDialog title={title} deed={`Give ${range}`} run={() => store.commit(act)} onDone={onDone} onClose={onDone}>
      <p>
        {wanted.length === 1 ? 'It gets' : 'They get'} <b>{range}</b>, in their order. A number stays with its thing: it
        is not changed, and given to no other while it is there. The act can be undone until one of the numbers is
        frozen with a manifest or read for a piece; labels printed before then must be taken off again.
      </p>
    </DeedDialog>
  );
}
