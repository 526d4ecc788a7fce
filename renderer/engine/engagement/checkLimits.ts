import type { RefusalCode } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';
import type { LimitsOfSize, Thread } from '../thread/index.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { shearAreaExternalMm2, shearAreaInternalMm2 } from './shearAreas.ts';

type Name = keyof LimitsOfSize;

const basicNames: Record<Name, string> = {
  majorExternalMinMm: 'basic major diameter',
  pitchExternalMinMm: 'basic pitch diameter',
  minorInternalMaxMm: 'basic minor diameter',
  pitchInternalMaxMm: 'basic pitch diameter',
};

/**
 * Refuses limits that no pair of parts of this thread can have: an external thread above its basic size, an internal one below it,
 * diameters in the wrong order, flanks that do not overlap.
 *
 *   dmin ≤ d, d2min ≤ d2, D1max ≥ D1, D2max ≥ d2; d2min < dmin, D1max < D2max, D1max < dmin; both shear areas > 0
 *
 * @param x.thread - the thread with its basic sizes
 * @param x.limits - the four limits [mm], each > 0
 * @throws RefusedError contradiction, naming the limit as `limits.…`
 * @source ISO 68-1 and ASME B1.1: limits lie on the material's side of the basic profile; FED-STD-H28/2B for the areas
 * @validity clearance and transition fits; no interference fits
 */
export function checkLimits(x: { thread: Thread; limits: LimitsOfSize }): void {
  const { thread, limits } = x;
  const basic: Record<Name, number> = {
    majorExternalMinMm: thread.majorMm,
    pitchExternalMinMm: thread.pitchDiameterMm,
    minorInternalMaxMm: thread.minorDiameterMm,
    pitchInternalMaxMm: thread.pitchDiameterMm,
  };
  for (const name of Object.keys(basicNames) as Name[]) {
    const isExternal = name.includes('External');
    if (isExternal ? atMost(limits[name], basic[name]) : atLeast(limits[name], basic[name])) continue;
    throw refuse(
      name,
      limits,
      `${isExternal ? 'is above' : 'is below'} the ${basicNames[name]} ${short(basic[name])} mm of ${thread.designation}`,
    );
  }
  const orders: [Name, Name][] = [
    ['pitchExternalMinMm', 'majorExternalMinMm'],
    ['minorInternalMaxMm', 'pitchInternalMaxMm'],
    ['minorInternalMaxMm', 'majorExternalMinMm'],
  ];
  for (const [lower, upper] of orders) {
    if (limits[lower] < limits[upper]) continue;
    throw refuse(lower, limits, `is not below ${upper} ${short(limits[upper])} mm`);
  }
  const sheared = { pitchMm: thread.pitchMm, engagementMm: thread.pitchMm, limits };
  if (atMost(shearAreaExternalMm2(sheared), 0)) {
    throw refuse(
      'pitchExternalMinMm',
      limits,
      'leaves no external thread at the internal minor diameter to be sheared',
    );
  }
  if (atMost(shearAreaInternalMm2(sheared), 0)) {
    throw refuse(
      'pitchInternalMaxMm',
      limits,
      'leaves no internal thread at the external major diameter to be sheared',
    );
  }
}

function refuse(name: Name, limits: LimitsOfSize, why: string, code: RefusalCode = 'contradiction'): RefusedError {
  const field = `limits.${name}`;
  return new RefusedError({ code, message: `${field}: ${short(limits[name])} mm ${why}`, field, value: limits[name] });
}

function short(mm: number): number {
  return Number(mm.toPrecision(7));
}
