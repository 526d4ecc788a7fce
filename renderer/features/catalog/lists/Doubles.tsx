import { Button } from '@mantine/core';
import { useMemo, useState } from 'react';
import type { Item, Shelf } from '../../../../shared-types/records/item.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { Switch } from '../../../components/Switch/Switch.tsx';
import { leftNow, stillLeft } from '../../../engine/catalog/index.ts';
import type { DoubleReason, Doubles as Found } from '../../../engine/catalog/index.ts';
import { useAct } from '../../task/useAct.tsx';
import { bulkAct, leaveApartAct, mergeAct, namedText } from '../acts.ts';
import { usageOf } from '../usage.ts';
import type { CodeHolders } from '../usage.ts';
import { countOf, itemName, kindWords } from '../words.ts';
import { LeftGroups } from './LeftGroups.tsx';
import { LeaveApart } from './LeaveApart.tsx';
import { codesOf, leftOnShelf } from './leftGroups.ts';
import { useDoubles } from './useDoubles.ts';

export interface DoublesProps {
  items: readonly Item[];
  shelves: ReadonlyMap<string, Shelf>;
  holders: CodeHolders;
  /** The day that something is left on. */
  today: string;
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

/** Items that may be kept twice, each group with the ways on: retire one, merge it into another, or leave both, which is remembered. */
export function Doubles({ items, shelves, holders, today, onItem, onClose }: DoublesProps) {
  const found = useDoubles(items);
  const left = useMemo(() => leftOnShelf(found ?? [], shelves), [found, shelves]);
  const [chosen, setReason] = useState<DoubleReason | null>(null);
  const open = (found ?? []).filter((group) => !left.some((one) => one.group === group));
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
            Retired items are not compared. Undo takes every step back. What is left with its reason stays left, until
            one of the items is changed in its code, kind or sizes, or another comes to them.
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
              today={today}
              onShelf={found}
            />
          ))}
          <LeftGroups left={left} shelves={shelves} found={found} />
        </div>
      )}
    </Dialog>
  );
}

interface GroupProps extends Pick<DoublesProps, 'shelves' | 'holders' | 'today' | 'onItem'> {
  group: Found;
  /** Every group that was found: what is remembered of others stays remembered. */
  onShelf: readonly Found[];
}

function Group({ group, shelves, holders, today, onItem, onShelf }: GroupProps) {
  const shelf = shelves.get(group.items[0]?.shelf ?? '');
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
      <p className="bw-second">
        {several
          ? 'Merge: what names the other names the one that stays, its pieces are counted there, and it is retired.'
          : 'Open it and write its code anew: what names it follows.'}
      </p>
      {shelf === undefined ? null : (
        <LeaveApart
          codes={codesOf(group)}
          label={several ? 'Leave them apart…' : 'Leave it…'}
          onLeave={(said) =>
            void run(
              leaveApartAct(
                shelf,
                stillLeft(onShelf, shelf.leftApart ?? []),
                leftNow(group, { ...said, on: today }),
                codesOf(group),
              ),
            )
          }
        />
      )}
    </section>
  );
}
