/**
 * How often the forecast of wear holds on simulated series: `npx tsx tests/bench/wear.ts [SERIES of each law] [SEED]`.
 * The intervals say 95 %.
 */
import { coverageOf, decayLaws, type DecayLaw } from '../validation/wearSeries.ts';

const [series = 250, seed = 1] = process.argv.slice(2).map(Number);
const percent = (part: number, whole: number): string =>
  whole === 0 ? '–' : `${Math.round((1000 * part) / whole) / 10} %`;

const rows = (Object.keys(decayLaws) as DecayLaw[]).map((law, index) => {
  const found = coverageOf(law, series, seed + index);
  const stated = found.between + found.notBefore;
  return {
    law,
    series: found.series,
    'both ends': found.between,
    hold: percent(found.betweenHold, found.between),
    'hold the first reading under': percent(found.betweenHoldReading, found.between),
    'mean span': Math.round(found.meanSpan * 10) / 10,
    'not before': found.notBefore,
    'these hold': percent(found.notBeforeHold, found.notBefore),
    'all stated hold': percent(found.betweenHold + found.notBeforeHold, stated),
    'cannot know': found.cannotKnow,
    'next reading, line called straight': `${percent(found.nextHold, found.nextStated)} of ${found.nextStated}`,
  };
});
for (const row of rows)
  process.stdout.write(
    `${Object.entries(row)
      .map(([name, value]) => `${name}: ${value}`)
      .join('; ')}\n`,
  );
