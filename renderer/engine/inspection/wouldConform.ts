import type { CalloutRow } from '../../../shared-types/callout.ts';
import type { Mend, TypedRow } from '../../../shared-types/inspection.ts';
import type { Finding } from '../../../shared-types/judged.ts';
import type { Callout } from '../callout/index.ts';
import { columnNamed } from './cellNamed.ts';
import { bandIn, limitIn, showNumber } from '../units/index.ts';
import { inUnit } from '../callout/words.ts';

interface Asked {
  callout: Callout;
  judged: CalloutRow;
  cells: TypedRow['cells'];
  columns: readonly string[];
  readAgain: (cells: TypedRow['cells']) => CalloutRow | null;
}

const aboutPreload = new Set([
  'preload-over-proof',
  'preload-over-yield',
  'preload-below-minimum',
  'preload-above-maximum',
]);

/**
 * What would conform, rule by rule. A band of torque is proposed only where the callout, written with it, was read and judged again and
 * the rules it is to satisfy do not fire any more.
 *
 * @returns nothing for rules of which nothing better is known than what the finding says
 */
export function wouldConform(x: Asked): Mend[] {
  const { findings } = x.judged;
  const preload = findings.filter(({ rule, severity }) => severity === 'reject' && aboutPreload.has(rule));
  const mends = findings.flatMap((finding) => {
    const text = plainMend(finding, x);
    return text === null ? [] : [{ rules: [finding.rule], text }];
  });
  return preload.length === 0 ? mends : [preloadMend(preload, x), ...mends];
}

function plainMend(finding: Finding, { callout, judged }: Asked): string | null {
  const { computed } = judged;
  const { limit, severity } = finding;
  const torque = (nm: number, end: 'minimum' | 'maximum'): string =>
    `${limitText(nm, end, callout.unit)} ${callout.unit}`;
  if (severity === 'note') return null;
  switch (finding.rule) {
    case 'dual-unit': {
      if (computed.alternative === undefined || callout.alternative === null) return null;
      const { unit } = callout.alternative.max;
      const { min, max } = bandIn({ min: callout.band.minNm, max: callout.band.maxNm, unit: 'N·m' }, unit);
      return `The band in the second unit written ${min}–${max} ${unit}: rounded inward, so that keeping to it keeps to the callout.`;
    }
    case 'running-not-accounted':
      return computed.ifRunningAdded === undefined
        ? 'The callout says whether the running torque is in its band and, where it is not, how much it is.'
        : `The callout says which it means: with the running torque in the band ${spanText(computed.seatingNm, callout)} is left for seating; added to it, it asks for ${spanText(computed.ifRunningAdded.aimNm, callout)} on the wrench.`;
    case 'running-over-limit':
      return limit === undefined ? null : `A running torque of at most ${torque(limit, 'maximum')}.`;
    case 'breakaway-under-limit':
      return limit === undefined ? null : `A breakaway torque of at least ${torque(limit, 'minimum')}.`;
    case 'wrong-wrench':
      return computed.head === undefined
        ? null
        : `A wrench of ${computed.head.nominal}, the nominal size (${computed.head.document}).`;
    case 'thread-strips-first': {
      const needed = computed.engagement?.requiredEngagementMm;
      return needed == null
        ? null
        : `An engagement of at least ${limitIn(`${needed} mm`, 'minimum', { unit: 'mm', decimals: 2 })} mm.`;
    }
    case 'tool-too-coarse':
      return limit === undefined
        ? null
        : `A tool of ± ${showNumber(Math.floor(limit * 1000) / 10)} % of the reading or better.`;
    case 'outside-published-band':
      return 'A band inside one of those published for the thread, below; or a reason why this joint needs another.';
    default:
      return null;
  }
}

function spanText(band: { min: number; max: number } | undefined, { unit }: Callout): string {
  if (band === undefined) return 'nothing';
  return `${showNumber(inUnit(band.min, unit))}–${showNumber(inUnit(band.max, unit))} ${unit}`;
}

/** Two decimals more than the size asks for, rounded to the safe side. */
function limitText(nm: number, end: 'minimum' | 'maximum', unit: Callout['unit']): string {
  // The digits that a trip through N·m costs are taken off before the end is rounded to its safe side.
  const value = Number(showNumber(inUnit(nm, unit), 12));
  const size = Math.abs(value);
  const decimals = size >= 100 ? 0 : size >= 10 ? 1 : 2;
  return limitIn(`${value} ${unit}`, end, { unit, decimals });
}

/** Preload is proportional to the seating torque, so each limit says how far the band's ends may go. */
function preloadMend(findings: readonly Finding[], x: Asked): Mend {
  const rules = findings.map(({ rule }) => rule);
  const { callout, judged, cells, columns, readAgain } = x;
  const { seatingNm, runningNm } = judged.computed;
  let least = seatingNm?.min ?? 0;
  let most = seatingNm?.max ?? 0;
  for (const { rule, value, limit } of findings) {
    if (value === undefined || limit === undefined || value <= 0) continue;
    if (rule === 'preload-below-minimum') least = Math.max(least, ((seatingNm?.min ?? 0) * limit) / value);
    else most = Math.min(most, ((seatingNm?.max ?? 0) * limit) / value);
  }
  // The least of a band that begins too low may have to pass its greatest: that one follows as far as the upper limits let it.
  const added = callout.runningIncluded === false || runningNm === undefined ? { min: 0, max: 0 } : runningNm;
  const none: Mend = {
    rules,
    text: 'No band of torque keeps to both ends with this scatter: the preload must scatter less, or the limits lie further apart.',
  };
  const upper = upperEnd(x, { least, most, added });
  if (least <= 0 || upper === null) return none;
  const [min, max] = [
    limitText(least + added.max, 'minimum', callout.unit),
    limitText(upper + added.min, 'maximum', callout.unit),
  ];
  if (Number(min) > Number(max)) return none;
  const ends = { torqueMin: `${min} ${callout.unit}`, torqueMax: `${max} ${callout.unit}` };
  const again = readAgain(withBand(cells, columns, ends));
  if (again === null || again.findings.some(({ rule }) => rules.includes(rule) || rule === 'empty-band')) return none;
  return {
    rules,
    text: `${min}–${max} ${callout.unit}, everything else as called out: read and judged again, no limit of preload is passed.`,
    cells: ends,
  };
}

/** The greatest seating torque that keeps to the upper limits, of those given; above the callout's own only where its least must go there. */
function upperEnd(
  { callout, judged }: Asked,
  x: { least: number; most: number; added: { min: number; max: number } },
): number | null {
  const { least, most, added } = x;
  if (least + added.max <= most + added.min) return most;
  const { preloadN, seatingNm, strength } = judged.computed;
  if (preloadN === undefined || seatingNm === undefined || judged.findings.some(({ rule }) => aboveRules.has(rule)))
    return null;
  const perNm = preloadN.max / seatingNm.max;
  const area = callout.thread.screw.stressAreaMm2;
  const limits = [
    ...(callout.preloadMaxN === null ? [] : [callout.preloadMaxN / perNm]),
    ...(strength?.proofMPa == null || area === null ? [] : [(strength.proofMPa * area) / perNm]),
    ...(judged.computed.yieldShare === undefined ? [] : [seatingNm.max / judged.computed.yieldShare.max]),
  ];
  // As wide on the wrench as it was called out.
  const width = callout.band.maxNm - callout.band.minNm;
  return Math.min(least + added.max + width - added.min, ...limits);
}

const aboveRules = new Set(['preload-over-proof', 'preload-over-yield', 'preload-above-maximum']);

function withBand(
  cells: TypedRow['cells'],
  columns: readonly string[],
  ends: { torqueMin: string; torqueMax: string },
): Record<string, string> {
  const dropped = new Set(
    ['torque', 'tolerance', 'torqueAlt', 'torqueMin', 'torqueMax', 'passes'].map((name) => columnNamed(columns, name)),
  );
  return { ...Object.fromEntries(Object.entries(cells).filter(([name]) => !dropped.has(name))), ...ends };
}
