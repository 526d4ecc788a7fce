import { Button } from '@mantine/core';
import classes from '../../components/BagMap/BagMap.module.css';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { findBlock, intoFree, pocketUnder } from './carrying.ts';
import type { Carrying } from './useCarrying.ts';

export interface MapToolsProps {
  plan: ResolvedPlan;
  layout: MapLayout;
  carrying: Carrying;
  /** Key of the block in hand. */
  inHand: string | null;
  /** Something was laid by hand. */
  byHand: boolean;
  onReset: () => void;
}

const stepMm = 10;

/** The same as dragging and as the keys, by pressing: pick up, move, turn, into another bag, set down. */
export function MapTools({ plan, layout, carrying, inHand, byHand, onReset }: MapToolsProps) {
  const found = inHand === null ? null : findBlock(layout, inHand);
  if (found === null || inHand === null)
    return (
      <div className={classes['tools']} role="group" aria-label="Lay out the bags">
        <span>No piece in hand: press one.</span>
      </div>
    );
  const { block } = found.laid;
  const { carried, nudge, turn, toggle, leave, drop, take, takenOf, together } = carrying;
  const taken = takenOf(block);
  const isUp = carried?.key === inHand;
  const at = isUp ? carried.bag : found.bag.bag.id;
  const into = (to: { bag: string; pocket?: string }): void => {
    const { xMm, yMm, turned } = isUp ? carried : found.laid;
    drop(intoFree(layout, { key: inHand, bag: at, xMm, yMm, turned, pieces: taken }, to));
  };
  const lies = isUp ? pocketUnder(layout, carried)?.name : found.laid.pocket;
  return (
    <div className={classes['tools']} role="group" aria-label="Lay out the bags">
      <b>{block.item}</b>
      {block.quantity === 1 ? null : (
        <span className={classes['count']}>
          <Button size="xs" aria-label={`One piece of ${block.item} less`} onClick={() => take(inHand, taken - 1)}>
            −
          </Button>
          <span>
            {taken} of {block.quantity} taken
          </span>
          <Button size="xs" aria-label={`One piece of ${block.item} more`} onClick={() => take(inHand, taken + 1)}>
            +
          </Button>
        </span>
      )}
      <Button size="xs" onClick={() => toggle(inHand)}>
        {isUp ? 'Set down' : 'Pick up'}
      </Button>
      {isUp ? (
        <Button size="xs" onClick={leave}>
          Put back
        </Button>
      ) : null}
      <Button size="xs" aria-label={`Move ${block.item} left 10 mm`} onClick={() => nudge(inHand, -stepMm, 0)}>
        ←
      </Button>
      <Button size="xs" aria-label={`Move ${block.item} up 10 mm`} onClick={() => nudge(inHand, 0, -stepMm)}>
        ↑
      </Button>
      <Button size="xs" aria-label={`Move ${block.item} down 10 mm`} onClick={() => nudge(inHand, 0, stepMm)}>
        ↓
      </Button>
      <Button size="xs" aria-label={`Move ${block.item} right 10 mm`} onClick={() => nudge(inHand, stepMm, 0)}>
        →
      </Button>
      <Button size="xs" onClick={() => turn(inHand)}>
        Turn
      </Button>
      {layout.bags.flatMap(({ bag, pockets }) =>
        pockets.length === 0
          ? bag.id === at
            ? []
            : [
                <Button key={bag.id} size="xs" onClick={() => into({ bag: bag.id })}>
                  Into {plan.bags.get(bag.id)?.name ?? bag.id}
                </Button>,
              ]
          : pockets
              .filter(({ name }) => bag.id !== at || name !== lies)
              .map(({ name }) => (
                <Button key={`${bag.id} ${name}`} size="xs" onClick={() => into({ bag: bag.id, pocket: name })}>
                  Into {name}
                  {layout.bags.length === 1 ? '' : ` of ${plan.bags.get(bag.id)?.name ?? bag.id}`}
                </Button>
              )),
      )}
      {block.part === null || isUp ? null : (
        <Button size="xs" onClick={() => together(inHand)}>
          Lay with the rest
        </Button>
      )}
      {byHand ? (
        <Button size="xs" onClick={onReset}>
          Lay all out by itself
        </Button>
      ) : null}
    </div>
  );
}
