import type { WearSeries } from '../../../shared-types/asRun.ts';
import { torqueText } from '../callout/words.ts';
import { atLeast } from '../tolerance.ts';
import { groupsOf } from './groups.ts';
import type { CalloutLocking } from './lockingOf.ts';
import { confidence, cyclesLeast, nextBreakaway } from './nextBreakaway.ts';
import { passingCycle } from './passingCycle.ts';
import type { AsRunRecord, Found } from './record.ts';

const source =
  'Straight line through the breakaway torques by ordinary least squares, its prediction interval after Student (textbook, from memory); at least 3 cycles (rule of this program).';

/** How the series are worked out, for whoever reads them. */
export const wearMethod =
  'Next: straight line by ordinary least squares, 95 % prediction interval after Student. Passing: straight line and parabola through ln(torque) and parabola through the torque, drawn out over as many cycles as lie behind; the first cycle at which any of their bands (80 %, and no narrower than 3 % of scatter makes it) reaches under the minimum, and the last by which both fits of ln(torque) lie under it (95 %, and 5 % more). On simulated wear of eight kinds the interval holds in at least 95 % of what it states; it assumes that no fastener is changed between cycles.';

/**
 * `locking-wears-out`: the straight line through a position's breakaway torques is under the minimum at the next cycle. Found on the
 * position's last reading.
 *
 * @param lockingFor - the limits of a record's callout
 * @returns every position with breakaway torques over at least 3 cycles, with what is to be expected of it
 */
export function wearFindings(
  records: readonly AsRunRecord[],
  lockingFor: (record: AsRunRecord) => CalloutLocking,
  found: Found,
): WearSeries[] {
  const read = records.filter(({ breakawayNm }) => breakawayNm !== null);
  return groupsOf(read, ({ callout, position }) => [callout.id, position]).flatMap((group) => {
    if (new Set(group.map(({ cycle }) => cycle)).size < cyclesLeast) return [];
    const ordered = group.toSorted((a, b) => a.cycle - b.cycle);
    const last = ordered.at(-1);
    if (last === undefined) return [];
    const readings = ordered.map(({ cycle, breakawayNm, runningNm }) => ({
      cycle,
      breakawayNm: breakawayNm ?? 0,
      runningNm,
    }));
    const { breakawayMinAt } = lockingFor(last);
    const next = nextBreakaway(readings);
    const minimum = breakawayMinAt(last.cycle + 1).asked;
    if (next !== null && minimum !== null && !atLeast(next.torqueNm, minimum.nm)) {
      const { unit } = last.callout;
      const { min, max } = next.intervalNm;
      found(last, {
        rule: 'locking-wears-out',
        severity: 'query',
        message: `A straight line through the breakaway torques of ${next.cycles} cycles is at ${torqueText(next.torqueNm, unit)} at cycle ${next.cycle} (${confidence * 100} % interval ${torqueText(min, unit)} to ${torqueText(max, unit)}), under the minimum of ${torqueText(minimum.nm, unit)} by ${minimum.by}.${next.straight ? '' : ' The readings bend: the line is a poor guide.'}`,
        value: next.torqueNm,
        limit: minimum.nm,
        unit: 'N·m',
        source,
      });
    }
    return [
      {
        callout: last.callout.id,
        position: last.position,
        readings,
        minimumNm: minimum?.nm ?? null,
        next,
        passing: passingCycle(readings, (cycle) => breakawayMinAt(cycle).asked?.nm ?? null),
      },
    ];
  });
}
