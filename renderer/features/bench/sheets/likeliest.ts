import { settingFrom } from '../../../engine/setting/readSetting.ts';
import { toolSetting } from '../../../engine/setting/toolSetting.ts';
import { RefusedError } from '../../../engine/errors.ts';
import { likeliestSetting } from '../../../engine/torque/preloadChance.ts';
import { possibleSettings } from '../../../engine/torque/scale.ts';
import { quantityIn, showNumber } from '../../../engine/units/index.ts';
import type { Unit } from '../../../engine/units/index.ts';
import { axisUnit } from '../../../components/plot/axis.ts';
import type { CurvePoint } from '../../../components/plot/CurvePlot.tsx';
import type { LikeliestAsked } from '../../../workers/likeliest.ts';
import type { BenchFigure, BenchSheet, Typed } from '../benchSheet.ts';
import { numberIn, otherTorqueUnit, shareIn, tableSource, textIn, torqueUnitOf, unitsShown } from '../shown.ts';
import {
  appliedFacts,
  bandOf,
  calloutFields,
  inUnit,
  reasonsOf,
  settingInput,
  settingRounding,
  settingSources,
  settingText,
  toolFields,
  toolPaths,
} from './tool.ts';

const spreads = [
  { value: 'uniform', label: 'anywhere between two' },
  { value: 'normal', label: 'normal: mean and deviation' },
  { value: 'lognormal', label: 'lognormal: mean and deviation' },
  { value: 'exact', label: 'exactly one value' },
] as const;

const errors = [
  { value: 'uniform', label: 'evenly over its deviation' },
  { value: 'normal', label: 'normal, 95 % within it' },
  { value: 'exact', label: 'not at all' },
] as const;

const draws = 10_000;
const seed = 1;
const percent = (share: number): string => `${showNumber(share * 100, 5)} %`;

function nutFactorOf(typed: Typed): Record<string, unknown> {
  const form = typed['spread'] ?? 'uniform';
  if (form === 'exact') return { form, value: numberIn(typed, 'k') };
  if (form === 'uniform') return { form, min: numberIn(typed, 'kMin'), max: numberIn(typed, 'kMax') };
  return { form, mean: numberIn(typed, 'kMean'), standardDeviation: numberIn(typed, 'kDeviation') };
}

const of = (form: string) => (typed: Typed) => (typed['spread'] ?? 'uniform') === form;
const bySpread = (typed: Typed): boolean => typed['spread'] === 'normal' || typed['spread'] === 'lognormal';

export const likeliestSheet: BenchSheet = {
  id: 'likeliest',
  name: 'Likeliest setting for a preload',
  fields: [
    { key: 'thread', label: 'Thread', is: 'text' },
    { key: 'preloadMin', label: 'Preload, least', is: 'quantity', of: 'force', half: true },
    { key: 'preloadMax', label: 'Preload, most', is: 'quantity', of: 'force', half: true },
    { key: 'spread', label: 'Nut factor K lies', is: 'choice', choices: spreads },
    { key: 'kMin', label: 'K, least', is: 'number', half: true, when: of('uniform') },
    { key: 'kMax', label: 'K, most', is: 'number', half: true, when: of('uniform') },
    { key: 'kMean', label: 'K, mean', is: 'number', half: true, when: bySpread },
    { key: 'kDeviation', label: 'K, standard deviation', is: 'number', half: true, when: bySpread },
    { key: 'k', label: 'K', is: 'number', when: of('exact') },
    ...calloutFields,
    ...toolFields,
    { key: 'error', label: 'The tool’s torque spreads', is: 'choice', choices: errors },
  ],
  first: {
    thread: '3/8-24',
    preloadMin: '3500 lbf',
    preloadMax: '6500 lbf',
    spread: 'uniform',
    kMin: '0.16',
    kMax: '0.24',
    calloutMin: '28 lbf·ft',
    calloutMax: '36 lbf·ft',
    toolMin: '15 lbf·ft',
    toolMax: '75 lbf·ft',
    increment: '0.5 lbf·ft',
    accuracy: '4',
    error: 'uniform',
  },
  paths: {
    ...toolPaths,
    'preloadLimits.min': 'preloadMin',
    'preloadLimits.max': 'preloadMax',
    'preloadLimits.thread': 'thread',
    'preloadLimits.nutFactor.value': 'k',
    'preloadLimits.nutFactor.min': 'kMin',
    'preloadLimits.nutFactor.max': 'kMax',
    'preloadLimits.nutFactor.mean': 'kMean',
    'preloadLimits.nutFactor.standardDeviation': 'kDeviation',
    'preloadLimits.nutFactor': 'spread',
    preloadLimits: 'preloadMin',
    distribution: 'error',
  },
  draws: (typed) => drawingOf(typed).asked,
  answer(typed, units, drawn) {
    const { asked, preload, result, rule } = drawingOf(typed);
    const marks = asked.also;
    const { best: likeliest, also } = drawn ?? likeliestSetting(asked.task, marks);
    const ruleChance = rule === null ? undefined : also[marks.indexOf(rule)];
    const K = numberIn(typed, 'kMean') ?? numberIn(typed, 'k') ?? middle(typed);
    const nm = likeliest === null ? 0 : torqueNm(likeliest.setting);
    const unit = torqueUnitOf(typed['toolMax']);
    return {
      lead:
        likeliest === null ? 'No setting ever gives a preload within the limits:' : 'Most likely within the limits at',
      value: likeliest === null ? 'none' : settingText(likeliest.setting, units, typed),
      facts: [
        ...(likeliest === null
          ? []
          : [
              { name: 'Chance at this setting', value: percent(likeliest.probability) },
              {
                name: `${showNumber(likeliest.interval.confidence * 100)} % interval of it`,
                value: `${percent(likeliest.interval.low)} to ${percent(likeliest.interval.high)}`,
              },
            ]),
        { name: 'The interval rule sets for the callout', value: settingText(result.setting, units, typed) },
        ...(ruleChance === undefined
          ? []
          : [{ name: 'Chance at that setting', value: `${percent(ruleChance.low)} to ${percent(ruleChance.high)}` }]),
        ...appliedFacts(typed, result, units),
      ],
      formulas: [
        {
          formula: '*F* = {*S* (1 + *a e*)|*K D*}',
          put: `*F* = {${showNumber(nm)} N·m|${showNumber(K)} · ${showNumber(preload.diameterMm)} mm} = ${showNumber((1000 * nm) / (K * preload.diameterMm))} N in the middle`,
          note: `The setting that most of ${draws} drawn pairs of K and e put between the limits; its chance is then estimated on ${draws} fresh draws.`,
        },
      ],
      tables: [],
      figures: [
        ...(likeliest === null || marks.length < 2
          ? []
          : [
              chancePlot({
                points: marks.map((x, index) => ({ x, y: middleOf(also[index]) })).toSorted((a, b) => a.x - b.x),
                here: { nm, chance: likeliest.probability },
                shown: unitsShown(unit, otherTorqueUnit(unit, nm), units),
              }),
            ]),
        { is: 'band', band: bandOf(typed, result, units) },
      ],
      queries: reasonsOf(result, torqueUnitOf(typed['calloutMin']), units),
      valid: 'K, tool and running torque independent of each other; every mark of the scale in its range is looked at.',
      assumed: [
        `Seed ${seed}, ${draws} draws, twice; ${likeliest?.interval.method ?? 'Monte Carlo'}.`,
        `The spread of K and the tool’s spread over ± ${percent(shareIn(typed, 'accuracy') ?? 0)} are as typed.`,
      ],
      sources: [...settingSources(result), tableSource('nut-factors')],
      rounding: `${settingRounding} Chances: five figures.`,
    };
  },
};

/** What is asked, the interval rule's answer to it, and what is drawn for. */
function drawingOf(typed: Typed) {
  const task = settingFrom(questionOf(typed));
  const { preload, distribution, scale, rangeShareMin, correction } = task;
  if (preload === null || distribution === null)
    throw new RefusedError({ code: 'internal', message: 'No preload limits were asked for.' });
  const result = toolSetting({ ...task, preload: null });
  const rule = result.setting === null ? null : torqueNm(result.setting);
  const marks = someMarks(
    possibleSettings(scale, rangeShareMin).map((mark) => mark.nm),
    rule,
  );
  const asked: LikeliestAsked = {
    task: { ...preload, scale, rangeShareMin, correction, running: null, error: distribution },
    also: marks,
  };
  return { asked, preload, result, rule };
}

function questionOf(typed: Typed): Record<string, unknown> {
  const error = typed['error'] ?? 'uniform';
  return {
    ...settingInput(typed),
    distribution: error === 'normal' ? { form: error, coverage: 0.95 } : { form: error },
    preloadLimits: {
      thread: textIn(typed, 'thread') ?? '',
      min: textIn(typed, 'preloadMin') ?? '',
      max: textIn(typed, 'preloadMax') ?? '',
      nutFactor: nutFactorOf(typed),
      seed,
      samples: draws,
    },
  };
}

function torqueNm({ value, unit }: { value: number; unit: string }): number {
  return quantityIn(`${value} ${unit}`, 'torque', 'N·m');
}

/** So many settings are judged for the plot. */
const marksMost = 60;

/** Marks of the scale for the plot, evenly taken where there are many; the interval rule's own among them. */
function someMarks(all: readonly number[], rule: number | null): number[] {
  const every = Math.max(1, Math.ceil(all.length / marksMost));
  const taken = all.filter((_, index) => index % every === 0);
  return rule === null || taken.includes(rule) ? taken : [...taken, rule];
}

const middleOf = (interval: { low: number; high: number } | undefined): number =>
  interval === undefined ? 0 : (interval.low + interval.high) / 2;

/** Chance against setting, mark by mark. */
function chancePlot(x: {
  points: CurvePoint[];
  here: { nm: number; chance: number };
  shown: [Unit, ...Unit[]];
}): BenchFigure {
  const { points, here, shown } = x;
  const torques = points.map((point) => point.x);
  return {
    is: 'curve',
    plot: {
      x: {
        quantity: 'set',
        units: [axisUnit('N·m', shown[0]), ...shown.slice(1).map((one) => axisUnit('N·m', one))],
        from: Math.min(...torques),
        to: Math.max(...torques),
      },
      y: { quantity: 'chance', units: [{ unit: '%', per: 100 }], from: 0, to: 1.08 },
      points,
      limits: [],
      here: { x: here.nm, y: here.chance, text: `likeliest: ${inUnit(here.nm, shown[0])} ${shown[0]}` },
      title: 'Chance of a preload within its limits',
      source: `Monte Carlo of F = S (1 + a e)/(K D), ${draws} draws, seed ${seed}; middle of the Wilson score interval at each mark. JCGM 101 (from memory).`,
      assumed: ['K and the tool’s torque are spread as typed, independent of each other.'],
    },
  };
}

function middle(typed: Typed): number {
  return ((numberIn(typed, 'kMin') ?? 0) + (numberIn(typed, 'kMax') ?? 0)) / 2;
}
