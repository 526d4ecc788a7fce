import { settingFrom } from '../../../engine/setting/readSetting.ts';
import { toolSetting } from '../../../engine/setting/toolSetting.ts';
import { readThread } from '../../../engine/thread/index.ts';
import { convertValue, readQuantity, showNumber } from '../../../engine/units/index.ts';
import type { BenchSheet, Typed } from '../benchSheet.ts';
import { numberIn, shareIn, tableSource, textIn } from '../shown.ts';
import {
  appliedFacts,
  bandOf,
  calloutFields,
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

const draws = 20_000;
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
  answer(typed, units) {
    const thread = textIn(typed, 'thread') ?? '';
    const error = typed['error'] ?? 'uniform';
    const result = toolSetting(
      settingFrom({
        ...settingInput(typed),
        distribution: error === 'normal' ? { form: error, coverage: 0.95 } : { form: error },
        preloadLimits: {
          thread,
          min: textIn(typed, 'preloadMin') ?? '',
          max: textIn(typed, 'preloadMax') ?? '',
          nutFactor: nutFactorOf(typed),
          seed,
          samples: draws,
        },
      }),
    );
    const { preload } = result;
    const likeliest = preload?.likeliest ?? null;
    const K = numberIn(typed, 'kMean') ?? numberIn(typed, 'k') ?? middle(typed);
    const { majorMm } = readThread(thread);
    const applied =
      likeliest === null ? null : readQuantity(`${likeliest.setting.value} ${likeliest.setting.unit}`, 'torque');
    const nm = applied === null ? 0 : convertValue(applied.value, applied.unit, 'N·m');
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
        ...(preload?.atSetting == null
          ? []
          : [
              {
                name: 'Chance at that setting',
                value: `${percent(preload.atSetting.low)} to ${percent(preload.atSetting.high)}`,
              },
            ]),
        ...appliedFacts(typed, result, units),
      ],
      formulas: [
        {
          formula: '*F* = {*S* (1 + *a e*)|*K D*}',
          put: `*F* = {${showNumber(nm)} N·m|${showNumber(K)} · ${showNumber(majorMm)} mm} = ${showNumber((1000 * nm) / (K * majorMm))} N in the middle`,
          note: `The setting that most of ${draws} drawn pairs of K and e put between the limits; its chance is then estimated on ${draws} fresh draws.`,
        },
      ],
      tables: [],
      figures: [{ is: 'band', band: bandOf(typed, result, units) }],
      queries: reasonsOf(result),
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

function middle(typed: Typed): number {
  return ((numberIn(typed, 'kMin') ?? 0) + (numberIn(typed, 'kMax') ?? 0)) / 2;
}
