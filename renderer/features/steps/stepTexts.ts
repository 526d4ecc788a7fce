import type { TaskStep } from '../../../shared-types/records/task.ts';

export const actionWords = { tighten: 'Tighten', loosen: 'Loosen', use: 'By hand or with gear' } as const;

export const failureWords = {
  stuck: 'stuck',
  'cross-threaded': 'cross-threaded',
  sheared: 'sheared',
  lost: 'lost',
  other: 'otherwise in trouble',
} as const;

/** A step as its list names it. */
export function stepName({ name, code }: Pick<TaskStep, 'name' | 'code'>): string {
  return name === undefined || name.trim() === '' ? code : name;
}

/** "if stuck": the word under which a contingency step stands. */
export function contingencyWord(step: Pick<TaskStep, 'ifFails'>): string {
  if (step.ifFails === undefined) return 'if it fails';
  return step.ifFails.how === 'other' ? 'if in trouble' : `if ${failureWords[step.ifFails.how]}`;
}

/** In the title of an act: by its number where it has one, else by its name. */
export function stepCalled(step: Pick<TaskStep, 'name' | 'code'>, number: number | null): string {
  return number === null ? `step “${stepName(step).slice(0, 80)}”` : `step ${number}`;
}
