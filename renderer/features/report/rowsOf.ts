import type { AsRunRow } from '../../../shared-types/asRun.ts';
import type { CalloutRow } from '../../../shared-types/callout.ts';
import type { AcceptedFinding } from '../../../shared-types/records/judgedLists.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { ReportRow } from './report.ts';

type Typed = Readonly<Record<string, string>>;

/** Ends of a band are limits: shown to so many digits, their rounding is far below what any rule tells apart. */
const digits = 6;

/** A judged callout as it is reported. `cells` are what was typed, by column; without them the band stands in N·m. */
export function calloutRow(
  row: CalloutRow,
  x: { cells?: Typed; accepted?: readonly AcceptedFinding[] } = {},
): ReportRow {
  const { computed } = row;
  const { preloadN, proofShare, aimNm, assumptions } = computed;
  const share = proofShare === undefined ? '' : `, ${percent(proofShare.max)} of proof at the most`;
  return {
    id: row.id,
    said: saidOf(row, x.cells),
    decision: row.decision,
    findings: row.findings,
    accepted: x.accepted ?? [],
    computed: [
      ...(aimNm === undefined ? [] : [`on the wrench ${bandText(aimNm)}`]),
      ...(preloadN === undefined
        ? []
        : [`preload ${showNumber(preloadN.min / 1000)} to ${showNumber(preloadN.max / 1000)} kN${share}`]),
    ],
    assumptions,
  };
}

function saidOf({ computed }: CalloutRow, cells: Typed | undefined): string[] {
  const cell = (name: string): string => cells?.[name] ?? '';
  const [min, max, middle] = [cell('torqueMin'), cell('torqueMax'), cell('torque')];
  const band =
    min !== ''
      ? `${min} to ${max}`
      : middle === ''
        ? bandText(computed.calloutNm)
        : `${middle} ± ${cell('tolerance').replace(/^±\s*/, '')}`;
  const more = ['strength', 'locking', 'lubrication'].map(cell).filter((text) => text !== '');
  return [cell('thread') === '' ? computed.thread : cell('thread'), band, ...more];
}

/** A judged record as it is reported. */
export function asRunRow(row: AsRunRow, x: { cells?: Typed; accepted?: readonly AcceptedFinding[] } = {}): ReportRow {
  const { computed } = row;
  const typed = (name: string, nm: number | null): string =>
    x.cells?.[name] ?? (nm === null ? '' : `${showNumber(nm)} N·m`);
  const parts: [string, string][] = [
    ['final', typed('final', computed.finalNm)],
    ['running', typed('running', computed.runningNm)],
    ['breakaway', typed('breakaway', computed.breakawayNm)],
    ['turns', computed.turns === null ? '' : showNumber(computed.turns)],
    ['tool', [row.tool ?? '', row.serial ?? ''].filter((text) => text !== '').join(', serial ')],
    ['at', row.time ?? ''],
  ];
  return {
    id: row.id,
    said: parts.filter(([, text]) => text !== '').map(([name, text]) => `${name} ${text}`),
    decision: row.decision,
    findings: row.findings,
    accepted: x.accepted ?? [],
    computed: [
      `callout ${bandText(computed.bandNm)}`,
      ...(computed.seatingNm === null || computed.runningNm === null
        ? []
        : [
            `seating ${showNumber(computed.seatingNm)} N·m, that is final ${showNumber(computed.finalNm)} less running ${showNumber(computed.runningNm)}`,
          ]),
    ],
    assumptions: [],
  };
}

function bandText({ min, max }: { min: number; max: number }): string {
  return `${showNumber(min, digits)} to ${showNumber(max, digits)} N·m`;
}

function percent(share: number): string {
  return `${showNumber(share * 100, 3)} %`;
}
