import type { Citation } from '../../../shared-types/handbook.ts';
import { RefusedError } from '../errors.ts';
import { lockingTables } from '../handbook/locking.ts';
import { citationOf, numberAt, rowWhere } from '../handbook/rows.ts';
import { torqueTables } from '../handbook/torque.ts';
import { atLeast } from '../tolerance.ts';

export interface WrenchTorque {
  document: string;
  /** Undecided where the rule says one thing at the least torque of the band and another at its greatest. */
  running: 'added' | 'ignored' | 'undecided';
  /** Where undecided, null: both are computed, and no choice is made. */
  wrenchNm: { min: number; max: number } | null;
  addedNm: { min: number; max: number };
  notAddedNm: { min: number; max: number };
  /** The share of the tightening torque from which running torque is added; null where it always is. */
  fromShare: number | null;
  source: Citation;
}

/**
 * The torque on the wrench for a tightening torque and a measured running torque, by each of three documents that differ.
 *
 *   always added: T_wrench = T + T_run
 *   from one third upward: T_wrench = T + T_run where T_run ≥ T/3, else T
 *
 * @param x.tighteningNm - T, recommended torque without running torque, least and greatest [N·m], > 0
 * @param x.runningNm - T_run, measured one turn before seating [N·m], ≥ 0
 * @returns FAA AC 43.13-1B, NASA TM-106943, TB 43-0218, in this order; where T_run lies between a third of the least and a third of the
 *   greatest torque, the last is undecided
 * @throws RefusedError out-of-range where a torque is no number or below its bound, contradiction where min is above max
 * @source drag-torque-rule-faa (section 7-40), running-torque-rules (table notes), run-down-rule-army (item 7c) in data/SOURCES.md
 * @validity self-locking nuts, inserts and plate nuts
 * @example 50 to 70 lbf·in with 30 running: 80 to 100 by all three
 */
export function wrenchTorqueByDocument(x: {
  tighteningNm: { min: number; max: number };
  runningNm: number;
}): WrenchTorque[] {
  const { tighteningNm: torque, runningNm } = x;
  refuseBelow('The least tightening torque', torque.min, { above: 0 });
  refuseBelow('The greatest tightening torque', torque.max, { above: 0 });
  refuseBelow('The running torque', runningNm, { atLeast: 0 });
  if (torque.min > torque.max) {
    throw new RefusedError({
      code: 'contradiction',
      message: `The least tightening torque ${torque.min} N·m is above the greatest, ${torque.max} N·m.`,
      field: 'tightening',
      value: torque.min,
    });
  }
  const addedNm = { min: torque.min + runningNm, max: torque.max + runningNm };
  const ways = { addedNm, notAddedNm: { ...torque } };
  const always = { running: 'added' as const, wrenchNm: addedNm, ...ways, fromShare: null };
  const share = numberAt(runDown, rowWhere(runDown, 'kind', 'worked_example'), 'share_of_recommended_threshold');
  return [
    { document: 'FAA AC 43.13-1B', ...always, source: citationOf(torqueTables['drag-torque-rule-faa']) },
    { document: 'NASA TM-106943', ...always, source: citationOf(lockingTables['running-torque-rules']) },
    {
      document: 'TB 43-0218',
      ...fromShareUpward(share, runningNm, ways),
      ...ways,
      fromShare: share,
      source: citationOf(runDown),
    },
  ];
}

const runDown = torqueTables['run-down-rule-army'];

function fromShareUpward(
  share: number,
  runningNm: number,
  ways: Pick<WrenchTorque, 'addedNm' | 'notAddedNm'>,
): Pick<WrenchTorque, 'running' | 'wrenchNm'> {
  const { min, max } = ways.notAddedNm;
  if (atLeast(runningNm, share * max)) return { running: 'added', wrenchNm: ways.addedNm };
  if (atLeast(runningNm, share * min)) return { running: 'undecided', wrenchNm: null };
  return { running: 'ignored', wrenchNm: ways.notAddedNm };
}

function refuseBelow(what: string, valueNm: number, bound: { above: number } | { atLeast: number }): void {
  const isInside = 'above' in bound ? valueNm > bound.above : valueNm >= bound.atLeast;
  if (Number.isFinite(valueNm) && isInside) return;
  const asked = 'above' in bound ? `above ${bound.above}` : `at least ${bound.atLeast}`;
  throw new RefusedError({
    code: 'out-of-range',
    message: `${what} must be ${asked} N·m, not ${valueNm}.`,
    value: valueNm,
  });
}
