import type { PreloadAnswer, ToolSettingResult, TurningAnswer } from '../../../shared-types/toolSetting.ts';
import { turnsToRun } from '../thread/index.ts';
import type { ChosenSetting } from '../torque/chooseSetting.ts';
import { likeliestSetting } from '../torque/preloadChance.ts';
import { twistDeg } from '../torque/windUp.ts';
import { strokesInSwing, turningSeconds } from '../turning/index.ts';
import type { SettingTask } from './settingTask.ts';

/**
 * How far a string of parts twists while the torque is applied.
 *
 *   φ = Σ T·L/(G·J)
 *
 * @param task - with the parts, in mm and MPa
 * @param chosen - the setting; null where there is none
 * @returns φ at the nominal torque and at the greatest, and of each part at the nominal [deg]; null without parts or setting
 * @throws nothing
 * @source torsion of a prismatic bar, textbook form
 * @validity elastic; drives without play
 * @example one part of 250 mm, 12 mm round, G 79300 MPa at 100 N·m: 8.873°
 */
export function windUpAnswer(task: SettingTask, chosen: ChosenSetting | null): ToolSettingResult['windUpDeg'] {
  if (task.windUp === null || chosen === null) return null;
  const nominalNm = chosen.nm / task.correction;
  const twists = (torqueNm: number) => task.windUp?.map((part) => twistDeg({ torqueNm, part })) ?? [];
  const parts = twists(nominalNm);
  return { nominal: sum(parts), max: sum(twists(chosen.applied.maxNm)), parts };
}

/**
 * The setting most likely to give a preload within its limits, beside the one the interval rule chose.
 *
 *   see likeliestSetting
 *
 * @param task - with preload limits and the spreads of tool and nut factor
 * @param chosen - the interval rule's setting; null where there is none
 * @returns shares 0 to 1 with their intervals; null without limits
 * @throws nothing
 * @source likeliestSetting
 * @validity as likeliestSetting
 * @example 20 ± 5 % limits about a nut factor of 0.2: the middle setting
 */
export function preloadAnswer(task: SettingTask, chosen: ChosenSetting | null): PreloadAnswer | null {
  const { preload, distribution } = task;
  if (preload === null || distribution === null) return null;
  const { scale, rangeShareMin, correction, running } = task;
  const { best, also } = likeliestSetting(
    { ...preload, scale, rangeShareMin, correction, running, error: distribution },
    chosen === null ? [] : [chosen.nm],
  );
  return { likeliest: best, atSetting: also[0] ?? null, seed: preload.seed, samples: preload.samples };
}

/**
 * Turns, strokes and time to run the fastener.
 *
 *   turns = length ÷ lead; strokes = turns·360/(⌊φ/step⌋·step); time = strokes or turns × stated seconds
 *
 * @param task - with the length to run, in mm, and what is stated of swing and pace
 * @returns turns; strokes where a swing is given; [s] where a pace is stated; null without a length
 * @throws nothing
 * @source turnsToRun, strokesInSwing, turningSeconds
 * @validity no pace is ever assumed
 * @example 12 mm of M10 in a swing of 63° with steps of 5°: 8 turns, 48 strokes
 */
export function turningAnswer({ turning }: SettingTask): TurningAnswer | null {
  if (turning === null) return null;
  const { lengthMm, leadMm, swing, secondsPerTurn, secondsPerStroke } = turning;
  const turns = turnsToRun({ lengthMm, leadMm });
  const made = swing === null ? null : strokesInSwing({ turns, ...swing });
  return {
    leadMm,
    turns,
    strokeDeg: made?.strokeDeg ?? null,
    strokes: made?.strokes ?? null,
    wholeStrokes: made?.wholeStrokes ?? null,
    seconds:
      secondsPerStroke !== null && made !== null
        ? turningSeconds({ count: made.wholeStrokes, secondsEach: secondsPerStroke })
        : turningSeconds({ count: turns, secondsEach: secondsPerTurn }),
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
