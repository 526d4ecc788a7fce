import { Button } from '@mantine/core';
import type { Deed } from '../../../shared-types/records/revision.ts';
import { amountText, sameAmount } from '../../engine/packing/index.ts';
import type { PackedBag, PackedLine } from '../../engine/packing/index.ts';
import type { Over } from './packScreen.ts';

export interface LineDeedsProps {
  line: PackedLine;
  bag: PackedBag;
  act: (deeds: readonly Deed[], done: string) => void;
  onOver: (over: Over) => void;
}

/** What a line asks for beside counting: to be counted again, or to be planned without. */
export function LineDeeds({ line, bag, act, onOver }: LineDeedsProps) {
  const { item } = line.line;
  const { second, counted, thing, toRecount, missing } = line;
  const differs = second !== null && !sameAmount(second.amount, counted);
  const recount = (): void =>
    act(
      line.entries.toReversed().map(({ no }): Deed => ({ kind: 'taken-back', of: no, reason: 'counted again' })),
      `${item} is open again: count it anew`,
    );
  return (
    <>
      {differs || toRecount ? (
        <p className="bw-pack-differs">
          {second === null ? '' : `${second.by.name} counted ${amountText(second.amount, thing.parts)}. `}
          {toRecount ? 'The packer counts it again, or names it missing.' : 'Another person counts it again.'}
        </p>
      ) : null}
      {toRecount && bag.closed === null && line.entries.length > 0 ? (
        <Button className="bw-pack-big" onClick={recount}>
          Count {item} again
        </Button>
      ) : null}
      {missing.parts > 0 ? (
        <Button className="bw-pack-big" onClick={() => onOver({ kind: 'plan-without' })}>
          Plan without it…
        </Button>
      ) : null}
    </>
  );
}
