import type { AsRunComputed, JudgedAs } from '../../../shared-types/asRun.ts';
import type { Finding, Severity } from '../../../shared-types/judged.ts';
import { torqueText } from '../callout/words.ts';
import type { BandNm } from '../plan/resolved.ts';
import { atLeast, atMost } from '../tolerance.ts';
import type { AsRunRecord } from './record.ts';

const band = 'The callout itself; limits are compared within 1e-9, relative (rule of this program).';
const parts =
  'Torque on the wrench = seating torque + running torque (definition; NASA TM-106943 and FAA AC 43.13-1B add them): a callout that leaves running torque out is for seating alone.';
const noReading = 'What a tool is set to is no measurement of what it gave (definition).';
const inPasses = 'A pass before the last is held against its own band of the callout: common practice, no source.';

/** What a record's final torque is held against. */
export interface Aim {
  bandNm: BandNm;
  judgedAs: JudgedAs;
  /** Final less running torque; null where no running torque is recorded. */
  seatingNm: number | null;
  /** Which pass the band is of, where it is one before the last. */
  earlierPass: number | null;
}

/** The band of the record's pass, and whether final torque, seating torque or both are held against it. */
export function aimOf({ callout, finalNm, runningNm, passNumber }: AsRunRecord): Aim {
  const { passes, runningIncluded } = callout;
  const index = passNumber === null ? -1 : passNumber - 1;
  const earlier = index < passes.length - 1 ? passes[index] : undefined;
  const judgedAs = runningIncluded === null ? 'both' : runningIncluded ? 'final' : 'seating';
  return {
    bandNm: earlier ?? callout.band,
    judgedAs,
    seatingNm: runningNm === null ? null : finalNm - runningNm,
    earlierPass: earlier === undefined ? null : passNumber,
  };
}

/**
 * `final-outside-callout`, `seating-outside-callout`, `running-missing`, `set-not-read`, `pass-outside-band`: the final torque against
 * the callout's band, or, where the callout leaves running torque out, what of it seats the fastener.
 */
export function torqueFindings(record: AsRunRecord, aim: Aim): Finding[] {
  const findings = judged(record, aim);
  if (record.method !== 'set') return findings;
  // Nobody read the torque. That the tool was set outside the band is certain all the same.
  return [...findings.filter(({ severity }) => severity === 'reject'), setFinding(record)];
}

function judged(record: AsRunRecord, aim: Aim): Finding[] {
  const { finalNm, callout } = record;
  const final = outside(record, aim, 'final', finalNm);
  if (aim.judgedAs === 'final') return final === null ? [] : [final];
  if (aim.seatingNm === null) {
    const missing = missingFinding(record);
    // Whether the final torque is to be judged by itself the callout does not say: what it would say is told as a query.
    return callout.runningIncluded === null && final !== null ? [missing, asQuery(final)] : [missing];
  }
  const seating = outside(record, aim, 'seating', aim.seatingNm);
  if (aim.judgedAs === 'seating') return seating === null ? [] : [seating];
  if (final !== null && seating !== null) return [final, seating];
  const one = final ?? seating;
  return one === null ? [] : [asQuery(one)];
}

const undecided =
  'The callout does not say whether running torque is in it; held against it the other way, the row keeps to it or cannot be judged.';

function asQuery(finding: Finding): Finding {
  return finding.severity === 'reject'
    ? { ...finding, severity: 'query', message: `${finding.message} ${undecided}` }
    : finding;
}

function outside(record: AsRunRecord, aim: Aim, what: 'final' | 'seating', valueNm: number): Finding | null {
  const { minNm, maxNm } = aim.bandNm;
  const isLow = !atLeast(valueNm, minNm);
  if (!isLow && atMost(valueNm, maxNm)) return null;
  const { unit } = record.callout;
  const limitNm = isLow ? minNm : maxNm;
  const off = torqueText(Math.abs(valueNm - limitNm), unit);
  const where = isLow
    ? `under the least of ${torqueText(minNm, unit)}`
    : `over the greatest of ${torqueText(maxNm, unit)}`;
  const from =
    what === 'seating'
      ? ` (final ${torqueText(record.finalNm, unit)} less running ${torqueText(record.runningNm ?? 0, unit)})`
      : '';
  const isEarlier = aim.earlierPass !== null;
  const severity: Severity = isEarlier ? 'query' : 'reject';
  const of = isEarlier ? `pass ${aim.earlierPass} of the callout` : 'the callout';
  return {
    rule: isEarlier ? 'pass-outside-band' : `${what}-outside-callout`,
    severity,
    message: `The ${what} torque of ${torqueText(valueNm, unit)}${from} is ${off} ${where} of ${of}.`,
    value: valueNm,
    limit: limitNm,
    unit: 'N·m',
    source: isEarlier ? inPasses : what === 'seating' ? parts : band,
  };
}

function missingFinding({ callout, finalNm }: AsRunRecord): Finding {
  const why =
    callout.runningIncluded === null
      ? 'the callout does not say whether running torque is in it'
      : 'the callout leaves running torque out';
  return {
    rule: 'running-missing',
    severity: 'query',
    message: `No running torque is recorded, and ${why}: what of the final torque of ${torqueText(finalNm, callout.unit)} seats the fastener is not known.`,
    source: parts,
  };
}

function setFinding({ callout, finalNm }: AsRunRecord): Finding {
  return {
    rule: 'set-not-read',
    severity: 'query',
    message: `${torqueText(finalNm, callout.unit)} is what the tool was set to, and not a torque that was read: whether the fastener has it is not shown.`,
    value: finalNm,
    unit: 'N·m',
    source: noReading,
  };
}

/** The numbers of a record's torque, as its row shows them. */
export function torqueComputed(
  { finalNm, runningNm, breakawayNm, angleDeg }: AsRunRecord,
  { bandNm, judgedAs, seatingNm }: Aim,
): Pick<AsRunComputed, 'bandNm' | 'judgedAs' | 'finalNm' | 'runningNm' | 'seatingNm' | 'breakawayNm' | 'angleDeg'> {
  return {
    bandNm: { min: bandNm.minNm, max: bandNm.maxNm },
    judgedAs,
    finalNm,
    runningNm,
    seatingNm,
    breakawayNm,
    angleDeg,
  };
}
