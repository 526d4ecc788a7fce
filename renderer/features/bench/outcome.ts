import type { Refusal } from '../../../shared-types/errors.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { RefusedError } from '../../engine/errors.ts';
import type { LikeliestFound } from '../../workers/likeliest.ts';
import { sentence } from '../steps/words.ts';
import { fieldsNow, missingFields, type BenchAnswer, type BenchSheet, type Typed } from './benchSheet.ts';

export interface BenchFault {
  /** The field it stands beside; null where it is of none alone. */
  key: string | null;
  message: string;
}

export type Outcome =
  | { is: 'answer'; answer: BenchAnswer }
  /** Not wrong, only not finished. */
  | { is: 'missing'; labels: string[]; faults: BenchFault[] }
  | { is: 'refused'; faults: BenchFault[] };

/** What the entries come to. What the engine refuses is said in its own words, at the field it names. */
export function outcomeOf(sheet: BenchSheet, typed: Typed, units: UnitsShown, drawn?: LikeliestFound): Outcome {
  const missing = missingFields(sheet, typed);
  if (missing.length > 0)
    return {
      is: 'missing',
      labels: missing.map(({ label }) => label),
      faults: missing.map(({ key, label }) => ({ key, message: `${label}: is missing.` })),
    };
  try {
    return { is: 'answer', answer: sheet.answer(typed, units, drawn) };
  } catch (error) {
    return refusedOutcome(sheet, typed, error);
  }
}

/** What was refused, each at its field. @throws whatever is no refusal */
export function refusedOutcome(sheet: BenchSheet, typed: Typed, error: unknown): Outcome {
  if (!(error instanceof RefusedError)) throw error;
  const { rows, ...first } = error.refusal;
  const all = rows === undefined || rows.length === 0 ? [first] : rows;
  return { is: 'refused', faults: all.map((refusal) => faultOf(sheet, typed, refusal)) };
}

function faultOf(sheet: BenchSheet, typed: Typed, { field, message }: Refusal): BenchFault {
  const key = field === undefined ? undefined : (sheet.paths?.[field] ?? field.replaceAll(/\[\d+\]$/g, ''));
  const named = sheet.paths?.[key ?? ''] ?? key;
  const at = fieldsNow(sheet, typed).find((one) => one.key === named);
  if (at === undefined) return { key: null, message: sentence(message) };
  const words = field !== undefined && message.startsWith(`${field}: `) ? message.slice(field.length + 2) : message;
  return { key: at.key, message: /^["“A-Z]/.test(words) ? sentence(words) : `${at.label}: ${sentence(words)}` };
}
