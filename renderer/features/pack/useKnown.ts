import { useMemo } from 'react';
import type { Discrepancy, OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import { countFault, knownBefore, knownWords } from '../../engine/return/index.ts';
import { useTable } from '../session/useStore.ts';
import type { Elsewhere } from './packingDesk.ts';

export interface Known {
  /** What earlier outings say of each thing of this one, by its code. */
  words: ReadonlyMap<string, readonly string[]>;
  /** What they say of other things. */
  rest: readonly string[];
  /** Why so much of a thing cannot be here; null where it can. */
  elsewhere: Elsewhere;
}

export interface KnownAt {
  task: string;
  revision: Revision;
  revisions: readonly Revision[];
  events: readonly OutingEvent[];
  outing: string;
  frozen: Frozen;
}

/** What is known of earlier outings of the task while this one is packed. */
export function useKnown({ task, revision, revisions, events, outing, frozen }: KnownAt): Known {
  const { rows } = useTable('discrepancies');
  // What is counted here tells nothing of what came before: a count draws none of this anew.
  const others = events.filter((event) => event.revision !== revision.id || event.outing !== outing);
  const key = others.map(({ id }) => id).join(' ');
  return useMemo(() => {
    const discrepancies: Discrepancy[] = [...rows.values()].filter((one) => one.task === task);
    const { plan } = frozen;
    const known = knownBefore({ plan, outing, revision: revision.id, revisions, events: others, discrepancies });
    const words = new Map(
      frozen.linesOf(outing).map(({ item }): [string, string[]] => {
        const own = <T extends { item: string }>(list: readonly T[]): T[] => list.filter((one) => one.item === item);
        const of = {
          lies: own(known.lies),
          out: own(known.out),
          missing: own(known.missing),
          notThere: own(known.notThere),
        };
        return [item, knownWords({ ...known, ...of }, plan)];
      }),
    );
    const said = new Set([...words.values()].flat());
    const elsewhere: Elsewhere = (x) => {
      const thing = plan.carried.get(x.item);
      return thing === undefined ? null : countFault(known, { ...x, onHand: thing.onHand }, plan);
    };
    return { words, rest: knownWords(known, plan).filter((one) => !said.has(one)), elsewhere };
    // `others` is what `key` says.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [key, rows, task, revision, revisions, outing, frozen]);
}
