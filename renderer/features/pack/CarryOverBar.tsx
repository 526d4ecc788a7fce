import { useMemo } from 'react';
import { Button } from '@mantine/core';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { carryOver } from '../../engine/packing/index.ts';
import type { PackState } from '../../engine/packing/index.ts';
import { countOf } from '../steps/words.ts';
import type { PackScreen } from './packScreen.ts';

export interface CarryOverBarProps extends PackScreen {
  before: { revision: Revision; state: PackState };
  tell: (text: string, refused?: boolean) => void;
}

/** Offers to take over what lies in the bags already, counted under the revision before. */
export function CarryOverBar({ desk, revision, before, withDoer, tell }: CarryOverBarProps) {
  const { deed, takeOut } = useMemo(
    () => carryOver(before.state, before.revision.id, revision),
    [before.state, before.revision.id, revision],
  );
  const { number } = before.revision;
  const pieces = deed.counts.reduce((sum, one) => sum + one.pieces, 0);
  return (
    <div className="bw-pack-carry">
      <p>
        <b>
          {countOf(before.state.totals.packed, 'piece')} lie in the bags, counted under revision {number}.
        </b>{' '}
        {pieces === 0
          ? 'None of them is in this revision.'
          : `${countOf(pieces, 'piece')} of this revision can be carried over; bags are closed and counted again anew.`}
        {takeOut.length === 0
          ? ''
          : ` Take out: ${takeOut.map((one) => `${one.pieces} × ${one.item} of ${one.bag}`).join(', ')}.`}
      </p>
      {pieces === 0 ? null : (
        <Button
          className="bw-pack-big"
          onClick={() =>
            withDoer(() => {
              const refusal = desk.act([deed]);
              tell(refusal ?? `Carried over ${countOf(pieces, 'piece')} from revision ${number}`, refusal !== null);
            })
          }
        >
          Carry over {countOf(pieces, 'piece')}
        </Button>
      )}
    </div>
  );
}
