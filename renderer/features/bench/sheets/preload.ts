import type { JointInput, JointResult } from '../../../../shared-types/joint.ts';
import type { PreloadAt, PreloadLimit, PreloadPlotData } from '../../../components/plot/preloadPlotLayout.ts';
import { inField } from '../../../engine/errors.ts';
import { jointTask } from '../../../engine/preload/index.ts';
import { publishedNutFactors } from '../../../engine/preload/published.ts';
import { proofLoadN, readStrength } from '../../../engine/strength/index.ts';
import { readThread } from '../../../engine/thread/index.ts';
import type { Thread } from '../../../engine/thread/index.ts';
import { quantityIn, showNumber } from '../../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../../engine/units/index.ts';
import type { BenchAnswer, BenchFormula, BenchSheet, Typed } from '../benchSheet.ts';
import {
  forceUnitsFor,
  given,
  halfToEven,
  numberIn,
  otherTorqueUnit,
  shareIn,
  shownIn,
  spanIn,
  tableSource,
  textIn,
  torqueUnitOf,
  unitsShown,
} from '../shown.ts';
import {
  atTorque,
  documentName,
  jointOf,
  jointPaths,
  jointSources,
  tighteningFields,
  tighteningFormula,
} from './joint.ts';

const targets = [
  { value: 'torque', label: 'a torque' },
  { value: 'preload', label: 'a preload' },
  { value: 'stressShare', label: 'a share of yield, tension alone' },
  { value: 'yieldShare', label: 'a share of yield, with torsion' },
] as const;

const to = (target: string) => (typed: Typed) => (typed['target'] ?? 'torque') === target;
const toShare = (typed: Typed): boolean => typed['target'] === 'stressShare' || typed['target'] === 'yieldShare';
const runs = (typed: Typed): boolean => textIn(typed, 'runningMax') !== undefined;

export const preloadSheet: BenchSheet = {
  id: 'preload',
  name: 'Torque and preload',
  fields: [
    { key: 'thread', label: 'Thread', is: 'text', half: true },
    {
      key: 'strength',
      label: 'Class or grade',
      is: 'text',
      optional: true,
      half: true,
      hint: 'as "8.8", "SAE J429 grade 5"',
    },
    ...tighteningFields,
    { key: 'target', label: 'Tightened to', is: 'choice', choices: targets },
    { key: 'torqueMin', label: 'Torque, least', is: 'quantity', of: 'torque', half: true, when: to('torque') },
    { key: 'torqueMax', label: 'Torque, most', is: 'quantity', of: 'torque', half: true, when: to('torque') },
    { key: 'preload', label: 'Preload', is: 'quantity', of: 'force', when: to('preload') },
    { key: 'share', label: 'Share of yield (%)', is: 'number', when: toShare },
    { key: 'scatter', label: 'Scatter of preload, ± (%)', is: 'number', optional: true, half: true },
    { key: 'relaxation', label: 'Lost by settling (%)', is: 'number', optional: true, half: true },
    { key: 'runningMin', label: 'Running torque, least', is: 'quantity', of: 'torque', optional: true, half: true },
    { key: 'runningMax', label: 'Running torque, most', is: 'quantity', of: 'torque', optional: true, half: true },
    {
      key: 'torqueIs',
      label: 'The torque above is',
      is: 'choice',
      choices: [
        { value: 'seating', label: 'for seating; running is added' },
        { value: 'wrench', label: 'on the wrench; running is in it' },
      ],
      when: (typed) => runs(typed) && to('torque')(typed),
    },
    { key: 'preloadMin', label: 'Preload asked, least', is: 'quantity', of: 'force', optional: true, half: true },
    { key: 'preloadMax', label: 'Preload asked, most', is: 'quantity', of: 'force', optional: true, half: true },
  ],
  first: {
    thread: '3/8-24',
    strength: 'SAE J429 grade 5',
    by: 'nutFactor',
    k: '0.2',
    form: 'screw',
    target: 'torque',
    torqueMin: '30 lbf·ft',
    torqueMax: '35 lbf·ft',
    scatter: '35',
    torqueIs: 'seating',
    preloadMin: '3000 lbf',
  },
  paths: { ...jointPaths, scatter: 'scatter', thread: 'thread', strength: 'strength' },
  answer(typed, units) {
    const question = questionOf(typed);
    const result = jointTask(question);
    const input = question as unknown as JointInput;
    const thread = inField('thread', () => readThread(textIn(typed, 'thread') ?? ''));
    const asksTorque = !to('torque')(typed);
    const torqueUnit = torqueUnitIn(typed);
    const [forceUnit] = forceUnitsFor(torqueUnit, result.preloadN.max);
    const force = (value: number): string => shownIn(value, 'N', forceUnit, units);
    const torque = (value: number): string => shownIn(value, 'N·m', torqueUnit, units);
    const spans = (span: Span): string => spanIn(span, 'N·m', torqueUnit, units);
    const { seating, installation } = result.torqueNm;
    const asked = askedLimits(typed);
    const state = stateOf(result, asked, force);
    return {
      lead: asksTorque ? 'Tighten to' : 'Nominal preload',
      value: asksTorque ? torque(seating.nominal) : force(result.preloadN.nominal),
      ...(state === null ? {} : { state }),
      facts: [
        ...(asksTorque ? [{ name: 'Nominal preload', value: force(result.preloadN.nominal) }] : []),
        { name: 'Least preload', value: force(result.preloadN.min) },
        { name: 'Greatest preload', value: force(result.preloadN.max) },
        { name: 'Seating torque', value: bandText(seating, torque, spans) },
        ...(runs(typed)
          ? [{ name: 'On the wrench, seating + running', value: bandText(installation, torque, spans) }]
          : []),
        ...shareFacts(result),
        ...(result.nutFactorEffective === null
          ? []
          : [{ name: 'K that this amounts to', value: showNumber(result.nutFactorEffective) }]),
        ...(result.releaseTorqueNm === null
          ? []
          : [{ name: 'Torque that starts it loose', value: torque(result.releaseTorqueNm) }]),
      ],
      formulas: [
        tighteningFormula(input, {
          majorMm: thread.majorMm,
          meanMm: thread.pitchDiameterMm,
          pitchMm: thread.pitchMm,
          torqueNm: seating.nominal,
          preloadN: nominalBefore(question, seating.nominal),
          asksTorque: asksTorque || input.friction !== undefined,
        }),
        ...rangeFormulas(input, result, question),
      ],
      tables: [publishedTable()],
      figures: [{ is: 'preload', plot: plotOf(typed, { question, result, thread, torqueUnit, asked, units }) }],
      queries: result.queries.map(({ message }) => message),
      valid:
        'below yield; friction, lubricant and surfaces as those the factor was found for. Running torque stretches nothing and is kept apart.',
      assumed: result.assumptions,
      sources: [...jointSources(result), tableSource('nut-factors'), tableSource('preload-uncertainty')],
      rounding: halfToEven,
    };
  },
};

function questionOf(typed: Typed): Record<string, unknown> {
  const target = typed['target'] ?? 'torque';
  const share = toShare(typed) ? shareIn(typed, 'share') : undefined;
  const relaxation = shareIn(typed, 'relaxation');
  const runningMax = textIn(typed, 'runningMax');
  return given({
    ...jointOf(typed),
    torque:
      target === 'torque'
        ? { min: textIn(typed, 'torqueMin') ?? '', max: textIn(typed, 'torqueMax') ?? '' }
        : undefined,
    preload: target === 'preload' ? textIn(typed, 'preload') : undefined,
    stressShare: target === 'stressShare' ? share : undefined,
    yieldShare: target === 'yieldShare' ? share : undefined,
    scatter: shareIn(typed, 'scatter'),
    relaxation: relaxation === undefined ? undefined : { share: relaxation, form: 'divide' },
    running: runningMax === undefined ? undefined : { min: textIn(typed, 'runningMin') ?? '0 N·m', max: runningMax },
    torqueIs: runningMax === undefined || target !== 'torque' ? undefined : (typed['torqueIs'] ?? 'seating'),
  });
}

/** Preload before scatter and losses at a seating torque: what the formula gives. */
function nominalBefore(question: Record<string, unknown>, torqueNm: number): number {
  return atTorque(question, torqueNm).preloadN.nominal;
}

function torqueUnitIn(typed: Typed): Unit {
  const text = textIn(typed, 'torqueMin') ?? textIn(typed, 'runningMax');
  if (to('torque')(typed) && text !== undefined) return torqueUnitOf(text);
  const force = textIn(typed, 'preload') ?? textIn(typed, 'preloadMin') ?? '';
  return /lbf|kip/.test(force) ? 'lbf·ft' : 'N·m';
}

interface Asked {
  minN: number | null;
  maxN: number | null;
}

function askedLimits(typed: Typed): Asked {
  const newtons = (key: string): number | null => {
    const text = textIn(typed, key);
    return text === undefined ? null : inField(key, () => quantityIn(text, 'force', 'N'));
  };
  return { minN: newtons('preloadMin'), maxN: newtons('preloadMax') };
}

function stateOf(
  { preloadN, proofShare, yieldShare }: JointResult,
  { minN, maxN }: Asked,
  force: (newtons: number) => string,
): NonNullable<BenchAnswer['state']> | null {
  if (minN === null && maxN === null) return null;
  const [short, over] = [(minN ?? preloadN.min) - preloadN.min, preloadN.max - (maxN ?? preloadN.max)];
  const slack = 1e-9 * preloadN.max;
  if (short > slack) return { mark: 'nonconforming-under', text: `Least preload ${force(short)} short` };
  if (over > slack) return { mark: 'nonconforming-over', text: `Greatest preload ${force(over)} over` };
  // Within what was asked, and yet more than the fastener bears.
  if ((proofShare?.max ?? 0) > 1 + 1e-9)
    return { mark: 'nonconforming-over', text: 'Greatest preload past the proof load' };
  if ((yieldShare?.max ?? 0) > 1 + 1e-9) return { mark: 'nonconforming-over', text: 'Greatest preload past yield' };
  return { mark: 'conforming' };
}

interface Span {
  min: number;
  max: number;
}

function bandText(span: Span, torque: (nm: number) => string, spans: (span: Span) => string): string {
  return Math.abs(span.max - span.min) <= 1e-12 * Math.abs(span.max) ? torque(span.min) : spans(span);
}

function shareFacts({ proofShare, yieldShare, stressMPa }: JointResult): { name: string; value: string }[] {
  const percent = (share: number): string => `${showNumber(share * 100, 3)} %`;
  return [
    ...(stressMPa === null
      ? []
      : [
          {
            name: 'Tension; with torsion',
            value: `${showNumber(stressMPa.tension)} MPa; ${stressMPa.equivalent === null ? 'friction not given' : `${showNumber(stressMPa.equivalent)} MPa`}`,
          },
        ]),
    ...(proofShare === null
      ? []
      : [
          {
            name: 'Of the proof load, nominal and greatest',
            value: `${percent(proofShare.nominal)} and ${percent(proofShare.max)}`,
          },
        ]),
    ...(yieldShare === null
      ? []
      : [
          {
            name: 'Of yield, nominal and greatest',
            value: `${percent(yieldShare.nominal)} and ${percent(yieldShare.max)}`,
          },
        ]),
  ];
}

function rangeFormulas(
  input: JointInput,
  { preloadN, torqueNm }: JointResult,
  question: Record<string, unknown>,
): BenchFormula[] {
  const { scatter = 0, relaxation } = input;
  if (scatter === 0 && relaxation === undefined) return [];
  const { min, max } = torqueNm.seating;
  const bare = given({ ...question, scatter: undefined, relaxation: undefined });
  const [least, greatest] = [atTorque(bare, min).preloadN.min, atTorque(bare, max).preloadN.max];
  const below = relaxation === undefined ? '' : `|1 + ${relaxation.share}}`;
  const above = relaxation === undefined ? '' : '{';
  return [
    {
      formula: `*F*_[min] = ${above}(1 − *u*) *F*(*T*_[min])${relaxation === undefined ? '' : '|1 + *s*}'}`,
      put: `*F*_[min] = ${above}(1 − ${scatter}) · ${showNumber(least)} N${below} = ${showNumber(preloadN.min)} N`,
    },
    {
      formula: '*F*_[max] = (1 + *u*) *F*(*T*_[max])',
      put: `*F*_[max] = (1 + ${scatter}) · ${showNumber(greatest)} N = ${showNumber(preloadN.max)} N`,
    },
  ];
}

/** Nut factors as published: none is a default, and where sources differ all stand. */
function publishedTable() {
  return {
    caption: 'Published nut factors, none of them a default',
    heads: ['Condition', 'K', 'Where'],
    rows: publishedNutFactors.map(({ condition, min, max, basis }) => [
      condition,
      min === max ? String(min) : `${min} to ${max}`,
      { text: basis, source: { text: basis, table: 'nut-factors', row: condition } },
    ]),
  };
}

interface PlotGiven {
  question: Record<string, unknown>;
  result: JointResult;
  thread: Thread;
  torqueUnit: Unit;
  asked: Asked;
  units: UnitsShown;
}

function plotOf(typed: Typed, x: PlotGiven): PreloadPlotData & { title: string; source: string; assumed: string[] } {
  const { question, result, torqueUnit, units } = x;
  const { min, max } = result.torqueNm.seating;
  const point = (torqueNm: number): PreloadAt => {
    const { preloadN } = atTorque(question, torqueNm);
    return { torqueNm, leastN: preloadN.min, nominalN: preloadN.nominal, greatestN: preloadN.max };
  };
  const [low, high] = [point(min), point(max)];
  // Every form is a straight line: half of the greatest torque gives where it begins.
  const half = point(max / 2);
  const start: PreloadAt = {
    torqueNm: 0,
    leastN: 2 * half.leastN - high.leastN,
    nominalN: 2 * half.nominalN - high.nominalN,
    greatestN: 2 * half.greatestN - high.greatestN,
  };
  return {
    curve: min === max ? [start, high] : [start, low, high],
    band: { minNm: min, maxNm: max },
    limits: [...strengthLimits(typed, x), ...givenLimits(x.asked)],
    torqueUnits: unitsShown(torqueUnit, otherTorqueUnit(torqueUnit, max), units),
    forceUnits: shownForces(torqueUnit, result.preloadN.max, units),
    title: 'Preload against torque',
    source: `${textIn(typed, 'thread') ?? ''}${textIn(typed, 'strength') === undefined ? '' : `, ${textIn(typed, 'strength')}`}; ${formulaSource(result)}.`,
    assumed: [
      ...(textIn(typed, 'scatter') === undefined ? [] : [`Preload scatters by ± ${numberIn(typed, 'scatter')} %.`]),
      ...(textIn(typed, 'k') !== undefined && typed['by'] !== 'friction' ? [`K is ${numberIn(typed, 'k')}.`] : []),
      'Seating torque alone, without running torque.',
    ],
  };
}

/** The document of the formula itself: the one that follows upon that of the thread. */
function formulaSource({ sources }: JointResult): string {
  const source = sources[1];
  return source === undefined ? '' : `${documentName(source)}, ${source.table}`;
}

function shownForces(torqueUnit: Unit, newtons: number, units: UnitsShown): [Unit, ...Unit[]] {
  const [written, other] = forceUnitsFor(torqueUnit, newtons);
  return unitsShown(written, other, units);
}

function givenLimits({ minN, maxN }: Asked): PreloadLimit[] {
  return [
    ...(minN === null
      ? []
      : [{ preloadN: minN, name: 'least asked', source: 'as typed', line: 'limit' as const, short: 'below' as const }]),
    ...(maxN === null
      ? []
      : [{ preloadN: maxN, name: 'most asked', source: 'as typed', line: 'limit' as const, short: 'above' as const }]),
  ];
}

function strengthLimits(typed: Typed, { result, thread }: PlotGiven): PreloadLimit[] {
  const text = textIn(typed, 'strength');
  if (text === undefined) return [];
  const strength = readStrength(text, { thread, field: 'strength' });
  const { stressAreaMm2 } = thread;
  const source = strength.sources[0]?.number ?? strength.name;
  const { yieldShare, preloadN } = result;
  return [
    ...(strength.proofMPa === null
      ? []
      : [
          {
            preloadN: proofLoadN({ proofMPa: strength.proofMPa, stressAreaMm2 }),
            name: 'proof load',
            source,
            line: 'proof' as const,
            short: 'above' as const,
          },
        ]),
    ...(strength.yieldMPa === null
      ? []
      : [
          {
            preloadN: yieldShare === null ? strength.yieldMPa * stressAreaMm2 : preloadN.nominal / yieldShare.nominal,
            name: yieldShare === null ? 'yield in tension alone' : 'yield with torsion',
            source,
            line: 'yield' as const,
            short: 'above' as const,
          },
        ]),
  ];
}
