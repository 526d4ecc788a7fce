import { toolSettingSchema, type ToolSettingInput } from '../../../shared-types/toolSetting.ts';
import { refusalFromZod, rowFinder } from '../json/readJson.ts';
import { Reading } from '../plan/reading.ts';
import { Refusals } from '../json/refusals.ts';
import type { BandNm } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';
import { offsetCorrection } from '../torque/offsetHead.ts';
import { possibleSettings } from '../torque/scale.ts';
import { readFurther } from './readFurther.ts';
import { readMark, readScale } from './readScale.ts';
import type { SettingTask } from './settingTask.ts';

/**
 * The input of command `setting`, checked whole and put into the engine's units.
 *
 *   reading only; set ÷ applied is offsetCorrection
 *
 * @param given - the parsed JSON
 * @param origin - file name and text, for refusals
 * @returns torques in N·m, lengths in mm
 * @throws RefusedError naming file, row, field, value and reason; every fault in `rows`
 * @source the headless contract, command `setting`
 * @validity as the contract says
 * @example settingFrom({ callout: { min: '20 N·m', max: '30 N·m' }, tool: { … } })
 */
export function settingFrom(given: unknown, origin: { file?: string; text?: string } = {}): SettingTask {
  const parsed = toolSettingSchema.safeParse(given);
  if (!parsed.success) throw refusalFromZod(parsed.error, { ...origin, input: given });
  const input = parsed.data;
  const { text } = origin;
  const refusals = new Refusals(origin.file, text === undefined ? () => undefined : rowFinder(text));
  const r = new Reading(refusals);
  const callout = readBand(r, 'callout', input.callout);
  const running = input.running === undefined ? null : readBand(r, 'running', input.running);
  const { scale, maxOnScale } = readScale(r, input.tool);
  const leverMm = r.optional(input.tool.lever, (typed) => r.extentMm('tool.lever', typed));
  const headMm = r.optional(input.offsetHead?.length, (typed) => r.lengthMm('offsetHead.length', typed));
  const further = readFurther(r, input);
  // What could not be read stands as 1 and must not be compared.
  refusals.settle();
  checkOrder(r, 'callout', callout, input.callout);
  if (running !== null && input.running !== undefined) checkOrder(r, 'running', running, input.running);
  checkRunning(r, { input, callout, running });
  // The simulation looks at every mark; a scale with too many is refused here, where its field can be named.
  if (input.preloadLimits !== undefined)
    refusals.attempt('tool.increment', input.tool.increment, undefined, () => {
      possibleSettings(scale, input.rangeShareMin ?? 0);
    });
  const offsetHead = checkHead(r, { input, leverMm, headMm });
  const correction =
    offsetHead === null
      ? 1
      : refusals.attempt('offsetHead.angleDeg', offsetHead.angleDeg, 1, () => offsetCorrection(offsetHead));
  refusals.settle();
  return {
    callout,
    running,
    runningIncluded: input.runningIncluded ?? null,
    scale,
    maxOnScale,
    correction,
    offsetHead,
    rangeShareMin: input.rangeShareMin ?? 0,
    ...further,
    assumptions: [...assumed(input), ...further.assumptions],
  };
}

/** As a tool's own marks are read, so that no torque can be held by one and not by the other. */
function readBand(r: Reading, at: string, typed: { min: string; max: string }): BandNm {
  const end = (name: 'min' | 'max') =>
    r.refusals.attempt(`${at}.${name}`, typed[name], 1, () => readMark(typed[name], 'N·m', '0').nm);
  return { minNm: end('min'), maxNm: end('max') };
}

function checkOrder(r: Reading, at: string, band: BandNm, typed: { min: string; max: string }): void {
  if (!atMost(band.minNm, band.maxNm))
    r.refusals.add(`${at}.min`, { code: 'contradiction', value: typed.min, message: `is above max, ${typed.max}` });
  else if (at === 'callout' && band.maxNm === 0)
    r.refusals.add('callout.max', { code: 'out-of-range', value: typed.max, message: 'must be more than 0' });
}

interface Read {
  input: ToolSettingInput;
  callout: BandNm;
  running: BandNm | null;
}

function checkRunning(r: Reading, { input, callout, running }: Read): void {
  if (running === null) {
    if (input.runningIncluded === false)
      r.refusals.add('running', {
        code: 'missing-field',
        message: 'is missing: runningIncluded is false, so the running torque to add must be given',
      });
    return;
  }
  if (input.runningIncluded !== false && !atMost(running.maxNm, callout.maxNm)) {
    r.refusals.add('running.max', {
      code: 'contradiction',
      value: input.running?.max,
      message: `is above the whole callout, ${input.callout.max}, which is said to include it${input.runningIncluded === undefined ? ' (runningIncluded is absent and counts as true)' : ''}`,
    });
  }
}

/** An offset head needs a lever, and a tool that has one. */
function checkHead(
  r: Reading,
  { input, leverMm, headMm }: { input: ToolSettingInput; leverMm: number | null; headMm: number | null },
): SettingTask['offsetHead'] {
  if (input.offsetHead === undefined || headMm === null) return null;
  const kind = input.tool.kind ?? 'wrench';
  if (kind !== 'wrench') {
    r.refusals.add('offsetHead', {
      code: 'contradiction',
      value: kind,
      message: `an offset head changes the torque by the lever of a wrench; this tool is a ${kind}`,
    });
    return null;
  }
  if (leverMm === null) {
    r.refusals.add('tool.lever', {
      code: 'missing-field',
      message: 'is missing: an offset head needs the lever, from the square to the grip mark',
    });
    return null;
  }
  return { leverMm, lengthMm: headMm, angleDeg: input.offsetHead.angleDeg };
}

function assumed(input: ToolSettingInput): string[] {
  const said: string[] = [];
  if (input.running !== undefined && input.runningIncluded === undefined)
    said.push('runningIncluded is absent: the callout is taken as the total on the wrench, running torque included.');
  if (input.offsetHead !== undefined)
    said.push('The force is square to the lever, one hand at the grip mark; another grip changes the correction.');
  if (input.offsetHead !== undefined && input.tool.kind === undefined)
    said.push('tool.kind is absent: a wrench with a lever is taken.');
  return said;
}
