import type { ResolvedBag } from '../../plan/resolved.ts';
import type { Content } from '../contents.ts';
import { piecesCounted, sharesBags } from '../contents.ts';
import type { Loss } from '../model/losses.ts';
import type { StepGroup } from '../outingWork.ts';
import { atOneTime, drawsFrom } from '../outingWork.ts';
import type { ReducedWork } from '../presolve/reduceWork.ts';
import type { TableGroup } from '../search/coverTable.ts';
import type { Covering } from '../search/covering.ts';
import { servedBy } from '../search/standing.ts';
import { missedLosses } from '../search/toldLosses.ts';
import { slotOptions } from '../settle/slots.ts';

/** Groups that the bags of a kind do not serve at one time; after the loss of a piece, where one is named. */
export interface Unmet {
  tables: TableGroup[];
  of: (bag: ResolvedBag) => boolean;
  have: Int32Array;
  lost: string | null;
}

/** What an answer misses, looked at piece by piece. */
export interface Missed {
  groups: Unmet[];
  losses: Loss[];
  /** Roles of a slot that have bags of their own and do not go together. */
  slots: StepGroup[][];
}

const anyBag = (): boolean => true;

/** Everything that contents in whole pieces must serve and do not. */
export function unmetBy(reduced: ReducedWork, cover: Covering, contents: readonly Content[]): Missed {
  const { work } = reduced;
  const within = (of: (bag: ResolvedBag) => boolean): Int32Array =>
    piecesCounted(
      cover,
      contents.filter(({ bag }) => of(bag)),
    );
  const serves = (table: TableGroup, have: Int32Array): boolean =>
    servedBy(table, { have, used: new Int32Array(have.length), cost: cover.table.cost, most: have }) !== null;
  const unmet = (
    tables: readonly TableGroup[],
    ofGroup: (group: StepGroup) => (bag: ResolvedBag) => boolean,
  ): Unmet[] =>
    tables.flatMap((table) => {
      const of = ofGroup(table.group);
      const have = within(of);
      return serves(table, have) ? [] : [{ tables: [table], of, have, lost: null }];
    });
  const groups = unmet(
    cover.groupsWhole.filter(({ group }) => group.slot === null),
    ({ role }) =>
      (bag) =>
        drawsFrom(bag, role),
  );
  const slots = atOneTime(reduced.groups).filter(
    (together) => together[0]?.slot !== null && slotOptions(work.stock, contents, together) === null,
  );
  if (sharesBags(work)) {
    for (const together of slots.splice(0)) {
      const tables = cover.groupsWhole.filter(({ group }) => together.includes(group));
      groups.push({ tables, of: anyBag, have: within(anyBag), lost: null });
    }
  }
  if (work.tolerance === 'bag') {
    for (const lost of work.bags) groups.push(...unmet(cover.standingWhole, () => (bag) => bag !== lost));
  }
  const losses = work.tolerance === 'piece' ? missedLosses(cover, within(anyBag)) : [];
  for (const { group, piece } of losses) {
    const table = cover.standingWhole.find((one) => one.group === group);
    if (!table) continue;
    const have = within(anyBag);
    const index = cover.table.number.get(piece) ?? -1;
    have[index] = (have[index] ?? 0) - 1;
    groups.push({ tables: [table], of: anyBag, have, lost: piece });
  }
  return { groups, losses, slots };
}
