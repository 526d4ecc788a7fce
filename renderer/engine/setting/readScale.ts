import type { ToolSettingInput } from '../../../shared-types/toolSetting.ts';
import { RefusedError } from '../errors.ts';
import type { Reading } from '../plan/reading.ts';
import type { ScaleTorque } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';
import type { TorqueScale } from '../torque/scale.ts';
import { convertValue, readQuantity, readUnit, type Unit } from '../units/index.ts';
import { calibrationOf } from './calibration.ts';

/** Far beyond any torque; every quantity computed from one below it is finite. */
const mostNm = 1e12;
/** Far beyond any scale; a count below it times an increment keeps its digits. */
const marksMost = 1e9;

type Tool = ToolSettingInput['tool'];

/**
 * A tool's scale: its numbers in its unit, or as quantities, and the same in N·m.
 *
 *   reading only; a value set is kept in the tool's unit
 *
 * @param r - gathers what is refused
 * @param tool - as typed
 * @returns the scale [N·m] and its maximum in the tool's unit
 * @throws nothing; refusals are gathered
 * @source the headless contract, command `setting`
 * @validity exactly one of increment and settings, one of the two accuracies
 * @example { min: 10, max: 50, increment: 0.5, unit: 'N·m', accuracyOfReading: 0.04 }
 */
export function readScale(r: Reading, tool: Tool): { scale: TorqueScale; maxOnScale: { value: number; unit: Unit } } {
  const unit = r.refusals.attempt<Unit>('tool.unit', tool.unit, 'N·m', () => readUnit(tool.unit, 'torque').unit);
  const mark = (field: string, typed: number | string, least: 'above 0' | '0') =>
    r.refusals.attempt(field, typed, { value: 1, unit, nm: 1 }, () => readMark(typed, unit, least));
  const min = mark('tool.min', tool.min, '0');
  const max = mark('tool.max', tool.max, 'above 0');
  const increment = tool.increment === undefined ? null : mark('tool.increment', tool.increment, 'above 0');
  const settings = tool.settings?.map((typed, index) => mark(`tool.settings[${index}]`, typed, 'above 0')) ?? null;
  r.refusals.attempt('tool.min', tool.min, undefined, () => {
    if (!atMost(min.nm, max.nm))
      throw new RefusedError({ code: 'contradiction', message: `is above this tool's max, ${String(tool.max)}` });
  });
  r.refusals.attempt('tool.increment', tool.increment, undefined, () => {
    if (increment !== null && max.nm / increment.nm > marksMost)
      throw new RefusedError({ code: 'out-of-range', message: `must be at least max ÷ ${marksMost}` });
  });
  checkOneEach(r, tool, max.nm);
  return {
    scale: {
      minNm: min.nm,
      maxNm: max.nm,
      increment: settings === null ? increment : null,
      settings,
      accuracyOfReading: tool.accuracyOfReading ?? 0,
      accuracyOfFullScale: tool.accuracyOfFullScale ?? 0,
    },
    maxOnScale: { value: max.value, unit },
  };
}

/**
 * One torque: a number in a unit, or a quantity.
 *
 *   reading only
 *
 * @param typed - as typed
 * @param unit - of a bare number, and of the value kept
 * @param least - whether 0 may be
 * @returns the value in `unit` and in N·m
 * @throws RefusedError as readQuantity does; out-of-range below 0, at 0 where it may not be, or far beyond any torque
 * @source the headless contract, command `setting`
 * @validity finite values
 * @example readMark('1000 cN·m', 'N·m', '0') // { value: 10, unit: 'N·m', nm: 10 }
 */
export function readMark(typed: number | string, unit: Unit, least: 'above 0' | '0'): ScaleTorque {
  const read = typeof typed === 'number' ? { value: typed, unit } : readQuantity(typed, 'torque');
  const nm = convertValue(read.value, read.unit, 'N·m');
  if (read.value < 0 || (read.value === 0 && least !== '0'))
    throw new RefusedError({
      code: 'out-of-range',
      message: least === '0' ? 'must be 0 or more' : 'must be more than 0',
    });
  if (nm > mostNm) throw new RefusedError({ code: 'out-of-range', message: `must be at most ${mostNm} N·m` });
  return { value: read.unit === unit ? read.value : convertValue(read.value, read.unit, unit), unit, nm };
}

function checkOneEach(r: Reading, tool: Tool, maxNm: number): void {
  if (tool.increment !== undefined && tool.settings !== undefined)
    r.refusals.add('tool.settings', {
      code: 'contradiction',
      message: 'a torque tool has an increment or a list of settings; this one gives both',
    });
  if (tool.increment === undefined && tool.settings === undefined)
    r.refusals.add('tool.increment', {
      code: 'missing-field',
      message: 'a torque tool has an increment or a list of settings; this one gives neither',
    });
  if (tool.accuracyOfReading !== undefined && tool.accuracyOfFullScale !== undefined)
    r.refusals.add('tool.accuracyOfFullScale', {
      code: 'contradiction',
      value: tool.accuracyOfFullScale,
      message: 'a torque tool has an accuracy of reading or of full scale; this one gives both',
    });
  if (tool.accuracyOfReading === undefined && tool.accuracyOfFullScale === undefined) {
    const { permissibleDeviation, appliesTo, source } = calibrationOf(maxNm);
    r.refusals.add('tool.accuracyOfReading', {
      code: 'missing-field',
      message: `accuracyOfReading or accuracyOfFullScale is missing: none is assumed. ${source.number} has ${permissibleDeviation} for ${appliesTo}`,
    });
  }
}
