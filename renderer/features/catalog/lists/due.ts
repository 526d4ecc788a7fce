import type { Item, ItemOf } from '../../../../shared-types/records/item.ts';
import type { KeptResult } from '../../../../shared-types/records/window.ts';
import type { CodeHolders } from '../usage.ts';

type TorqueTool = ItemOf<'torque-tool'>;

/** Torque tools that are no longer in date after a day: on the day it is due a tool may still be used, the day before it is not asked. */
export function dueBefore(items: readonly Item[], day: string): TorqueTool[] {
  return items
    .filter((item): item is TorqueTool => item.kind === 'torque-tool' && !item.retired)
    .filter(({ calibrationDue }) => calibrationDue !== undefined && calibrationDue <= day)
    .toSorted((a, b) =>
      a.calibrationDue === b.calibrationDue
        ? a.code < b.code
          ? -1
          : 1
        : (a.calibrationDue ?? '') < (b.calibrationDue ?? '')
          ? -1
          : 1,
    );
}

/** What an outing takes along: the tools of its planned bag; where none is planned, all that its task may draw on. */
export function toolsOfOuting(
  id: string,
  { holders, results }: { holders: CodeHolders; results: ReadonlyMap<string, KeptResult> },
): { tools: Item[]; said: string } {
  const outing = holders.outings.get(id);
  const task = outing === undefined ? undefined : holders.tasks.get(outing.task);
  if (outing === undefined || task === undefined) return { tools: [], said: 'This outing is gone.' };
  const drawn = [...holders.items.values()].filter(({ shelf }) => task.shelves.includes(shelf));
  const planned = results.get(task.id)?.result.outings.find((one) => one.id === outing.code);
  if (planned === undefined)
    return { tools: drawn, said: 'No bag is planned for this outing: every tool its task may draw on is looked at.' };
  const packed = new Set(planned.items.map((item) => item.id));
  return {
    tools: drawn.filter(({ code }) => packed.has(code)),
    said: 'The tools of its last planned bag are looked at.',
  };
}
