import type { AsRunResult, AsRunRow } from '../../../shared-types/asRun.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { Finding, JudgedSummary } from '../../../shared-types/judged.ts';
import { decisionOf, readCallouts, refuseBad, type Callout } from '../callout/index.ts';
import { cautionLead, cautionShort } from '../caution.ts';
import { angleFindings } from './angle.ts';
import { groupsOf } from './groups.ts';
import { lockingFindings } from './judgeLocking.ts';
import { aimOf, torqueComputed, torqueFindings, type Aim } from './judgeTorque.ts';
import { lockingOf, type CalloutLocking } from './lockingOf.ts';
import { passFindings } from './passOrder.ts';
import { readAsRun, type ReadAsRun } from './readAsRun.ts';
import type { AsRunRecord, Found } from './record.ts';
import { sequenceFindings } from './sequence.ts';
import { temperatureFindings } from './temperature.ts';
import { readTools, type TrackedTool } from './tools.ts';
import { traceTools } from './toolTrace.ts';
import { turnsFindings, turnsPatternOf, type TurnsPattern } from './turnsPattern.ts';
import { wearFindings, wearMethod } from './wear.ts';

interface CsvFile {
  content: Uint8Array | string;
  file?: string;
}

/**
 * What was recorded at the work site, judged against its callouts, each row and the series of each position.
 *
 * @param given.asRun - CSV of what was recorded
 * @param given.callouts - CSV of the callouts it names
 * @param given.tools - CSV of the tools and their calibration, where values are to be traced to them
 * @param given.skipBad - whether rows that cannot be read are passed over and listed, rather than refusing the files
 * @returns one row for each of the file's, in its order; the counts; the series of breakaway torques with their forecast
 * @throws RefusedError as readTable does; where rows of any file cannot be read, with every one of them in `rows`
 * @source contract, command asrun; what each rule rests on stands in its findings
 * @validity one fastener for each callout and position, used again cycle after cycle
 * @example a final torque of 62 N·m on a callout of 50 to 58 N·m: final-outside-callout, nonconforming
 */
export function judgeAsRun(given: {
  asRun: CsvFile;
  callouts: CsvFile;
  tools?: CsvFile;
  skipBad: boolean;
}): AsRunResult {
  const callouts = readCallouts(given.callouts);
  const asRun = readAsRun(given.asRun, callouts.callouts);
  const tools = given.tools === undefined ? null : readTools(given.tools);
  const refusals = [...callouts.refusals, ...asRun.refusals, ...(tools?.refusals ?? [])];
  if (!given.skipBad) refuseBad(refusals);
  return judgedOf(asRun, tools?.tools ?? null, given.skipBad ? refusals : null);
}

/**
 * What was read, judged.
 *
 * @param tools - by their serial; null where none are known: nothing is traced then
 * @param skipped - refusals to list; null where none are to be told
 * @returns as judgeAsRun
 */
export function judgedOf(
  { records, table }: ReadAsRun,
  tools: ReadonlyMap<string, TrackedTool> | null,
  skipped: Refusal[] | null,
): AsRunResult {
  const findings = new Map<AsRunRecord, Finding[]>(records.map((record) => [record, []]));
  const found: Found = (record, finding) => findings.get(record)?.push(finding);
  const lockingFor = lockingByCallout();
  const patterns = patternsOf(records);
  const aims = new Map<AsRunRecord, Aim>(records.map((record) => [record, aimOf(record)]));
  for (const record of records) {
    const aim = aims.get(record) ?? aimOf(record);
    const own = [
      ...torqueFindings(record, aim),
      ...angleFindings(record, aim),
      ...lockingFindings(record, lockingFor(record)),
      ...turnsFindings(record, patterns.get(record) ?? null),
      ...temperatureFindings(record),
    ];
    for (const finding of own) found(record, finding);
  }
  const series = wearFindings(records, lockingFor, found);
  passFindings(records, found);
  sequenceFindings(records, found);
  const reopened = tools === null ? null : traceTools(records, tools, found);
  const rows = records.map((record) =>
    rowOf(record, findings.get(record) ?? [], {
      ...torqueComputed(record, aims.get(record) ?? aimOf(record)),
      runningMaxNm: lockingFor(record).runningMax?.nm ?? null,
      breakawayMinNm: lockingFor(record).breakawayMinAt(record.cycle).asked?.nm ?? null,
      turns: record.turns,
      turnsMedian: patterns.get(record)?.median ?? null,
      turnsAllowed: patterns.get(record)?.allowed ?? null,
    }),
  );
  return {
    rows,
    summary: summaryOf(rows),
    series,
    wearMethod,
    ...(reopened === null ? {} : { reopened }),
    ...(skipped === null ? {} : { skipped }),
    unknownColumns: table.unknownColumns.map(({ name }) => name),
    caution: `${cautionLead} ${cautionShort}`,
  };
}

/** The limits of each callout, looked up once. */
function lockingByCallout(): (record: AsRunRecord) => CalloutLocking {
  const known = new Map<Callout, CalloutLocking>();
  return ({ callout }) => {
    const locking = known.get(callout) ?? lockingOf(callout);
    known.set(callout, locking);
    return locking;
  };
}

/** The pattern of turns each record belongs to: those of its callout, cycle and pass. */
function patternsOf(records: readonly AsRunRecord[]): Map<AsRunRecord, TurnsPattern> {
  const turned = records.filter(({ turns }) => turns !== null);
  const patterns = new Map<AsRunRecord, TurnsPattern>();
  for (const group of groupsOf(turned, ({ callout, cycle, pass }) => [callout.id, cycle, pass])) {
    const pattern = turnsPatternOf(group.map(({ turns }) => turns ?? 0));
    if (pattern !== null) for (const record of group) patterns.set(record, pattern);
  }
  return patterns;
}

function rowOf(record: AsRunRecord, findings: Finding[], computed: AsRunRow['computed']): AsRunRow {
  const { id, row, callout, position, cycle, pass, method, tool, serial, temperature, time, otherColumns } = record;
  return {
    id,
    row,
    callout: callout.id,
    position,
    cycle,
    pass,
    decision: decisionOf(findings),
    findings,
    computed,
    method,
    tool,
    serial,
    temperatureC: temperature?.celsius ?? null,
    time: time?.text ?? null,
    ...(otherColumns === null ? {} : { otherColumns }),
  };
}

function summaryOf(rows: readonly AsRunRow[]): JudgedSummary {
  const summary: JudgedSummary = { conforming: 0, nonconforming: 0, indeterminate: 0 };
  for (const { decision } of rows) summary[decision] += 1;
  return summary;
}
