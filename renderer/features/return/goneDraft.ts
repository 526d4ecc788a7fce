import { placeName } from '../../engine/return/index.ts';
import type { Amount, DiscrepancyDraft, OutingThatLeft, ReturnLine } from '../../engine/return/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';

/** The discrepancy of something that lay at a place on purpose, and was not there when it was looked for. */
export function goneDraft(
  line: ReturnLine,
  gone: Amount & { place: string },
  x: { plan: ResolvedPlan; went: OutingThatLeft },
): DiscrepancyDraft {
  const { place, pieces, parts } = gone;
  const lay = line.at.find((one) => one.how === 'left' && one.place === place);
  const no = lay?.events.at(-1);
  const left = x.went.events.find((event) => event.no === no);
  return {
    ...{ bag: line.bag, item: line.item, name: line.thing.name, pieces, parts },
    lastSeen: {
      place: placeName(place, x.plan),
      ...(left === undefined ? {} : { at: left.at, event: left.no }),
    },
    seenBy: left?.by ?? line.lastSeen.by,
  };
}
