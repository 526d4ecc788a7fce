import type { Item } from '../../../shared-types/records/item.ts';

/** Of what is no torque tool there is nothing to say; of one without a day it is not known. */
export type CalibrationState = 'none' | 'unknown' | 'in-date' | 'due' | 'overdue';

/** So long before its day a calibration is said to be due: our choice, no source. */
const dueWithinDays = 30;

const dayMs = 86_400_000;

/** Whole days from one day to another, as `2026-11-25`; below 0 where the second comes first. */
function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(to) - Date.parse(from)) / dayMs);
}

/**
 * Where a torque tool stands with its calibration.
 *
 * @param today - the day it is judged on, as `2026-11-25`; on the day it is due it may still be used
 */
export function calibrationState(item: Item, today: string): CalibrationState {
  if (item.kind !== 'torque-tool') return 'none';
  if (item.calibrationDue === undefined) return 'unknown';
  const days = daysBetween(today, item.calibrationDue);
  if (days < 0) return 'overdue';
  return days <= dueWithinDays ? 'due' : 'in-date';
}

/** The state in words, with how long. */
export function calibrationText(item: Item, today: string): string {
  const due = item.kind === 'torque-tool' ? item.calibrationDue : undefined;
  if (due === undefined) return 'not said';
  const days = daysBetween(today, due);
  if (days < 0) return `Overdue by ${-days} d`;
  if (days <= dueWithinDays) return days === 0 ? 'Due today' : `Due in ${days} d`;
  return `To ${due}`;
}
