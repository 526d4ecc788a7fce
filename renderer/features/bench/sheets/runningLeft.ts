import { wrenchTorqueByDocument } from '../../../engine/locking/index.ts';
import { inField } from '../../../engine/errors.ts';
import { settingFrom } from '../../../engine/setting/readSetting.ts';
import { toolSetting } from '../../../engine/setting/toolSetting.ts';
import { quantityIn } from '../../../engine/units/index.ts';
import type { UnitsShown } from '../../../engine/units/index.ts';
import type { BenchFigure, BenchFormula, BenchSheet, BenchTable, Typed } from '../benchSheet.ts';
import { limitShown, shareIn, shownIn, sourceOf, spanIn, textIn, torqueUnitOf } from '../shown.ts';
import {
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

export const runningLeftSheet: BenchSheet = {
  id: 'running-left',
  name: 'Running torque left out or added',
  fields: [
    ...calloutFields,
    ...toolFields,
    { key: 'running', label: 'Running torque measured', is: 'quantity', of: 'torque', optional: true },
  ],
  first: {
    calloutMin: '30 lbf·ft',
    calloutMax: '35 lbf·ft',
    toolMin: '15 lbf·ft',
    toolMax: '75 lbf·ft',
    increment: '0.5 lbf·ft',
    accuracy: '4',
    running: '18 lbf·in',
  },
  paths: { ...toolPaths, running: 'running' },
  answer(typed, units) {
    const result = toolSetting(settingFrom(settingInput(typed)));
    const unit = torqueUnitOf(typed['calloutMin']);
    const at = result.runningLimits?.atSetting ?? null;
    const best = result.runningLimits?.atBest ?? null;
    const nm = (value: number): string =>
      value < 0 ? 'none: the setting does not conform without any' : limitShown(value, 'maximum', 'N·m', unit, units);
    const runningNm = runningIn(typed);
    const figures: BenchFigure[] = [{ is: 'band', band: bandOf(typed, result, units) }];
    return {
      lead: at === null ? 'No setting:' : 'Added blindly, it conforms up to a running torque of',
      value: at === null ? 'none' : nm(at.addedNm),
      ...(runningNm === null || at === null
        ? {}
        : {
            state:
              runningNm <= at.addedNm * (1 + 1e-9)
                ? { mark: 'conforming', text: 'Conforming if added' }
                : {
                    mark: 'nonconforming-over',
                    text: `Over by ${shownIn(runningNm - at.addedNm, 'N·m', unit, units)} if added`,
                  },
          }),
      facts: [
        { name: 'Setting without running torque', value: settingText(result.setting, units, typed) },
        ...(at === null
          ? []
          : [
              { name: 'Left out, conforms up to', value: nm(at.ignoredNm) },
              { name: 'Added, conforms up to', value: nm(at.addedNm) },
            ]),
        ...(best === null
          ? []
          : [
              { name: 'Left out, at the best setting there is', value: nm(best.ignoredNm) },
              { name: 'Added, at the best setting there is', value: nm(best.addedNm) },
            ]),
      ],
      formulas: at === null || result.appliedNm === null ? [] : formulasOf(typed, result.appliedNm.nominal, at),
      tables: runningNm === null ? [] : [byDocument(typed, runningNm, units)],
      figures,
      queries: [
        ...reasonsOf(result, unit, units),
        ...(runningNm !== null && at !== null && runningNm > at.ignoredNm * (1 + 1e-9)
          ? [
              `Left out, ${shownIn(runningNm, 'N·m', unit, units)} is ${shownIn(runningNm - Math.max(0, at.ignoredNm), 'N·m', unit, units)} more than the setting allows for.`,
            ]
          : []),
      ],
      valid:
        'wrench torque = seating + running. Left out: the callout is for seating and running is not added. Added: the callout is the total and running is added all the same.',
      assumed: ['The running torque is one value, not a range.', ...result.assumptions],
      sources: settingSources(result),
      rounding: settingRounding,
    };
  },
};

function runningIn(typed: Typed): number | null {
  const text = textIn(typed, 'running');
  return text === undefined ? null : inField('running', () => quantityIn(text, 'torque', 'N·m'));
}

function formulasOf(typed: Typed, appliedNm: number, at: { ignoredNm: number; addedNm: number }): BenchFormula[] {
  const unit = torqueUnitOf(typed['calloutMin']);
  const A = inUnit(appliedNm, unit);
  const a = shareIn(typed, 'accuracy') ?? 0;
  const end = (key: string): string => inUnit(quantityIn(textIn(typed, key) ?? '', 'torque', 'N·m'), unit);
  return [
    {
      formula: 'added: *R* ≤ {*M*|1 + *a*} − *A*',
      put: `*R* ≤ {${end('calloutMax')}|1 + ${a}} − ${A} = ${limitShown(at.addedNm, 'maximum', 'N·m', unit, 'as-written')}`,
    },
    {
      formula: 'left out: *R* ≤ *A* (1 − *a*) − *m*',
      put: `*R* ≤ ${A} (1 − ${a}) − ${end('calloutMin')} = ${at.ignoredNm < 0 ? `${inUnit(at.ignoredNm, unit)} ${unit}` : limitShown(at.ignoredNm, 'maximum', 'N·m', unit, 'as-written')}`,
      note: 'A is the nominal torque at the fastener, m and M the ends of the callout, a the accuracy of reading.',
    },
  ];
}

/** Documents differ on running torque: what each makes of the callout, side by side. */
function byDocument(typed: Typed, runningNm: number, units: UnitsShown): BenchTable {
  const unit = torqueUnitOf(typed['calloutMin']);
  const band = (span: { min: number; max: number }): string => spanIn(span, 'N·m', unit, units);
  const end = (key: string): number => quantityIn(textIn(typed, key) ?? '', 'torque', 'N·m');
  const found = wrenchTorqueByDocument({
    tighteningNm: { min: end('calloutMin'), max: end('calloutMax') },
    runningNm,
  });
  return {
    caption: 'What each document makes of the running torque, the callout being for seating',
    heads: ['Document', 'Running torque is', 'On the wrench'],
    rows: found.map(({ document, running, wrenchNm, addedNm, notAddedNm, source }) => [
      { text: document, source: sourceOf(source) },
      running === 'undecided' ? 'undecided at this band' : running,
      wrenchNm === null ? `${band(notAddedNm)}, or ${band(addedNm)}` : band(wrenchNm),
    ]),
  };
}
