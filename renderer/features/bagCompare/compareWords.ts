import type { PastAnswer } from '../../../shared-types/records/window.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { dayAndClockText } from '../../store/clock.ts';
import { amountText, objectiveWords } from '../bag/amounts.ts';
import type { AmountUnit } from '../bag/amounts.ts';
import { toleranceWords } from '../bag/asked.ts';
import type { Lying } from './compareAnswers.ts';

/** What was asked and when, to tell one answer from another. */
export function answerText(answer: PastAnswer, planHash: string): string {
  const { minimised, tolerance = 'nothing', wishes, plannedAt } = answer;
  const wished = wishes === undefined ? 0 : wishes.keep.length + wishes.forbid.length + wishes.spares.length;
  return [
    dayAndClockText(new Date(plannedAt)),
    objectiveWords[minimised],
    ...(tolerance === 'nothing' ? [] : [toleranceWords[tolerance]]),
    ...(wished === 0 ? [] : [wished === 1 ? '1 item asked for' : `${wished} items asked for`]),
    ...(answer.planHash === planHash ? [] : ['earlier state of the task']),
  ].join(', ');
}

/** How sure an answer is, with its figure. */
export function outcomeText({ status, objective }: PastAnswer, units: UnitsShown): string {
  if (status === 'infeasible') return 'no bag does it';
  if (objective === null) return 'none found in the time given';
  const value = amountText(objective.value, objective.unit, units);
  return status === 'optimal' ? `${value}, proved least` : `${value}, not proved`;
}

/** "+0.310 kg", "−2 pieces", "the same": what the other has more or less. */
export function signedText(value: number, unit: AmountUnit, units: UnitsShown): string {
  const text = amountText(Math.abs(value), unit, units);
  // What rounds to nothing is no difference that anyone could weigh.
  if (text === amountText(0, unit, units)) return 'the same';
  return `${value > 0 ? '+' : '−'}${text}`;
}

export function lyingText(lying: readonly Lying[], bagName: (id: string) => string): string {
  if (lying.length === 0) return '–';
  return lying.map(({ bag, quantity }) => `${quantity} in ${bagName(bag)}`).join(', ');
}
