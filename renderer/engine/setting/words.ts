import type { BandNm } from '../plan/resolved.ts';
import type { ChosenSetting } from '../torque/chooseSetting.ts';
import { showNumber } from '../units/index.ts';
import type { SettingTask } from './settingTask.ts';

const digits = 6;
const nm = (value: number): string => `${showNumber(value, digits)} N·m`;
const bandText = (band: BandNm): string => `${showNumber(band.minNm, digits)} to ${showNumber(band.maxNm, digits)} N·m`;

/**
 * Why the decision is what it is, in a sentence with its numbers.
 *
 *   words only
 *
 * @param task - the question
 * @param aim - where the applied torque shall lie [N·m]
 * @param chosen - the setting; null where there is none
 * @returns the sentence
 * @throws nothing
 * @source intervalDecision
 * @validity numbers to six digits; the result's fields carry them whole
 * @example "The applied band, 24 to 26 N·m, lies inside the aim, 20 to 30 N·m."
 */
export function reasonOf(task: SettingTask, aim: BandNm, chosen: ChosenSetting | null): string {
  if (chosen === null) return withoutSetting(task, aim);
  const applied = `The applied band, ${bandText(chosen.applied)},`;
  const where = `the aim, ${bandText(aim)}`;
  if (chosen.decision === 'conforming') return `${applied} lies inside ${where}.`;
  if (chosen.decision === 'nonconforming') return `${applied} lies wholly outside ${where}.`;
  return `${applied} lies partly outside ${where}, by ${nm(-chosen.marginNm)}.`;
}

function withoutSetting({ running, callout, scale, rangeShareMin }: SettingTask, aim: BandNm): string {
  if (running !== null && aim.minNm > aim.maxNm) {
    return `The aim is empty: running torque of ${bandText(running)}, to be added to ${bandText(callout)}, spreads further than the callout is wide; it would have to be at least ${nm(aim.minNm)} and at most ${nm(aim.maxNm)}.`;
  }
  const share = rangeShareMin > 0 ? ` and at least ${showNumber(rangeShareMin * 100, 4)} % of its maximum` : '';
  return `The tool has no setting in its range, ${bandText(scale)}${share}.`;
}
