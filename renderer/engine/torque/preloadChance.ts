import type { Setting } from '../../../shared-types/bag.ts';
import { drawsOf, type Draws } from '../chance/draws.ts';
import { wilsonInterval } from '../chance/wilson.ts';
import { RefusedError } from '../errors.ts';
import type { BandNm, ScaleTorque } from '../plan/resolved.ts';
import { limitTolerance } from '../tolerance.ts';
import { possibleSettings, type TorqueScale } from './scale.ts';
import { errorDraw, type ToolError } from './toolError.ts';

/** How nut factors are spread from joint to joint. Mean and deviation are those of K itself, for `lognormal` too. */
export type NutFactorSpread =
  | { form: 'exact'; value: number }
  | { form: 'uniform'; min: number; max: number }
  | { form: 'normal' | 'lognormal'; mean: number; standardDeviation: number };

export interface PreloadTask {
  scale: TorqueScale;
  rangeShareMin: number;
  correction: number;
  error: ToolError;
  nutFactor: NutFactorSpread;
  diameterMm: number;
  preloadN: { min: number; max: number };
  /** Drawn evenly between its ends; null: none. */
  running: BandNm | null;
  seed: number;
  samples: number;
}

export interface PreloadChance {
  setting: Setting;
  probability: number;
  interval: { low: number; high: number; confidence: number; method: string };
}

const confidence = 0.95;
const method = 'Monte Carlo of the setting on fresh draws, Wilson score interval';

/**
 * The setting that most likely gives a preload within its limits.
 *
 *   F = (applied − R)/(K·D), applied = (S·(1 + a·e) + b·Smax·e)/c;  S that maximises P(Fmin ≤ F ≤ Fmax)
 *
 * Each draw of K, e and R says between which settings the preload lies within its limits; the setting that most draws agree on
 * is chosen. Its probability is then estimated on draws of its own, so that having been chosen does not flatter it.
 *
 * @param x.scale - a or b: accuracy of reading or of full scale; Smax [N·m]
 * @param x.rangeShareMin - least share of the tool's maximum a setting may be, 0 to 1
 * @param x.correction - c, ratio set ÷ applied, > 0
 * @param x.error - spread of e over the permissible deviation, −1 to 1 its ends
 * @param x.nutFactor - spread of K, above 0
 * @param x.diameterMm - D [mm], > 0
 * @param x.preloadN - Fmin, Fmax [N], 0 ≤ Fmin ≤ Fmax
 * @param x.running - R [N·m], no part of the seating torque
 * @param x.seed - number the draws begin from, a count without meaning; the same seed gives the same answer
 * @param x.samples - number of draws, once to choose and once to estimate, > 0
 * @param also - settings [N·m] to be judged on the same draws
 * @returns the best setting and its probability with its interval; null where no setting ever gives such a preload. Ties: the lower.
 *   For each of `also` its probability
 * @throws RefusedError out-of-range where the scale has more settings than are looked at
 * @source T = K·D·F; Monte Carlo after JCGM 101 (from memory)
 * @validity K, tool and running torque independent of each other
 * @example K exactly 0.2, D 10 mm, 9.5 to 10.5 kN, an exact tool with marks every 1 N·m: 19 N·m of the three that serve, probability 1
 */
export function likeliestSetting(
  x: PreloadTask,
  also: readonly number[] = [],
): { best: PreloadChance | null; also: PreloadChance['interval'][] } {
  const settings = possibleSettings(x.scale, x.rangeShareMin);
  const window = windowDraw(x, drawsOf(x.seed));
  const chosen = mostCovered(settings, window, x.samples);
  const judged = chosen === null ? [...also] : [chosen.nm, ...also];
  const hits = judged.map(() => 0);
  for (let n = 0; n < x.samples; n += 1) {
    const { low, high } = window();
    for (const [index, nm] of judged.entries()) if (nm >= low && nm <= high) hits[index] = (hits[index] ?? 0) + 1;
  }
  const intervals = hits.map((count) => ({
    ...wilsonInterval({ hits: count, trials: x.samples, confidence }),
    confidence,
    method,
  }));
  const [interval] = intervals;
  if (chosen === null || interval === undefined) return { best: null, also: intervals };
  const best = {
    setting: { value: chosen.value, unit: chosen.unit },
    probability: (hits[0] ?? 0) / x.samples,
    interval,
  };
  return { best, also: intervals.slice(1) };
}

/** The lowest of the settings that lie in most windows. */
function mostCovered(settings: ScaleTorque[], window: () => Window, samples: number): ScaleTorque | null {
  const changes = new Int32Array(settings.length + 1);
  for (let n = 0; n < samples; n += 1) {
    const { low, high } = window();
    const from = firstWhere(settings, (nm) => nm >= low);
    const to = firstWhere(settings, (nm) => nm > high);
    if (from >= to) continue;
    changes[from] = (changes[from] ?? 0) + 1;
    changes[to] = (changes[to] ?? 0) - 1;
  }
  let covered = 0;
  let most = 0;
  let best: ScaleTorque | null = null;
  for (const [index, setting] of settings.entries()) {
    covered += changes[index] ?? 0;
    if (covered <= most) continue;
    most = covered;
    best = setting;
  }
  return best;
}

function firstWhere(settings: ScaleTorque[], holds: (nm: number) => boolean): number {
  let low = 0;
  let high = settings.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(settings[middle]?.nm ?? Number.POSITIVE_INFINITY)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Values that may be set [N·m] for the preload of one joint to lie within its limits. */
interface Window {
  low: number;
  high: number;
}

const noWindow: Window = { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY };

/** One joint, tool stroke and running torque drawn, solved for the setting. */
function windowDraw(x: PreloadTask, draws: Draws): () => Window {
  const { accuracyOfReading: a, accuracyOfFullScale: b = 0, maxNm } = x.scale;
  const nutFactor = nutFactorDraw(x.nutFactor, draws);
  const error = errorDraw(x.error, draws);
  const { running } = x;
  return () => {
    const K = nutFactor();
    const e = error();
    const R = running === null ? 0 : running.minNm + draws.uniform() * (running.maxNm - running.minNm);
    const gain = 1 + a * e;
    if (gain <= 0 || K <= 0) return noWindow;
    const setFor = (preloadN: number): number =>
      (x.correction * ((K * x.diameterMm * preloadN) / 1000 + R) - b * maxNm * e) / gain;
    return {
      low: setFor(x.preloadN.min) * (1 - limitTolerance),
      high: setFor(x.preloadN.max) * (1 + limitTolerance),
    };
  };
}

function nutFactorDraw(spread: NutFactorSpread, draws: Draws): () => number {
  switch (spread.form) {
    case 'exact':
      return () => spread.value;
    case 'uniform':
      return () => spread.min + draws.uniform() * (spread.max - spread.min);
    case 'normal':
      return () => spread.mean + draws.normal() * spread.standardDeviation;
    case 'lognormal': {
      const variance = Math.log1p((spread.standardDeviation / spread.mean) ** 2);
      const middle = Math.log(spread.mean) - variance / 2;
      return () => Math.exp(middle + draws.normal() * Math.sqrt(variance));
    }
    default:
      throw new RefusedError({ code: 'internal', message: 'A spread of nut factors has an unknown form.' });
  }
}
