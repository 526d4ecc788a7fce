import { settingFrom } from '../../../engine/setting/readSetting.ts';
import { toolSetting } from '../../../engine/setting/toolSetting.ts';
import { offsetCorrection } from '../../../engine/torque/offsetHead.ts';
import { inField, RefusedError } from '../../../engine/errors.ts';
import { quantityIn, readQuantity, showNumber } from '../../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../../engine/units/index.ts';
import { axisUnit } from '../../../components/plot/axis.ts';
import type { BenchFigure, BenchFormula, BenchSheet, Typed } from '../benchSheet.ts';
import { given, otherTorqueUnit, shownIn, textIn, torqueUnitOf, unitsShown } from '../shown.ts';
import {
  appliedFacts,
  bandOf,
  calloutFields,
  inUnit,
  rangeShare,
  reasonsOf,
  settingInput,
  settingRounding,
  settingSources,
  settingText,
  toolFields,
  toolPaths,
} from './tool.ts';

const hasHead = (typed: Typed): boolean => textIn(typed, 'offset') !== undefined;

interface Head {
  leverMm: number;
  headMm: number;
  angleDeg: number;
}

export const settingSheet: BenchSheet = {
  id: 'setting',
  name: 'Setting with an offset head',
  fields: [
    ...calloutFields,
    { key: 'lever', label: 'Lever L', is: 'quantity', of: 'length', half: true, optional: true },
    {
      key: 'offset',
      label: 'Head offset E',
      is: 'quantity',
      of: 'length',
      half: true,
      optional: true,
      hint: 'nothing: no offset head',
    },
    {
      key: 'angle',
      label: 'Angle θ of head to lever',
      is: 'quantity',
      of: 'angle',
      when: hasHead,
      hint: '0 is straight out, 90 changes nothing',
    },
    ...toolFields,
    { key: 'rangeShare', label: 'Least share of its range (%)', is: 'number', optional: true },
  ],
  first: {
    calloutMin: '30 lbf·ft',
    calloutMax: '35 lbf·ft',
    lever: '15.5 in',
    offset: '2 in',
    angle: '30 deg',
    toolMin: '15 lbf·ft',
    toolMax: '75 lbf·ft',
    increment: '0.5 lbf·ft',
    accuracy: '4',
  },
  paths: { ...toolPaths, rangeShareMin: 'rangeShare' },
  answer(typed, units) {
    const head = headIn(typed);
    const result = toolSetting(
      settingFrom({
        ...settingInput(typed),
        ...given({
          rangeShareMin: rangeShare(typed),
          offsetHead: head === null ? undefined : { length: textIn(typed, 'offset'), angleDeg: head.angleDeg },
        }),
      }),
    );
    const unit = torqueUnitOf(typed['calloutMin']);
    const aimNm = (result.aimNm.min + result.aimNm.max) / 2;
    const figures: BenchFigure[] = [
      ...(head === null ? [] : [{ is: 'offset-head' as const, ...head, unit: lengthUnit(typed) }]),
      { is: 'band', band: bandOf(typed, result, units) },
      ...(head === null ? [] : [curveOf(head, aimNm, unit, units)]),
    ];
    return {
      lead: result.setting === null ? 'The tool has' : 'Set the tool to',
      value: settingText(result.setting, units, typed),
      state: { mark: result.decision },
      facts: appliedFacts(typed, result, units),
      formulas: [
        ...(head === null ? [] : headFormulas(head, result, aimNm, unit)),
        appliedFormula(typed, result, unit),
      ],
      tables: [
        {
          caption: 'How much of the range to use',
          heads: ['Document', 'Says', 'This setting'],
          rows: result.useOfRange
            .filter(({ inside }) => inside !== null)
            .map(({ source, says, inside }) => [
              { text: source.number, source: { text: source.number, table: source.key } },
              says,
              inside === true ? 'inside' : 'outside',
            ]),
        },
      ],
      figures,
      queries: [...reasonsOf(result, unit, units), ...result.queries.map(({ message }) => message)],
      valid:
        head === null
          ? 'hand torque tools whose deviation is a share of the reading.'
          : 'rigid head, 0° to 180°, lever as marked on the tool. Not for tools that read at the head.',
      assumed: result.assumptions,
      sources: settingSources(result),
      rounding: settingRounding,
    };
  },
};

function headIn(typed: Typed): Head | null {
  if (!hasHead(typed)) return null;
  const lever = textIn(typed, 'lever');
  if (lever === undefined)
    throw new RefusedError({
      code: 'missing-field',
      message: 'An offset head needs the lever, from the axis of the square to the grip mark.',
      field: 'lever',
    });
  return {
    leverMm: inField('lever', () => quantityIn(lever, 'length', 'mm')),
    headMm: inField('offset', () => quantityIn(textIn(typed, 'offset') ?? '', 'length', 'mm')),
    angleDeg: inField('angle', () => Number(quantityIn(textIn(typed, 'angle') ?? '', 'angle', 'deg').toPrecision(12))),
  };
}

function lengthUnit(typed: Typed): 'mm' | 'in' {
  const { unit } = readQuantity(textIn(typed, 'lever') ?? '1 mm', 'length');
  return unit === 'in' || unit === 'ft' ? 'in' : 'mm';
}

type Result = ReturnType<typeof toolSetting>;

function headFormulas(head: Head, result: Result, aimNm: number, unit: Unit): BenchFormula[] {
  const { leverMm: L, headMm: E, angleDeg } = head;
  const back =
    result.appliedNm === null || result.setting === null
      ? ''
      : ` Put back: ${showNumber(result.setting.value, 6)} ÷ ${showNumber(result.correction, 5)} = ${inUnit(result.appliedNm.nominal, unit)} ${unit} at the fastener.`;
  return [
    {
      formula: 'set = applied · {*L*|*L* + *E* cos *θ*}',
      put: `set = ${inUnit(aimNm, unit)} ${unit} · {${showNumber(L)}|${showNumber(L)} + ${showNumber(E)} · cos ${showNumber(angleDeg)}°} = ${inUnit(aimNm * result.correction, unit)} ${unit}`,
      note: `Lengths in mm. The middle of the callout; of the marks, the one whose applied band lies furthest inside is taken.${back}`,
    },
  ];
}

function appliedFormula(typed: Typed, { setting, correction, appliedNm }: Result, unit: Unit): BenchFormula {
  const formula = correction === 1 ? 'applied = *S* (1 ± *a*)' : 'applied = {*S* (1 ± *a*)|*c*}';
  const a = textIn(typed, 'accuracy')?.replace(/\s*%$/, '') ?? '';
  if (setting === null || appliedNm === null) return { formula, put: 'no setting in the range' };
  const top = `${showNumber(setting.value, 6)} (1 ± ${a} %)`;
  return {
    formula,
    put: `applied = ${correction === 1 ? top : `{${top}|${showNumber(correction, 5)}}`} = ${inUnit(appliedNm.min, unit)} to ${inUnit(appliedNm.max, unit)} ${unit}`,
  };
}

const stepDeg = 3;

/** Setting against angle, as far as a fastener lies before the hand at all. */
function curveOf(head: Head, aimNm: number, unit: Unit, units: UnitsShown): BenchFigure {
  const { leverMm, headMm, angleDeg } = head;
  const at = (deg: number): number | null => {
    try {
      return aimNm * offsetCorrection({ leverMm, lengthMm: headMm, angleDeg: deg });
    } catch (error) {
      if (!(error instanceof RefusedError)) throw error;
      return null;
    }
  };
  const points = Array.from({ length: 180 / stepDeg + 1 }, (_, index) => index * stepDeg).flatMap((deg) => {
    const nm = at(deg);
    return nm === null || nm > 5 * aimNm ? [] : [{ x: deg, y: nm }];
  });
  const values = points.map(({ y }) => y);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = Math.max((high - low) * 0.08, aimNm * 0.01);
  const hereDeg = foldedDeg(angleDeg);
  const here = at(hereDeg) ?? aimNm;
  const shown = unitsShown(unit, otherTorqueUnit(unit, aimNm), units);
  return {
    is: 'curve',
    plot: {
      x: { quantity: 'angle θ of head to lever', units: [{ unit: '°', per: 1 }], from: 0, to: 180 },
      y: {
        quantity: 'set',
        units: [axisUnit('N·m', shown[0]), ...shown.slice(1).map((one) => axisUnit('N·m', one))],
        from: low - room,
        to: high + room,
      },
      points,
      limits: [{ value: aimNm, text: `no correction, ${inUnit(aimNm, shown[0])} ${shown[0]}`, line: 'limit' }],
      here: { x: hereDeg, y: here, text: `here: ${showNumber(hereDeg)}°, ${inUnit(here, shown[0])} ${shown[0]}` },
      title: 'Setting against angle',
      source: `set = applied · L/(L + E cos θ); applied ${shownIn(aimNm, 'N·m', unit, units)}, L ${showNumber(leverMm)} mm, E ${showNumber(headMm)} mm. NAVEDTRA 14315; TM 9-254.`,
      assumed: ['One hand at the grip mark, force square to the lever.'],
    },
  };
}

/** The same head between 0° and 180°. */
function foldedDeg(angleDeg: number): number {
  const turned = Math.abs(angleDeg) % 360;
  return turned > 180 ? 360 - turned : turned;
}
