import type { CalloutLook } from '../../../shared-types/inspection.ts';
import type { PreloadAt, PreloadLimit, PreloadPlotData } from '../../components/plot/preloadPlotLayout.ts';
import { cellNamed } from '../../engine/inspection/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { forceUnitsFor, otherTorqueUnit, torqueUnitOf, unitsShown } from '../bench/shown.ts';

/** The unit a callout's band was typed in. */
export function calloutUnit(cells: CalloutLook['cells']): Unit {
  return torqueUnitOf(cellNamed(cells, 'torqueMin') || cellNamed(cells, 'torque') || undefined);
}

/**
 * Preload against seating torque of one callout; null where it says nothing of preload, or nothing is left for seating.
 * Every form of tightening that a callout can name is a straight line through nothing.
 */
export function preloadData({ row, preload, cells }: CalloutLook, units: UnitsShown): PreloadPlotData | null {
  const { preloadN, seatingNm } = row?.computed ?? {};
  if (preload === null || preloadN === undefined || seatingNm === undefined || seatingNm.max <= 0) return null;
  const nominalPerNm = (2 * preloadN.nominal) / (seatingNm.min + seatingNm.max);
  const greatestPerNm = preloadN.max / seatingNm.max;
  // With nothing left at the least torque the scatter below is as wide as the one above.
  const leastPerNm = seatingNm.min > 0 ? preloadN.min / seatingNm.min : 2 * nominalPerNm - greatestPerNm;
  const at = (torqueNm: number): PreloadAt => ({
    torqueNm,
    leastN: Math.max(0, leastPerNm * torqueNm),
    nominalN: nominalPerNm * torqueNm,
    greatestN: greatestPerNm * torqueNm,
  });
  const torqueUnit = calloutUnit(cells);
  const [force, otherForce] = forceUnitsFor(torqueUnit, preloadN.max);
  return {
    curve: [
      at(0),
      ...(seatingNm.min > 0 && seatingNm.min < seatingNm.max ? [at(seatingNm.min)] : []),
      at(seatingNm.max),
    ],
    band: { minNm: seatingNm.min, maxNm: seatingNm.max },
    limits: limitsOf({ row, preload }),
    torqueUnits: unitsShown(torqueUnit, otherTorqueUnit(torqueUnit, seatingNm.max), units),
    forceUnits: unitsShown(force, otherForce, units),
  };
}

function limitsOf({ row, preload }: Pick<CalloutLook, 'row' | 'preload'>): PreloadLimit[] {
  const { strength, yieldShare, preloadN } = row?.computed ?? {};
  const area = preload?.stressAreaMm2 ?? null;
  const limits: PreloadLimit[] = [];
  const called = { source: 'callout', line: 'limit' } as const;
  if (preload?.preloadMinN != null)
    limits.push({ preloadN: preload.preloadMinN, name: 'least preload', short: 'below', ...called });
  if (preload?.preloadMaxN != null)
    limits.push({ preloadN: preload.preloadMaxN, name: 'greatest preload', short: 'above', ...called });
  if (strength?.proofMPa != null && area !== null)
    limits.push({
      ...{ preloadN: strength.proofMPa * area, name: 'proof load', source: strength.name },
      ...{ line: 'proof', short: 'above' },
    });
  if (yieldShare !== undefined && preloadN !== undefined && yieldShare.max > 0)
    limits.push({
      ...{ preloadN: preloadN.max / yieldShare.max, name: 'yield with torsion', source: strength?.name ?? '' },
      ...{ line: 'yield', short: 'above' },
    });
  return limits;
}
