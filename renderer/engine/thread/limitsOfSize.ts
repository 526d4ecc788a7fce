import { RefusedError } from '../errors.ts';
import { tolerancesIn, type ExternalClass, type InternalClass } from './limitTolerances.ts';
import { minorDiameterMm, pitchDiameterMm } from './profile.ts';
import type { Thread } from './thread.ts';

/** The four limits of size that decide how much thread is sheared in the worst pair of parts. */
export interface LimitsOfSize {
  majorExternalMinMm: number;
  pitchExternalMinMm: number;
  minorInternalMaxMm: number;
  pitchInternalMaxMm: number;
}

/**
 * Limits of size of a unified thread: the smallest external and the largest internal thread that conform.
 *
 *   external: major min = D − es − Td, pitch min = d2 − es − Td2
 *   internal: minor max = D1 + TD1, pitch max = d2 + TD2
 *
 * @param x.thread - a unified thread, UN or UNR profile, D 0.06 to 6 in
 * @param x.externalClass - 2A or 3A
 * @param x.internalClass - 2B or 3B
 * @returns the four limits [mm], not rounded; the standard's tables print four decimals of an inch
 * @throws RefusedError not-held for metric threads and for UNJ, whose limits no text held gives
 * @source ASME B1.1, formulas of limits of size (from memory; printed limits of 1/2-13 and 3/8-16, which are summed up from rounded
 *   tolerances, are reproduced within 0.0001 in, published shear areas within 1.5 %)
 * @validity uncoated threads, 60° UN profile; Le = D for UNC and UNF, 9 P for every other pitch
 * @example limitsOfSize({ thread: readThread('1/2-13'), externalClass: '2A', internalClass: '2B' }).pitchExternalMinMm // 11.2670
 */
export function limitsOfSize(x: {
  thread: Thread;
  externalClass: ExternalClass;
  internalClass: InternalClass;
}): LimitsOfSize {
  const { thread } = x;
  const n = thread.threadsPerInch;
  if (n === null) throw notHeld(thread, 'metric threads');
  if (thread.rootDiameterMm === null) throw notHeld(thread, 'UNJ threads');
  const D = thread.majorMm / 25.4;
  const isTabled = thread.series === 'UNC' || thread.series === 'UNF';
  const T = tolerancesIn({ majorIn: D, threadsPerInch: n, engagementIn: isTabled ? D : 9 / n, ...x });
  const d2 = pitchDiameterMm({ majorMm: D, pitchMm: 1 / n });
  const D1 = minorDiameterMm({ majorMm: D, pitchMm: 1 / n });
  return {
    majorExternalMinMm: 25.4 * (D - T.allowance - T.majorExternal),
    pitchExternalMinMm: 25.4 * (d2 - T.allowance - T.pitchExternal),
    minorInternalMaxMm: 25.4 * (D1 + T.minorInternal),
    pitchInternalMaxMm: 25.4 * (d2 + T.pitchInternal),
  };
}

function notHeld(thread: Thread, kind: string): RefusedError {
  return new RefusedError({
    code: 'not-held',
    message:
      `No published value held: limits of size are held for UN and UNR threads of classes 2A, 3A, 2B and 3B (ASME B1.1), ` +
      `none for ${kind}, as ${thread.designation}. Give all four limits.`,
    value: thread.designation,
  });
}
