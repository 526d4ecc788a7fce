import type { Item } from '../../../shared-types/records/item.ts';
import { overKept } from '../../store/overKept.ts';
import { useStore } from '../session/useStore.ts';
import { bulkAct, namedText, removeAct } from './acts.ts';
import { DeedDialog } from './DeedDialog.tsx';
import { usageOf } from './usage.ts';
import type { CodeHolders } from './usage.ts';
import { UsedBy } from './UsedBy.tsx';
import { itemName } from './words.ts';

export interface OneDeedProps {
  deed: 'retire' | 'remove';
  item: Item;
  holders: CodeHolders;
  onDone: () => void;
  onClose: () => void;
}

/** Takes one item off the shelf or away altogether, once its consequences are said. */
export function OneDeed({ deed, item, holders, onDone, onClose }: OneDeedProps) {
  const store = useStore();
  const usage = usageOf(item, holders);
  const named = namedText(item.code, usage);
  const what = `${item.code}, ${itemName(item)}`;
  if (deed === 'retire') {
    return (
      <DeedDialog
        title={`Retire ${item.code}?`}
        deed={`Retire ${item.code}`}
        run={(over) => store.commit(overKept(bulkAct([item], { field: 'retired', to: true }), over))}
        onDone={onDone}
        onClose={onClose}
      >
        <p>{what} is kept, but no bag is planned with it any more. It can be brought back.</p>
        {named === null ? null : (
          <>
            <p>
              <b>{named}</b> and will find it missing.
            </p>
            <UsedBy usage={usage} />
          </>
        )}
      </DeedDialog>
    );
  }
  const stays = named !== null || item.tag !== undefined;
  return (
    <DeedDialog
      title={!stays ? `Remove ${item.code}?` : `${item.code} cannot be removed`}
      deed={!stays ? `Remove ${item.code}` : null}
      run={(over) => store.commit(overKept(removeAct(item), over))}
      onDone={onDone}
      onClose={onClose}
    >
      {!stays ? (
        <p>{what} goes from its shelf altogether. Undo brings it back.</p>
      ) : named === null ? (
        <p>
          {what} has a label with number {item.tag}, which shall never name another thing. Retire it: a retired item is
          kept for its label.
        </p>
      ) : (
        <>
          <p>{named}. Take it out of them first, or retire it: a retired item is kept for what refers to it.</p>
          <UsedBy usage={usage} />
        </>
      )}
    </DeedDialog>
  );
}
