import type { Citation } from '../../../shared-types/handbook.ts';
import type { HeadForm } from '../../../shared-types/plan.ts';
import { readThread } from '../thread/index.ts';
import { fitAtLimits } from './fit.ts';
import { headOfThread } from './heads.ts';
import { hexalobularDrive } from './hexalobular.ts';
import { nearOpenings, type NearOpening } from './near.ts';
import { openingByFormula, openingLimits } from './openings.ts';

export interface SocketAnswer {
  /** "16 mm", "7/16 in", "T30" */
  nominal: string;
  nominalMm: number | null;
  head: {
    acrossFlatsMaxMm: number | null;
    acrossFlatsMinMm: number | null;
    acrossCornersMinMm: number | null;
    /** Dimension A of a hexalobular drive; null for every other head. */
    referenceAMm: number | null;
  };
  /** The opening of the head's own nominal size, as printed. */
  opening: { minMm: number; maxMm: number; source: Citation } | null;
  /** The same by the appendix's formula; where both are given, the print governs. */
  openingByFormula: { minMm: number; maxMm: number } | null;
  freeAngleDeg: { min: number; max: number } | null;
  slips: boolean | null;
  near: NearOpening[];
  source: Citation;
}

/**
 * The socket of a thread's head: its nominal size, how it fits, and what is near.
 *
 * @param x.thread - a thread's designation; of a hexalobular drive its own size, "T30"
 * @param x.headForm - form of the head
 * @param x.standard - number of a document; without it the product's standard goes before ISO 272
 * @returns sizes and fit, each with its source; null wherever no published value is held
 * @throws RefusedError as readThread does; not-held where the form, the document or the size is not held
 * @source tables of heads and of wrench openings in data/SOURCES.md
 * @validity wrench openings in inches alone: the limits of metric openings (ISO 691) and of keys are not held. The free angle and
 *   slipping are those of a 6-point opening.
 * @example socketFor({ thread: 'M10', headForm: 'hex' }).nominal // '16 mm'
 */
export function socketFor(x: { thread: string; headForm: HeadForm; standard?: string }): SocketAnswer {
  const named = x.standard === undefined ? {} : { document: x.standard };
  if (x.headForm === 'hexalobular') return ofDrive(hexalobularDrive({ size: x.thread, ...named }));
  const head = headOfThread({ headForm: x.headForm, thread: readThread(x.thread), ...named });
  const isExternal = head.headForm !== 'hex-socket';
  const opening = isExternal ? openingLimits({ nominalMm: head.nominalMm }) : null;
  const fit =
    opening === null || head.limits === null
      ? null
      : fitAtLimits({
          head: {
            maxMm: head.limits.acrossFlatsMaxMm,
            minMm: head.limits.acrossFlatsMinMm,
            cornersMinMm: head.limits.acrossCornersMinMm,
          },
          opening,
          openingForm: 'hex6',
        });
  return {
    nominal: head.nominal,
    nominalMm: head.nominalMm,
    head: {
      acrossFlatsMaxMm: head.limits?.acrossFlatsMaxMm ?? null,
      acrossFlatsMinMm: head.limits?.acrossFlatsMinMm ?? null,
      acrossCornersMinMm: head.acrossCornersMinMm,
      referenceAMm: null,
    },
    opening: opening && { minMm: opening.minMm, maxMm: opening.maxMm, source: opening.citation },
    openingByFormula:
      isExternal && head.system === 'unified' ? openingByFormula({ widthIn: head.nominalMm / 25.4 }) : null,
    freeAngleDeg: fit?.freeAngleDeg ?? null,
    slips: fit?.slips ?? null,
    near: nearOpenings(head),
    source: head.citation,
  };
}

function ofDrive(drive: ReturnType<typeof hexalobularDrive>): SocketAnswer {
  return {
    nominal: drive.nominal,
    nominalMm: null,
    head: {
      acrossFlatsMaxMm: null,
      acrossFlatsMinMm: null,
      acrossCornersMinMm: null,
      referenceAMm: drive.referenceAMm,
    },
    opening: null,
    openingByFormula: null,
    freeAngleDeg: null,
    slips: null,
    near: [],
    source: drive.citation,
  };
}
