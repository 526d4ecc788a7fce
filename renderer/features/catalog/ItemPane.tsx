import { memo, useMemo } from 'react';
import type { Ref } from 'react';
import { Button } from '@mantine/core';
import type { Item } from '../../../shared-types/records/item.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { UnitsShown } from '../../engine/units/index.ts';
import { askForLabels } from '../labels/labelAsking.ts';
import { CalibrationMark } from './CalibrationMark.tsx';
import { calibrationState } from './calibrationState.ts';
import { ItemDrawing } from './drawing/ItemDrawing.tsx';
import { fitsOf } from './fits.ts';
import { ItemFacts } from './ItemFacts.tsx';
import { usageOf } from './usage.ts';
import type { CodeHolders } from './usage.ts';
import { ItemHistory } from './page/ItemHistory.tsx';
import { ItemWatchOuts } from './page/ItemWatchOuts.tsx';
import { NearSizes } from './page/NearSizes.tsx';
import { WhereNow } from './page/WhereNow.tsx';
import { Fits, UsedBy } from './UsedBy.tsx';
import { itemName } from './words.ts';

export interface ItemPaneProps {
  item: Item;
  holders: CodeHolders;
  units: UnitsShown;
  today: string;
  headingRef: Ref<HTMLHeadingElement>;
  onEdit: () => void;
  onCopy: () => void;
  onRetire: (retired: boolean) => void;
  onRemove: () => void;
  onItem: (item: Item) => void;
}

/** One entry of the catalog: drawn where it can be, then said. Drawn again only for another entry, or where something of it changed. */
export const ItemPane = memo(function ItemPane(props: ItemPaneProps) {
  const { item, holders, units, today, headingRef, onEdit, onCopy, onRetire, onRemove, onItem } = props;
  const usage = useMemo(() => usageOf(item, holders), [item, holders]);
  const fits = useMemo(() => fitsOf(item, holders.items), [item, holders.items]);
  const calibration = calibrationState(item, today);
  return (
    <article className="bw-item" aria-labelledby="item-heading">
      <header className="bw-item-head">
        <h1 id="item-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          {item.code}
        </h1>
        <span className="bw-second">{itemName(item)}</span>
        {item.retired ? <StateMark state="retired" /> : null}
        {calibration === 'none' ? null : <CalibrationMark item={item} today={today} />}
        <span className="bw-item-deeds">
          <Button onClick={onEdit} title="F2">
            Edit
          </Button>
          <Button onClick={onCopy}>Copy</Button>
          {item.retired ? null : <Button onClick={() => askForLabels([item.id])}>Label…</Button>}
          {item.retired ? (
            <Button onClick={() => onRetire(false)}>Bring back</Button>
          ) : (
            <Button onClick={() => onRetire(true)}>Retire…</Button>
          )}
          <Button onClick={onRemove}>Remove…</Button>
        </span>
      </header>
      {calibration === 'overdue' ? (
        <p className="bw-item-caution">
          <b>Calibration overdue.</b> What it shows is not to be relied on: set no torque with it before it is
          calibrated again.
        </p>
      ) : null}
      <ItemWatchOuts item={item} usage={usage} />
      <ItemDrawing item={item} units={units} />
      {item.notes === undefined ? null : <p className="bw-item-notes">{item.notes}</p>}
      <ItemFacts item={item} units={units} />
      <div className="bw-item-facts">
        <Fits lists={fits} onItem={onItem} />
        <UsedBy usage={usage} />
        <WhereNow item={item} usage={usage} holders={holders} />
      </div>
      <NearSizes item={item} items={holders.items} />
      <ItemHistory key={item.id} item={item} />
    </article>
  );
});
