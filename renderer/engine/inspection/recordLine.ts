import type { AsRunRow } from '../../../shared-types/asRun.ts';
import type { AsRunLine, TypedRow } from '../../../shared-types/inspection.ts';
import { acceptanceOf, countOpen } from './acceptance.ts';
import { cellNamed } from './cellNamed.ts';

const shown = [
  'callout',
  'position',
  'cycle',
  'pass',
  'running',
  'breakaway',
  'final',
  'turns',
  'serial',
  'time',
] as const;

/**
 * A record as a list shows it.
 *
 * @param typed - its cells as typed
 * @param row - null where it cannot be read
 */
export function recordLine(typed: TypedRow, place: number, row: AsRunRow | null): AsRunLine {
  const texts = Object.fromEntries(shown.map((name) => [name, cellNamed(typed.cells, name)]));
  const { callout = '', position = '', cycle = '', pass = '', running = '', breakaway = '' } = texts;
  const { final = '', turns = '', serial = '', time = '' } = texts;
  const said = { callout, position, cycle, pass, running, breakaway, final, turns, serial, time };
  const common = { key: typed.key, row: place, ...said };
  if (row === null) {
    const numbers = { finalNm: null, runningNm: null, breakawayNm: null, seatingNm: null, cycleNumber: null };
    const limits = { bandNm: null, runningMaxNm: null, breakawayMinNm: null };
    const id = [callout, position, cycle, pass].filter((part) => part !== '').join(' / ');
    const nothing = { findings: [], open: 0, accepted: 0, reopened: false };
    return { ...common, id, state: 'unreadable', ...numbers, ...limits, ...nothing };
  }
  const { computed, findings } = row;
  const { finalNm, runningNm, breakawayNm, seatingNm, bandNm, runningMaxNm, breakawayMinNm, judgedAs } = computed;
  const accepted = typed.accepted ?? [];
  return {
    ...common,
    id: row.id,
    state: row.decision,
    ...{ finalNm, runningNm, breakawayNm, bandNm, runningMaxNm, breakawayMinNm },
    seatingNm: judgedAs === 'final' ? finalNm : seatingNm,
    cycleNumber: row.cycle,
    findings: findings.map(({ rule, severity }) => ({ rule, severity })),
    reopened: findings.some((one) => one.rule === 'tool-found-out' && acceptanceOf(one, accepted) === undefined),
    ...countOpen(findings, accepted),
  };
}
