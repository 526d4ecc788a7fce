import type { ToolSettingInput } from '../../../shared-types/toolSetting.ts';
import { RefusedError } from '../errors.ts';
import type { Reading } from '../plan/reading.ts';
import { atMost } from '../tolerance.ts';
import { leadMm, leadOfStarts, readThread } from '../thread/index.ts';
import { polarMomentMm4, type TwistingPart } from '../torque/windUp.ts';
import { resetAngleDeg } from '../turning/index.ts';
import { quantityIn } from '../units/index.ts';
import type { PreloadLimits, SettingTask, Turning } from './settingTask.ts';

type Further = Pick<SettingTask, 'siteC' | 'distribution' | 'windUp' | 'preload' | 'turning' | 'assumptions'>;

const seedTaken = 1;
const samplesTaken = 100_000;
/** A normal spread of K wider than this reaches nut factors that cannot be. */
const deviationsAboveZero = 5;

/**
 * What `setting` takes beyond the contract.
 *
 *   reading only
 *
 * @param r - gathers what is refused
 * @param input - as typed
 * @returns lengths in mm, stresses in MPa, forces in N, temperatures in °C, angles in deg
 * @throws nothing; refusals are gathered
 * @source project's own fields
 * @validity each field as its schema says
 * @example readFurther(r, { …, siteTemperature: '88 °F' }).siteC // 31.1
 */
export function readFurther(r: Reading, input: ToolSettingInput): Further {
  const assumptions: string[] = [];
  return {
    siteC: r.optional(input.siteTemperature, (typed) =>
      r.refusals.attempt('siteTemperature', typed, 0, () => temperatureC(typed)),
    ),
    distribution: input.distribution ?? null,
    windUp: input.windUp?.map((part, index) => readPart(r, `windUp[${index}]`, part)) ?? null,
    preload: readPreload(r, input, assumptions),
    turning: readTurning(r, input.turning, assumptions),
    assumptions,
  };
}

const absoluteZeroC = -273.15;

function temperatureC(typed: string): number {
  const [, digits = '', scale = ''] = /^\s*([+-]?\d+(?:\.\d+)?)\s*(?:°|deg\s*)?([CF])\s*$/.exec(typed) ?? [];
  if (scale === '')
    throw new RefusedError({
      code: 'unreadable-quantity',
      message: 'is no temperature: write it as "31 °C" or "88 °F"',
    });
  const value = Number(digits);
  const celsius = scale === 'C' ? value : ((value - 32) * 5) / 9;
  if (celsius >= absoluteZeroC) return celsius;
  throw new RefusedError({ code: 'out-of-range', message: `must be at least ${absoluteZeroC} °C` });
}

function readPart(r: Reading, at: string, part: NonNullable<ToolSettingInput['windUp']>[number]): TwistingPart {
  const outsideMm = r.optional(part.outsideDiameter, (typed) => r.extentMm(`${at}.outsideDiameter`, typed));
  const insideMm = r.optional(part.insideDiameter, (typed) => r.lengthMm(`${at}.insideDiameter`, typed)) ?? 0;
  if ((outsideMm === null) === (part.polarMomentMm4 === undefined))
    r.refusals.add(at, oneOf('polarMomentMm4', 'outsideDiameter', outsideMm !== null));
  if (outsideMm === null ? part.insideDiameter !== undefined : insideMm >= outsideMm)
    r.refusals.add(`${at}.insideDiameter`, {
      code: 'contradiction',
      value: part.insideDiameter,
      message: 'must be below an outsideDiameter',
    });
  return {
    lengthMm: r.extentMm(`${at}.length`, part.length),
    shearModulusMPa: r.refusals.attempt(`${at}.shearModulus`, part.shearModulus, 1, () =>
      above0(quantityIn(part.shearModulus, 'stress', 'MPa')),
    ),
    polarMomentMm4: part.polarMomentMm4 ?? polarMomentMm4({ outsideMm: outsideMm ?? 1, insideMm }),
  };
}

function readPreload(r: Reading, input: ToolSettingInput, assumptions: string[]): PreloadLimits | null {
  const limits = input.preloadLimits;
  if (limits === undefined) return null;
  const at = 'preloadLimits';
  const force = (end: 'min' | 'max') =>
    r.refusals.attempt(`${at}.${end}`, limits[end], end === 'min' ? 0 : 1, () => {
      const newtons = quantityIn(limits[end], 'force', 'N');
      return end === 'min' ? notNegative(newtons) : above0(newtons);
    });
  const preloadN = { min: force('min'), max: force('max') };
  if (!atMost(preloadN.min, preloadN.max))
    r.refusals.add(`${at}.min`, { code: 'contradiction', value: limits.min, message: `is above max, ${limits.max}` });
  if (input.distribution === undefined)
    r.refusals.add('distribution', {
      code: 'missing-field',
      message: 'is missing: which setting is likeliest depends on how the tool spreads over its deviation',
    });
  checkSpread(r, `${at}.nutFactor`, limits.nutFactor);
  if ((limits.thread === undefined) === (limits.diameter === undefined))
    r.refusals.add(at, oneOf('thread', 'diameter', limits.thread !== undefined));
  if (limits.seed === undefined) assumptions.push(`Seed of the simulation: ${seedTaken}.`);
  if (limits.samples === undefined) assumptions.push(`Draws of the simulation: ${samplesTaken}, twice.`);
  if (input.running !== undefined)
    assumptions.push('The running torque is taken as spread evenly between its ends, for the likeliest setting.');
  const { thread, diameter } = limits;
  return {
    preloadN,
    nutFactor: limits.nutFactor,
    diameterMm:
      thread === undefined
        ? (r.optional(diameter, (typed) => r.extentMm(`${at}.diameter`, typed)) ?? 1)
        : r.refusals.attempt(`${at}.thread`, thread, 1, () => readThread(thread).majorMm),
    seed: limits.seed ?? seedTaken,
    samples: limits.samples ?? samplesTaken,
  };
}

function checkSpread(r: Reading, at: string, spread: PreloadLimits['nutFactor']): void {
  if (spread.form === 'uniform' && spread.min > spread.max)
    r.refusals.add(`${at}.min`, { code: 'contradiction', value: spread.min, message: `is above max, ${spread.max}` });
  if (spread.form === 'normal' && spread.standardDeviation * deviationsAboveZero > spread.mean)
    r.refusals.add(`${at}.standardDeviation`, {
      code: 'out-of-range',
      value: spread.standardDeviation,
      message: `must be at most the mean ÷ ${deviationsAboveZero}, ${spread.mean / deviationsAboveZero}: a nut factor is above 0; take a lognormal spread`,
    });
}

function readTurning(r: Reading, typed: ToolSettingInput['turning'], assumptions: string[]): Turning | null {
  if (typed === undefined) return null;
  const { thread, pitch, swingDeg, starts } = typed;
  const at = 'turning';
  if ((thread === undefined) === (pitch === undefined))
    r.refusals.add(at, oneOf('thread', 'pitch', thread !== undefined));
  if (thread !== undefined && starts !== undefined && starts > 1)
    r.refusals.add(`${at}.starts`, {
      code: 'contradiction',
      value: starts,
      message: 'a designated fastener thread has one start: give the pitch of a screw with several',
    });
  if (pitch !== undefined && starts === undefined) assumptions.push('starts is absent: a screw of one start is taken.');
  if (typed.secondsPerTurn !== undefined && typed.secondsPerStroke !== undefined)
    r.refusals.add(`${at}.secondsPerStroke`, {
      code: 'contradiction',
      value: typed.secondsPerStroke,
      message: 'secondsPerTurn or secondsPerStroke, not both',
    });
  if (typed.secondsPerStroke !== undefined && swingDeg === undefined)
    r.refusals.add(`${at}.swingDeg`, { code: 'missing-field', message: 'is missing: strokes are those of a swing' });
  return {
    lengthMm: r.lengthMm(`${at}.length`, typed.length),
    leadMm:
      thread === undefined
        ? leadOfStarts({
            pitchMm: r.optional(pitch, (text) => r.extentMm(`${at}.pitch`, text)) ?? 1,
            starts: starts ?? 1,
          })
        : r.refusals.attempt(`${at}.thread`, thread, 1, () => leadMm(thread)),
    swing: swingDeg === undefined ? null : { swingDeg, stepDeg: stepDeg(r, at, typed, swingDeg) },
    secondsPerTurn: typed.secondsPerTurn ?? null,
    secondsPerStroke: typed.secondsPerStroke ?? null,
  };
}

/** The ratchet's own step, or the reset angle of the opening; a swing smaller than one step turns nothing. */
function stepDeg(r: Reading, at: string, typed: NonNullable<ToolSettingInput['turning']>, swingDeg: number): number {
  const step = typed.stepDeg ?? (typed.opening === undefined ? null : resetAngleDeg(typed.opening));
  if (step === null) {
    r.refusals.add(`${at}.stepDeg`, {
      code: 'missing-field',
      message: 'is missing: a swing takes the step of a ratchet, or the opening of a socket without one',
    });
    return swingDeg;
  }
  if (!atMost(step, swingDeg))
    r.refusals.add(`${at}.swingDeg`, {
      code: 'out-of-range',
      value: swingDeg,
      message: `is smaller than one step of ${step}°: the tool cannot turn there`,
    });
  return step;
}

function oneOf(one: string, other: string, both: boolean) {
  return both
    ? ({ code: 'contradiction', message: `${one} or ${other}, not both` } as const)
    : ({ code: 'missing-field', message: `${one} or ${other} is missing` } as const);
}

function above0(value: number): number {
  if (value > 0) return value;
  throw new RefusedError({ code: 'out-of-range', message: 'must be more than 0' });
}

function notNegative(value: number): number {
  if (value >= 0) return value;
  throw new RefusedError({ code: 'out-of-range', message: 'must be 0 or more' });
}
