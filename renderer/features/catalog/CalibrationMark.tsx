import type { Item } from '../../../shared-types/records/item.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { calibrationState, calibrationText } from './calibrationState.ts';

const marks = {
  unknown: 'calibration-unknown',
  'in-date': 'calibrated',
  due: 'calibration-due',
  overdue: 'calibration-overdue',
} as const;

/** How a torque tool stands with its calibration, as a word and a shape. */
export function CalibrationMark({ item, today }: { item: Item; today: string }) {
  const state = calibrationState(item, today);
  if (state === 'none') return null;
  const text = calibrationText(item, today);
  return <StateMark state={marks[state]} text={state === 'unknown' ? 'Not said' : text} />;
}
