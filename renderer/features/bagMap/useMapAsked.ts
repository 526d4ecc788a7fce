import { findBlock } from './carrying.ts';
import { useAsked } from '../task/useAsked.ts';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';
import { mapAsking } from './mapCommands.ts';
import type { MapWish } from './mapCommands.ts';
import type { Carrying } from './useCarrying.ts';

export interface MapAsked {
  layout: MapLayout;
  carrying: Carrying;
  /** Key of the block in hand. */
  inHand: string | null;
  reset: () => void;
  ready: boolean;
}

const stepMm = 10;

/** Does on the map what the palette asks for: the same as its keys and buttons. */
export function useMapAsked({ layout, carrying, inHand, reset, ready }: MapAsked): void {
  const { carried, say, toggle, leave, nudge, turn, overNext, take, takenOf, together } = carrying;
  useAsked(
    mapAsking,
    (wish) => {
      const block = inHand === null ? undefined : findBlock(layout, inHand)?.laid.block;
      if (wish === 'by-itself') reset();
      else if (block === undefined) say({ text: 'No piece in hand: press one.', refused: false });
      else if (wish === 'put-back' && carried === null) say({ text: 'Nothing is picked up.', refused: false });
      else if (wish === 'together' && block.part === null)
        say({ text: `${block.item} lies with the rest of its line already.`, refused: false });
      else {
        const { key } = block;
        const deeds: Record<Exclude<MapWish, 'by-itself'>, () => void> = {
          'pick-up': () => toggle(key),
          'put-back': leave,
          left: () => nudge(key, -stepMm, 0),
          right: () => nudge(key, stepMm, 0),
          up: () => nudge(key, 0, -stepMm),
          down: () => nudge(key, 0, stepMm),
          turn: () => turn(key),
          'next-bag': () => overNext(key),
          fewer: () => take(key, takenOf(block) - 1),
          more: () => take(key, takenOf(block) + 1),
          together: () => together(key),
        };
        deeds[wish]();
      }
    },
    ready,
  );
}
