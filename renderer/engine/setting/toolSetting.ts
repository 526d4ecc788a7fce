import type { ToolSettingResult } from '../../../shared-types/toolSetting.ts';
import type { BandNm } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';
import { chooseSetting, type ChosenSetting } from '../torque/chooseSetting.ts';
import { runningLimits, runningLimitsAtBest } from '../torque/runningLimits.ts';
import { probabilityOfConformity } from '../torque/toolError.ts';
import { calibrationOf, temperatureQueries } from './calibration.ts';
import { preloadAnswer, turningAnswer, windUpAnswer } from './further.ts';
import type { SettingTask } from './settingTask.ts';
import { usedSources } from './sources.ts';
import { rangeUses } from './rangeUses.ts';
import { reasonOf } from './words.ts';

/**
 * The setting of a torque tool for a callout, and whether the torque then applied conforms.
 *
 *   aim = callout, or with running torque not included [min + running max, max + running min];
 *   of the settings possible, the one whose applied band lies furthest inside the aim
 *
 * @param task - callout, tool, offset head and what else is known, in N·m, mm and deg
 * @returns as the headless contract has it; all torques in N·m at the fastener, the setting on the tool's own scale
 * @throws nothing for a task that settingFrom has read
 * @source the headless contract, command `setting`; interval rule after ISO 14253-1
 * @validity hand torque tools; range and accuracy apply to the value set
 * @example 20 to 30 N·m with ± 4 % and marks every 0.5 N·m: set 25 N·m, conforming, margin 4 N·m
 */
export function toolSetting(task: SettingTask): ToolSettingResult {
  const aim = aimOf(task, task.runningIncluded ?? true);
  const chosen = choose(task, aim);
  const calibration = calibrationOf(task.scale.maxNm);
  const rangeShare = chosen === null ? null : chosen.setting.value / task.maxOnScale.value;
  return {
    ...judged(task, aim, chosen),
    correction: task.correction,
    rangeShare,
    assumptions: task.assumptions,
    queries: temperatureQueries(task.siteC, calibration),
    sources: usedSources(task),
    calibration,
    useOfRange: rangeUses({ maxNm: task.scale.maxNm, callout: task.callout, rangeShare }),
    ifNotIncluded: otherReading(task),
    runningLimits: limitsOfRunning(task, chosen),
    probability: probability(task, aim, chosen),
    windUpDeg: windUpAnswer(task, chosen),
    preload: preloadAnswer(task, chosen),
    turning: turningAnswer(task),
  };
}

function aimOf({ callout, running }: SettingTask, runningIncluded: boolean): BandNm {
  if (running === null || runningIncluded) return callout;
  return { minNm: callout.minNm + running.maxNm, maxNm: callout.maxNm + running.minNm };
}

/** Null where the aim is empty: no setting is said for a torque that cannot be. */
function choose(task: SettingTask, aim: BandNm): ChosenSetting | null {
  if (!atMost(aim.minNm, aim.maxNm)) return null;
  return chooseSetting({
    torque: task.scale,
    aim,
    rangeShareMin: task.rangeShareMin,
    correction: task.correction,
  });
}

function judged(task: SettingTask, aim: BandNm, chosen: ChosenSetting | null) {
  return {
    setting: chosen?.setting ?? null,
    appliedNm:
      chosen === null
        ? null
        : { nominal: chosen.nm / task.correction, min: chosen.applied.minNm, max: chosen.applied.maxNm },
    aimNm: { min: aim.minNm, max: aim.maxNm },
    decision: chosen?.decision ?? ('nonconforming' as const),
    marginNm: chosen?.marginNm ?? null,
    reason: reasonOf(task, aim, chosen),
  };
}

/** The callout does not say whether it includes the running torque: both readings are computed. */
function otherReading(task: SettingTask): ToolSettingResult['ifNotIncluded'] {
  if (task.running === null || task.runningIncluded !== null) return null;
  const aim = aimOf(task, false);
  const { setting, aimNm, decision, marginNm, reason } = judged(task, aim, choose(task, aim));
  return { setting, aimNm, decision, marginNm, reason };
}

function limitsOfRunning(task: SettingTask, chosen: ChosenSetting | null): ToolSettingResult['runningLimits'] {
  if (task.running !== null) return null;
  const { scale, correction, callout } = task;
  return {
    atSetting:
      chosen === null ? null : runningLimits({ scale, correction, callout, appliedNm: chosen.nm / correction }),
    atBest: runningLimitsAtBest({ scale, correction, callout }),
  };
}

function probability(
  { distribution }: SettingTask,
  aim: BandNm,
  chosen: ChosenSetting | null,
): ToolSettingResult['probability'] {
  if (distribution === null || chosen === null) return null;
  return { ofConformity: probabilityOfConformity({ applied: chosen.applied, aim, error: distribution }), distribution };
}
