import type { Chance, FinishingChance } from '../../../shared-types/outing.ts';
import { drawsOf } from '../chance/draws.ts';
import { triangularMoments, triangularQuantile } from '../chance/triangular.ts';
import { wilsonInterval } from '../chance/wilson.ts';
import type { ResolvedOuting, ResolvedPlan, ResolvedSpread, ResolvedStep } from '../plan/resolved.ts';
import { limitTolerance } from '../tolerance.ts';
import { showNumber } from '../units/index.ts';

const confidence = 0.95;
const method = 'Monte Carlo of triangular step times, Wilson score interval';

/** Enough that the interval is narrower than a hundredth either way. */
export const samplesUsual = 20_000;
/** Any number does; always the same one, so that the same plan gives the same answer. */
export const seedUsual = 1;

/**
 * The chance of finishing an outing within its minutes.
 *
 *   T = Σ t(step) over steps in no slot + Σ over slots max over roles Σ t(step);  P(T ≤ limit), P(T + way home ≤ limit)
 *
 * Each step's time is drawn from the triangular distribution of its stated least, likely and most minutes, independent of
 * the others; a step without them takes its minutes as they stand.
 *
 * @param outing - with minutesMax [min]
 * @param x.seed - number the draws begin from, a count without meaning
 * @param x.samples - number of drawn outings, whole, > 0
 * @returns both shares with their intervals, mean and deciles of T [min]; null where the outing has no limit or no step of
 *   its own course has a spread
 * @throws nothing for a plan that was read
 * @source Monte Carlo after JCGM 101 (from memory); triangular distribution of three points: textbook, from memory; Wilson's
 *   score interval (from memory); held against closed forms in tests/engine/outing/finishing.test.ts
 * @validity independent times; contingency steps never come up
 * @example one step of 0, 3, 6 min and a limit of 3 min: about 0.5
 */
export function finishingChance(
  plan: ResolvedPlan,
  outing: ResolvedOuting,
  x: { seed: number; samples: number },
): FinishingChance | null {
  const { minutesMax, turnBackMin } = outing;
  const steps = plan.steps.filter((step) => step.outing === outing.id && !step.contingency);
  if (minutesMax === null || steps.every(({ spread }) => spread === null)) return null;
  const draw = minutesDraw(steps, x.seed);
  const minutes = Float64Array.from({ length: x.samples }, draw);
  const limit = minutesMax * (1 + limitTolerance);
  return {
    finish: share(minutes, limit),
    home: turnBackMin === null ? null : share(minutes, limit - turnBackMin),
    minutes: { mean: minutes.reduce((sum, t) => sum + t, 0) / x.samples, ...deciles(minutes) },
    seed: x.seed,
    samples: x.samples,
    assumptions: assumptionsOf(plan, outing, steps),
  };
}

function share(minutes: Float64Array, limit: number): Chance {
  const hits = minutes.reduce((count, t) => count + (t <= limit ? 1 : 0), 0);
  const interval = wilsonInterval({ hits, trials: minutes.length, confidence });
  return { probability: hits / minutes.length, interval: { ...interval, confidence, method } };
}

function deciles(minutes: Float64Array): { p10: number; p50: number; p90: number } {
  const sorted = minutes.toSorted();
  const at = (p: number): number => sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))] ?? Number.NaN;
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}

/** One drawn outing: each role's steps of a slot add up, the slot lasts as long as its longest role. */
function minutesDraw(steps: readonly ResolvedStep[], seed: number): () => number {
  const { uniform } = drawsOf(seed);
  const slots = [...new Set(steps.flatMap(({ slot }) => slot ?? []))].map((slot) => {
    const inSlot = steps.filter((step) => step.slot === slot);
    return [...new Set(inSlot.map(({ role }) => role))].map((role) => inSlot.filter((step) => step.role === role));
  });
  const alone = steps.filter(({ slot }) => slot === null);
  const time = ({ spread, minutes }: ResolvedStep): number =>
    spread === null ? minutes : triangularQuantile(triangleOf(spread), uniform());
  const sum = (list: readonly ResolvedStep[]): number => list.reduce((total, step) => total + time(step), 0);
  return () => slots.reduce((total, roles) => total + Math.max(...roles.map(sum)), sum(alone));
}

const triangleOf = ({ leastMin, likelyMin, mostMin }: ResolvedSpread) => ({
  least: leastMin,
  likely: likelyMin,
  most: mostMin,
});

function assumptionsOf(plan: ResolvedPlan, outing: ResolvedOuting, steps: readonly ResolvedStep[]): string[] {
  const fixed = steps.filter(({ spread }) => spread === null).map(({ id }) => id);
  const aside = plan.steps.filter((step) => step.outing === outing.id && step.contingency).map(({ id }) => id);
  const spreads = steps.flatMap(({ spread }) => spread ?? []).map((spread) => triangularMoments(triangleOf(spread)));
  const meanMin = spreads.reduce((sum, { mean }) => sum + mean, 0);
  return [
    `Step times are triangular between the least, likely and most minutes that the plan states, each independent of the others; those of all roles add up to ${showNumber(meanMin)} min on average.`,
    ...(fixed.length === 0 ? [] : [`Without a spread, taken as exact: ${fixed.join(', ')}.`]),
    ...(aside.length === 0 ? [] : [`Steps for when something fails do not come up: ${aside.join(', ')}.`]),
  ];
}
