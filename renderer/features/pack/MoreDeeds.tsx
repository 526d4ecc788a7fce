import { Button } from '@mantine/core';
import type { PackedBag } from '../../engine/packing/index.ts';
import { goTo } from '../session/usePlace.ts';
import type { Over, PackScreen } from './packScreen.ts';

export interface MoreDeedsProps extends PackScreen {
  bag: PackedBag;
  onOver: (over: Over) => void;
}

/** What comes after packing, and a remark at any time. */
export function MoreDeeds({ state, outing, bag, withDoer, onOver }: MoreDeedsProps) {
  const isOut = state.packing.issued !== null;
  return (
    <div className="bw-pack-more">
      {isOut ? null : (
        <Button className="bw-pack-big" onClick={() => goTo({ at: 'pack', outing, bag: bag.id, doing: 'again' })}>
          Count {bag.id} again…
        </Button>
      )}
      <Button className="bw-pack-big" onClick={() => goTo({ at: 'pack', outing, bag: bag.id, doing: 'issue' })}>
        {isOut ? 'See the issue' : 'Check and issue…'}
      </Button>
      <Button className="bw-pack-big" onClick={() => withDoer(() => onOver({ kind: 'remark' }))}>
        Remark…
      </Button>
    </div>
  );
}
