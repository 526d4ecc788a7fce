import { Button } from '@mantine/core';
import type { Deed } from '../../../shared-types/records/revision.ts';
import type { PackedBag } from '../../engine/packing/index.ts';
import type { Over, PackScreen, Said } from './packScreen.ts';
import { bagWords, lackWords, lastDeed } from './packWords.ts';

export interface PackFootProps extends PackScreen {
  bag: PackedBag;
  said: Said | null;
  act: (deeds: readonly Deed[], done: string) => void;
  tell: (text: string, refused?: boolean) => void;
  onOver: (over: Over) => void;
}

/** What was done last, and what can be done with the bag as a whole. */
export function PackFoot(props: PackFootProps) {
  const { desk, state, bag, frozen, said, act, tell, onOver, withDoer } = props;
  const { packing, heard, queued } = state;
  const last = lastDeed(packing);
  const isOut = packing.issued !== null;
  const open = bag.totals.open > 0 || bag.totals.missing > 0 || bag.totals.partial > 0;
  const undo = (): void =>
    withDoer(() => {
      // Its number is known once it is kept.
      void desk.settled().then(() => {
        const deed = lastDeed(desk.state().packing);
        if (deed !== null) act([{ kind: 'taken-back', of: deed.no }], `Taken back: ${deed.item}`);
      });
    });
  const close = (): void => {
    if (open) withDoer(() => onOver({ kind: 'close' }));
    else act([{ kind: 'bag-closed', bag: bag.id }], `Closed ${bagWords(frozen.thing(bag.id))}`);
  };
  return (
    <footer className="bw-pack-foot">
      <p role="status" className="bw-pack-said" data-refused={said?.refused || undefined}>
        {said === null ? '' : `${said.refused ? 'Not counted: ' : ''}${said.text}. `}
        {heard === null ? '' : `Last label: ${heard.text}. A label that is read again is not counted again. `}
        {queued > 0 ? `${queued} more wait.` : ''}
      </p>
      {packing.refused.length === 0 ? null : (
        <p className="bw-second">
          {packing.refused.length} events count for nothing; the last, event {packing.refused.at(-1)?.no}:{' '}
          {packing.refused.at(-1)?.reason}.
        </p>
      )}
      <div className="bw-pack-buttons">
        <Button
          className="bw-pack-big"
          aria-disabled={last === null}
          data-disabled={last === null}
          onClick={() => (last === null ? tell('Nothing is counted that could be taken back', true) : undo())}
        >
          {last === null ? 'Undo' : `Undo ${last.item}`}
        </Button>
        <Button className="bw-pack-big" onClick={() => withDoer(() => onOver({ kind: 'missing' }))}>
          Missing…
        </Button>
        {isOut ? null : bag.closed === null ? (
          <Button className="bw-pack-big" data-short={open || undefined} onClick={close}>
            <span>
              Close bag{open ? '…' : ''}
              {open ? (
                <span className="bw-pack-why">{lackWords(bag.totals)}: needs a reason and a second person</span>
              ) : null}
            </span>
          </Button>
        ) : (
          <Button className="bw-pack-big" onClick={() => withDoer(() => onOver({ kind: 'open' }))}>
            Open bag again…
          </Button>
        )}
      </div>
    </footer>
  );
}
