import type { JointInput, JointResult } from '../../../../shared-types/joint.ts';
import { inField } from '../../../engine/errors.ts';
import { allTables } from '../../../engine/handbook/index.ts';
import { jointTask } from '../../../engine/preload/index.ts';
import { quantityIn, showNumber } from '../../../engine/units/index.ts';
import type { BenchField, BenchFormula, BenchSource, Typed } from '../benchSheet.ts';
import { given, numberIn, textIn } from '../shown.ts';

const byFriction = (typed: Typed): boolean => typed['by'] === 'friction';
const byNutFactor = (typed: Typed): boolean => !byFriction(typed);

/** Friction in the thread and under the head. */
export const frictionFields = (when?: (typed: Typed) => boolean): BenchField[] => {
  const shown = when === undefined ? {} : { when };
  return [
    { key: 'frictionThread', label: 'Friction in the thread μ', is: 'number', half: true, ...shown },
    { key: 'frictionBearing', label: 'Friction under the head', is: 'number', half: true, ...shown },
    { key: 'bearing', label: 'Mean diameter of the bearing face', is: 'quantity', of: 'length', ...shown },
  ];
};

/** How torque becomes preload: a nut factor with its range, or friction. */
export const tighteningFields: readonly BenchField[] = [
  {
    key: 'by',
    label: 'Torque becomes preload by',
    is: 'choice',
    choices: [
      { value: 'nutFactor', label: 'a nut factor K' },
      { value: 'friction', label: 'friction in thread and under the head' },
    ],
  },
  { key: 'k', label: 'K, nominal', is: 'number', when: byNutFactor },
  { key: 'kMin', label: 'K, least', is: 'number', optional: true, half: true, when: byNutFactor },
  { key: 'kMax', label: 'K, greatest', is: 'number', optional: true, half: true, when: byNutFactor },
  {
    key: 'form',
    label: 'Form',
    is: 'choice',
    choices: [
      { value: 'screw', label: 'screw equation' },
      { value: 'linear', label: 'linear (VDI 2230)' },
    ],
    when: byFriction,
  },
  ...frictionFields(byFriction),
];

/** Engine's paths of the fields above. */
export const jointPaths: Readonly<Record<string, string>> = {
  nutFactor: 'k',
  'nutFactor.nominal': 'k',
  'nutFactor.min': 'kMin',
  'nutFactor.max': 'kMax',
  friction: 'frictionThread',
  'friction.thread': 'frictionThread',
  'friction.bearing': 'frictionBearing',
  'friction.bearingDiameterMm': 'bearing',
  torque: 'torqueMin',
  'torque.min': 'torqueMin',
  'torque.max': 'torqueMax',
  running: 'runningMax',
  'running.min': 'runningMin',
  'running.max': 'runningMax',
  torqueIs: 'torqueIs',
  preload: 'preload',
  yieldShare: 'share',
  stressShare: 'share',
  relaxation: 'relaxation',
  'relaxation.share': 'relaxation',
};

export function frictionOf(typed: Typed): Record<string, unknown> {
  const bearing = textIn(typed, 'bearing');
  return given({
    thread: numberIn(typed, 'frictionThread'),
    bearing: numberIn(typed, 'frictionBearing'),
    bearingDiameterMm:
      bearing === undefined ? undefined : inField('bearing', () => quantityIn(bearing, 'length', 'mm')),
  });
}

/** The part of the engine's question that says what the joint is. */
export function jointOf(typed: Typed): Record<string, unknown> {
  const friction = byFriction(typed);
  return given({
    thread: textIn(typed, 'thread') ?? '',
    strength: textIn(typed, 'strength'),
    nutFactor: friction
      ? undefined
      : given({ nominal: numberIn(typed, 'k'), min: numberIn(typed, 'kMin'), max: numberIn(typed, 'kMax') }),
    friction: friction ? frictionOf(typed) : undefined,
    form: friction ? (typed['form'] === 'linear' ? 'linear' : 'screw') : undefined,
  });
}

/** The same joint tightened to one seating torque: a point of its curve. */
export function atTorque(joint: Record<string, unknown>, torqueNm: number): JointResult {
  const { running: _running, preload: _preload, yieldShare: _yield, stressShare: _stress, ...rest } = joint;
  const text = `${torqueNm} N·m`;
  return jointTask({ ...rest, torque: { min: text, max: text }, torqueIs: 'seating' });
}

/** A chapter is no document: its book goes before it. */
export function documentName({ title, number }: { title: string; number: string }): string {
  return number.startsWith('chapter') ? `${title}, ${number}` : number;
}

/** A joint's documents; a strength's table leads to the handbook. */
export function jointSources(result: Pick<JointResult, 'sources'>): BenchSource[] {
  return result.sources.map(({ title, number, table, edition, obtained }) => ({
    text: `${documentName({ title, number })}, ${table} (${edition}), ${obtained}`,
    table: allTables.find((held) => held.source.number === number && held.source.table === table)?.key ?? null,
  }));
}

const n = (value: number, digits = 5): string => showNumber(value, digits);

/** Torque and preload, with the numbers of the nominal case. */
export function tighteningFormula(
  input: Pick<JointInput, 'nutFactor' | 'friction' | 'form'>,
  x: {
    majorMm: number;
    meanMm: number;
    pitchMm: number;
    torqueNm: number;
    preloadN: number;
    asksTorque: boolean;
  },
): BenchFormula {
  const { majorMm, meanMm, pitchMm, torqueNm, preloadN } = x;
  const { friction, nutFactor } = input;
  if (friction === undefined || nutFactor !== undefined) {
    const K = nutFactor?.nominal ?? 0;
    return x.asksTorque
      ? { formula: '*T* = *K D F*', put: `*T* = ${n(K)} · ${n(majorMm)} mm · ${n(preloadN)} N = ${n(torqueNm)} N·m` }
      : {
          formula: '*F* = {*T*|*K D*}',
          put: `*F* = {${n(torqueNm)} N·m|${n(K)} · ${n(majorMm)} mm} = ${n(preloadN)} N`,
        };
  }
  const { thread: f, bearing, bearingDiameterMm } = friction;
  if (input.form === 'linear')
    return {
      formula: '*T* = *F* (0.15915 *P* + 0.57735 *μ d*_[2] + {*μ*_[b] *D*_[b]|2})',
      put: `*T* = ${n(preloadN)} N · (0.15915 · ${n(pitchMm)} + 0.57735 · ${f} · ${n(meanMm)} + {${bearing} · ${n(bearingDiameterMm)}|2}) mm = ${n(torqueNm)} N·m`,
    };
  const tan = pitchMm / (Math.PI * meanMm);
  return {
    formula:
      '*T* = *F* ({*d*_[2]|2} · {tan *λ* + *f* sec *α*|1 − *f* tan *λ* sec *α*} + {*f*_[c] *d*_[c]|2}),  tan *λ* = {*P*|π *d*_[2]}',
    put: `*T* = ${n(preloadN)} N · ({${n(meanMm)}|2} · {${n(tan)} + ${f} · 1.1547|1 − ${f} · ${n(tan)} · 1.1547} + {${bearing} · ${n(bearingDiameterMm)}|2}) mm = ${n(torqueNm)} N·m`,
  };
}
