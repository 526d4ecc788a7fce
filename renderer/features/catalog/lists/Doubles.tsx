import { Button } from '@mantine/core';
import { useState } from 'react';
import type { Item, Shelf } from '../../../../shared-types/records/item.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { Switch } from '../../../components/Switch/Switch.tsx';
import type { DoubleReason, Doubles as Found } from '../../../engine/catalog/index.ts';
import { useAct } from '../../task/useAct.tsx';
import { bulkAct, mergeAct, namedText } from '../acts.ts';
import { usageOf } from '../usage.ts';
import type { CodeHolders } from '../usage.ts';
import { countOf, itemName, kindWords } from '../words.ts';
import { useDoubles } from './useDoubles.ts';

export interface DoublesProps {
  items: readonly Item[];
  shelves: ReadonlyMap<string, Shelf>;
  holders: CodeHolders;
  onItem: (id: string) => void;
  onClose: () => void;
}

const reasons: readonly { value: DoubleReason; label: string }[] = [
  { value: 'same-thing', label: 'Same thing' },
  { value: 'codes-look-alike', label: 'Codes look alike' },
  { value: 'odd-signs', label: 'Unseen or foreign signs' },
];

/** So many groups are listed; the rest follows as these are dealt with. */
const listedMost = 100;

const keyOf = ({ reason, items }: Found): string => `${reason} ${items.map(({ id }) => id).join(' ')}`;

/** Items that may be kept twice, each group with the ways on: retire one, merge it into another, or leave both. */
export function Doubles({ items, shelves, holders, onItem, onClose }: DoublesProps) {
  const found = useDoubles(items);
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [chosen, setReason] = useState<DoubleReason | null>(null);
  const open = (found ?? []).filter((group) => !left.has(keyOf(group)));
  const countFor = (reason: DoubleReason): number => open.filter((group) => group.reason === reason).length;
  const reason = chosen ?? reasons.find(({ value }) => countFor(value) > 0)?.value ?? 'same-thing';
  const groups = open.filter((group) => group.reason === reason);
  return (
    <Dialog title="Kept twice, or taken for each other" onClose={onClose} className="bw-import">
      {found === null ? (
        <p role="status">Comparing {countOf(items.length, 'item')}…</p>
      ) : (
        <div className="bw-deed">
          <p className="bw-second">
            Retired items are not compared. Undo takes every step back. What is left stays as it is, and is listed again
            the next time.
          </p>
          <Switch
            label="Reason"
            value={reason}
            choices={reasons.map(({ value, label }) => ({ value, label: `${label} (${countFor(value)})` }))}
            onChange={setReason}
          />
          <p role="status">
            {groups.length === 0
              ? 'Nothing is found here.'
              : `${countOf(groups.length, 'group')}${groups.length > listedMost ? `; the first ${listedMost} are listed` : ''}`}
          </p>
          {groups.slice(0, listedMost).map((group) => (
            <Group
              key={keyOf(group)}
              group={group}
              shelves={shelves}
              holders={holders}
              onItem={onItem}
              onLeave={() => setLeft(new Set([...left, keyOf(group)]))}
            />
          ))}
        </div>
      )}
    </Dialog>
  );
}

interface GroupProps extends Pick<DoublesProps, 'shelves' | 'holders' | 'onItem'> {
  group: Found;
  onLeave: () => void;
}

function Group({ group, shelves, holders, onItem, onLeave }: GroupProps) {
  const { run, notice } = useAct();
  const [keep, setKeep] = useState(group.items[0]?.id);
  const kept = group.items.find(({ id }) => id === keep);
  const merge = (other: Item): void => {
    if (kept !== undefined) void run(mergeAct(kept, other, usageOf(other, holders)));
  };
  const retire = (item: Item): void => void run(bulkAct([item], { field: 'retired', to: true }));
  const several = group.items.length > 1;
  return (
    <section className="bw-catalog-double" aria-label={group.items.map(({ code }) => code).join(' and ')}>
      <p>{group.said}</p>
      {notice}
      <div className="bw-catalog-scroll">
        <table className="bw-conflict-table bw-catalog-doubles">
          <thead>
            <tr>
              {several ? <th scope="col">Stays</th> : null}
              <th scope="col">Item</th>
              <th scope="col">What it is</th>
              <th scope="col">Shelf, place</th>
              <th scope="col">On hand</th>
              <th scope="col">Named by</th>
              <th scope="col">Ways on</th>
            </tr>
          </thead>
          <tbody>
            {group.items.map((item) => (
              <tr key={item.id}>
                {several ? (
                  <td>
                    <label className="bw-catalog-check">
                      <input
                        type="radio"
                        name={`keep ${group.items[0]?.id ?? ''} ${group.reason}`}
                        aria-label={`${item.code} stays`}
                        checked={item.id === keep}
                        onChange={() => setKeep(item.id)}
                      />
                    </label>
                  </td>
                ) : null}
                <td>
                  <button type="button" className="bw-link bw-item-code" onClick={() => onItem(item.id)}>
                    {item.code}
                  </button>
                </td>
                <td>
                  {kindWords[item.kind]}, <bdi>{itemName(item)}</bdi>
                </td>
                <td>
                  <bdi>{shelves.get(item.shelf)?.name}</bdi>
                  {item.keptAt === undefined ? null : (
                    <>
                      , <bdi>{item.keptAt}</bdi>
                    </>
                  )}
                </td>
                <td>{'onHand' in item ? (item.onHand ?? '') : ''}</td>
                <td>{namedText(item.code, usageOf(item, holders)) ?? 'nothing'}</td>
                <td>
                  <div className="bw-catalog-order">
                    <Button size="compact-sm" onClick={() => retire(item)} aria-label={`Retire ${item.code}`}>
                      Retire
                    </Button>
                    {kept === undefined || item.id === keep || item.kind !== kept.kind ? null : (
                      <Button
                        size="compact-sm"
                        aria-label={`Merge ${item.code} into ${kept.code}`}
                        onClick={() => merge(item)}
                      >
                        Merge into {kept.code}
                      </Button>
                    )}
                  </div>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="bw-form-foot">
        <Button size="compact-sm" onClick={onLeave}>
          {several ? 'Leave both' : 'Leave it'}
        </Button>
        <span className="bw-second">
          {several
            ? 'Merge: what names the other names the one that stays, its pieces are counted there, and it is retired.'
            : 'Open it and write its code anew: what names it follows.'}
        </span>
      </p>
    </section>
  );
}
