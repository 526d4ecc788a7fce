import type { ToolSettingResult } from '../../../shared-types/toolSetting.ts';
import type { SettingTask } from './settingTask.ts';

/**
 * Where the rules and formulas of an answer come from.
 *
 *   a list
 *
 * @param task - the question; only what it uses is listed
 * @returns each with how it was obtained
 * @throws nothing
 * @source itself
 * @validity published values carry their own citations
 * @example usedSources(task)[0].document // "ISO 14253-1"
 */
export function usedSources(task: SettingTask): ToolSettingResult['sources'] {
  const { offsetHead, distribution, preload, windUp, turning } = task;
  return [
    {
      about:
        'decision: interval rule, applied to a permissible deviation, which is no expanded uncertainty; ends included',
      document: 'ISO 14253-1',
      obtained: 'from memory',
    },
    ...when(offsetHead, {
      about: 'set = applied·L/(L + E·cos θ)',
      document: 'NAVEDTRA 14315 fig. 3-45; TM 9-254 p. 91; NAVEDTRA 14008',
      obtained: 'text found',
    }),
    ...when(distribution, {
      about: 'probability of conformity, beside the decision',
      document: 'JCGM 106',
      obtained: 'from memory',
    }),
    ...when(preload, { about: 'preload simulated with T = K·D·F', document: 'JCGM 101', obtained: 'from memory' }),
    ...when(windUp, { about: 'φ = Σ T·L/(G·J)', document: 'textbook form', obtained: 'from memory' }),
    ...when(turning, {
      about: 'turns = length/lead; strokes = turns·360/(⌊φ/step⌋·step)',
      document: 'geometry',
      obtained: 'definition',
    }),
  ];
}

function when<T>(used: unknown, source: T): T[] {
  return used === null ? [] : [source];
}
