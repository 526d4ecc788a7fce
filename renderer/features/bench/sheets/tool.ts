import type { ToolSettingResult } from '../../../../shared-types/toolSetting.ts';
import type { BandInput } from '../../../components/BandFigure/bandLayout.ts';
import {
  convertValue,
  quantityIn,
  readQuantity,
  roundNominal,
  showNumber,
  showQuantity,
} from '../../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../../engine/units/index.ts';
import type { BenchField, BenchSource, Typed } from '../benchSheet.ts';
import { given, numberIn, shareIn, shownIn, spanIn, tableSource, textIn, torqueUnitOf } from '../shown.ts';

/** Fields of a callout's band. */
export const calloutFields: readonly BenchField[] = [
  { key: 'calloutMin', label: 'Callout, least', is: 'quantity', of: 'torque', half: true },
  { key: 'calloutMax', label: 'Callout, most', is: 'quantity', of: 'torque', half: true },
];

/** Fields of a torque tool; "Take a tool from the catalog" fills them. */
export const toolFields: readonly BenchField[] = [
  { key: 'toolMin', label: 'Tool, least', is: 'quantity', of: 'torque', half: true },
  { key: 'toolMax', label: 'Tool, most', is: 'quantity', of: 'torque', half: true },
  {
    key: 'increment',
    label: 'Steps of setting',
    is: 'quantity',
    of: 'torque',
    half: true,
    when: (typed) => textIn(typed, 'settings') === undefined,
  },
  { key: 'accuracy', label: 'Accuracy of reading (%)', is: 'number', half: true },
  {
    key: 'settings',
    label: 'Or the settings it has, each with its unit',
    is: 'lines',
    optional: true,
    when: (typed) => textIn(typed, 'increment') === undefined || textIn(typed, 'settings') !== undefined,
  },
];

/** Engine's paths of the fields above. */
export const toolPaths: Readonly<Record<string, string>> = {
  'callout.min': 'calloutMin',
  'callout.max': 'calloutMax',
  'running.min': 'runningMin',
  'running.max': 'runningMax',
  running: 'runningMax',
  'tool.min': 'toolMin',
  'tool.max': 'toolMax',
  'tool.unit': 'toolMax',
  'tool.increment': 'increment',
  'tool.settings': 'settings',
  'tool.accuracyOfReading': 'accuracy',
  tool: 'increment',
  'tool.lever': 'lever',
  offsetHead: 'offset',
  'offsetHead.length': 'offset',
  'offsetHead.angleDeg': 'angle',
};

/** The engine's question for a callout and a tool. */
export function settingInput(typed: Typed): Record<string, unknown> {
  const settings = (typed['settings'] ?? '')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  return {
    callout: { min: textIn(typed, 'calloutMin') ?? '', max: textIn(typed, 'calloutMax') ?? '' },
    tool: given({
      min: textIn(typed, 'toolMin') ?? '',
      max: textIn(typed, 'toolMax') ?? '',
      unit: torqueUnitOf(typed['toolMax']),
      increment: settings.length > 0 ? undefined : textIn(typed, 'increment'),
      settings: settings.length > 0 ? settings : undefined,
      accuracyOfReading: shareIn(typed, 'accuracy'),
      lever: textIn(typed, 'lever'),
      kind: textIn(typed, 'lever') === undefined ? undefined : 'wrench',
    }),
  };
}

/** The least share of its range at which a tool may be used, where one is typed. */
export function rangeShare(typed: Typed): number | undefined {
  const percent = numberIn(typed, 'rangeShare');
  return percent === undefined ? undefined : percent / 100;
}

/** Callout and applied band on one axis. */
export function bandOf(typed: Typed, result: ToolSettingResult, units: UnitsShown): BandInput {
  const unit = torqueUnitOf(typed['calloutMin']);
  const nm = (key: string): number => quantityIn(textIn(typed, key) ?? '', 'torque', 'N·m');
  const { appliedNm, setting } = result;
  return {
    callout: { minNm: nm('calloutMin'), maxNm: nm('calloutMax') },
    applied: appliedNm === null ? null : { minNm: appliedNm.min, maxNm: appliedNm.max },
    // With an offset head the value set is no torque at the fastener, and has no place on its axis.
    setting: result.correction === 1 ? setting : null,
    running: null,
    runningIncluded: true,
    unit,
    units,
  };
}

/** A setting on the tool's own scale, the other unit beside it. */
export function settingText(setting: ToolSettingResult['setting'], units: UnitsShown, typed: Typed): string {
  if (setting === null) return 'no setting';
  const { unit } = readQuantity(`${setting.value} ${setting.unit}`, 'torque');
  // As many places as the scale's own steps have: 29.0 on a scale of halves.
  const places = /\.(\d+)/.exec(textIn(typed, 'increment') ?? '')?.[1]?.length ?? 0;
  const marked = roundNominal(setting.value, places);
  const text = Number(marked) === setting.value ? marked : showNumber(setting.value, 6);
  return showQuantity(`${text} ${unit}`, units === 'as-written' ? 'as-written' : 'both');
}

/** Why it does not conform, in the engine's words and the callout's units; that it does, the mark says. */
export function reasonsOf({ decision, reason }: ToolSettingResult, unit: Unit, units: UnitsShown): string[] {
  if (decision === 'conforming') return [];
  const spans = reason.replaceAll(/([\d.]+) to ([\d.]+) N·m/g, (_whole, min: string, max: string) =>
    spanIn({ min: Number(min), max: Number(max) }, 'N·m', unit, units),
  );
  return [
    spans.replaceAll(/\bby ([\d.]+) N·m/g, (_whole, nm: string) => `by ${shownIn(Number(nm), 'N·m', unit, units)}`),
  ];
}

/** Facts of the torque then applied. */
export function appliedFacts(
  typed: Typed,
  result: ToolSettingResult,
  units: UnitsShown,
): { name: string; value: string }[] {
  const unit = torqueUnitOf(typed['calloutMin']);
  const { appliedNm, marginNm, rangeShare: share } = result;
  const nm = (value: number): string => shownIn(value, 'N·m', unit, units);
  return [
    ...(appliedNm === null
      ? []
      : [
          { name: 'At the fastener', value: nm(appliedNm.nominal) },
          { name: 'Over the tool’s deviation', value: spanIn(appliedNm, 'N·m', unit, units) },
        ]),
    ...(marginNm === null
      ? []
      : [
          marginNm >= 0
            ? { name: 'Margin to the nearer limit', value: nm(marginNm) }
            : { name: 'Outside the callout by', value: nm(-marginNm) },
        ]),
    ...(share === null ? [] : [{ name: 'Share of the tool’s range', value: `${showNumber(share * 100, 3)} %` }]),
  ];
}

export const settingRounding =
  'Set: at a mark of the scale, never between two. Others half to even, four figures; limits inward.';

/** Rules of the answer, each with the table that holds its document, where one does. */
export function settingSources(result: ToolSettingResult): BenchSource[] {
  return [
    ...result.sources.map(({ about, document, obtained }) => ({
      text: `${document}: ${about} (${obtained})`,
      table: null,
    })),
    tableSource('torque-tools-iso-6789'),
  ];
}

/** A torque in the unit that was written. */
export function inUnit(nm: number, unit: Unit): string {
  return showNumber(convertValue(nm, 'N·m', unit));
}
