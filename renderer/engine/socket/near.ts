import { headTables } from '../handbook/heads.ts';
import { practiceTables } from '../handbook/practice.ts';
import { atMost } from '../tolerance.ts';
import { sameNominalMm } from './sameNominal.ts';
import { fitAtLimits } from './fit.ts';
import { mmOfFraction, type HeldHead } from './heldHead.ts';
import { heldOpenings } from './openings.ts';

/** How far from the head's nominal width an inch opening still counts as near [mm]: the headless contract's. */
const nearMm = 1;

const pairs = practiceTables['near-sizes'].rows;

export interface NearOpening {
  /** "5/8 in", "11 mm" */
  nominal: string;
  nominalMm: number;
  /** Nominal opening less nominal head [mm]. */
  differenceMm: number;
  /** Whether it goes on every good head; null where no published value decides. */
  goesOn: boolean | null;
  /** What decided: the limits of both; or the list of near sizes, which takes the nominal head for the greatest. */
  decidedBy: 'limits' | 'nominal head' | null;
  /** Greatest opening less least head [mm]. */
  clearanceMaxMm: number | null;
  /** Of the loosest pair [deg]; null where even that one does not go on. */
  freeAngleMaxDeg: number | null;
  slips: boolean | null;
  /** Whether the two are used for one another in practice; null where opinions differ or the pair is not listed. */
  interchangeableInPractice: boolean | null;
}

/**
 * Openings near a head in size, with the verdict at the limits.
 *
 *   goes on: S_min ≥ s_max; clearance S_max − s_min; free angle at S_max on s_min
 *
 * @param head - a head as a table holds it
 * @returns every inch opening held whose nominal size is within 1 mm of the head's, and the other size of each listed pair, smallest
 *   first. For a hexagon socket these are keys, of which no limits are held: no verdict.
 * @source limits: the head's own document and ASME B18.2.2, appendix; pairs: list of near sizes, common practice; keys in
 *   data/SOURCES.md
 * @validity where a head's limits are not held, the list's own verdict on its pairs stands; all else is null
 * @example for the hex head of M10, 16 mm: "5/8 in" goesOn false, clearanceMaxMm 0.4244
 */
export function nearOpenings(head: HeldHead): NearOpening[] {
  const near = new Map<string, NearOpening>();
  for (const opening of inchSizes(head.headForm)) {
    if (!atMost(Math.abs(opening.nominalMm - head.nominalMm), nearMm)) continue;
    const entry = judge(head, opening);
    near.set(entry.nominal, entry);
  }
  for (const pair of pairs) {
    const isMetric = head.system === 'metric';
    if (!sameNominalMm(head.nominalMm, isMetric ? pair.metric_mm : pair.inch_mm)) continue;
    const other = isMetric
      ? { nominal: `${pair.inch} in`, nominalMm: pair.inch_mm }
      : { nominal: `${pair.metric_mm} mm`, nominalMm: pair.metric_mm };
    const entry = near.get(other.nominal) ?? judge(head, other);
    entry.interchangeableInPractice = pair.interchangeable_in_common_practice;
    // The list judges inch openings on metric hexagons from outside, and nothing else.
    if (isMetric && head.limits === null && head.headForm !== 'hex-socket') {
      entry.goesOn = pair.inch_socket_goes_on_largest_metric_head;
      entry.decidedBy = 'nominal head';
    }
    near.set(entry.nominal, entry);
  }
  return [...near.values()].toSorted((a, b) => a.nominalMm - b.nominalMm);
}

interface Size {
  nominal: string;
  nominalMm: number;
  limits?: { minMm: number; maxMm: number };
}

function judge(head: HeldHead, opening: Size): NearOpening {
  const entry: NearOpening = {
    nominal: opening.nominal,
    nominalMm: opening.nominalMm,
    differenceMm: opening.nominalMm - head.nominalMm,
    goesOn: null,
    decidedBy: null,
    clearanceMaxMm: null,
    freeAngleMaxDeg: null,
    slips: null,
    interchangeableInPractice: null,
  };
  if (head.limits === null || opening.limits === undefined) return entry;
  const fit = fitAtLimits({
    head: {
      maxMm: head.limits.acrossFlatsMaxMm,
      minMm: head.limits.acrossFlatsMinMm,
      cornersMinMm: head.limits.acrossCornersMinMm,
    },
    opening: opening.limits,
    openingForm: 'hex6',
  });
  return {
    ...entry,
    goesOn: fit.goesOn,
    decidedBy: 'limits',
    clearanceMaxMm: fit.clearanceMaxMm,
    freeAngleMaxDeg: fit.freeAngleDeg?.max ?? null,
    slips: fit.slips,
  };
}

/** Inch openings with their limits; for a hexagon socket the keys of the inch series, of which only the sizes are held. */
function inchSizes(headForm: HeldHead['headForm']): Size[] {
  if (headForm === 'hex-socket') {
    return [...new Set(headTables['socket-head-asme-b18.3'].rows.map((row) => row.hex_key))].map((key) => ({
      nominal: `${key} in`,
      nominalMm: mmOfFraction(key),
    }));
  }
  return heldOpenings.map((opening) => ({
    nominal: `${opening.nominal} in`,
    nominalMm: opening.nominalMm,
    limits: { minMm: opening.minMm, maxMm: opening.maxMm },
  }));
}
