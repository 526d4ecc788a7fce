import type { StopLimit } from '../../../../shared-types/joint.ts';
import { inField } from '../../../engine/errors.ts';
import { jointTask } from '../../../engine/preload/index.ts';
import { readThread } from '../../../engine/thread/index.ts';
import { quantityIn, showNumber } from '../../../engine/units/index.ts';
import type { BenchSheet, Typed } from '../benchSheet.ts';
import { given, halfToEven, inwardRounding, limitShown, shareIn, shownIn, textIn, torqueUnitOf } from '../shown.ts';
import { frictionFields, frictionOf, jointPaths, jointSources } from './joint.ts';

const toTorque = (typed: Typed): boolean => (typed['seated'] ?? 'preload') === 'torque';
const toPreload = (typed: Typed): boolean => !toTorque(typed);

export const releaseSheet: BenchSheet = {
  id: 'release',
  name: 'Release torque and stop limit',
  fields: [
    { key: 'thread', label: 'Thread', is: 'text', half: true },
    { key: 'strength', label: 'Class or grade', is: 'text', optional: true, half: true, hint: 'for the root’s limit' },
    ...frictionFields(),
    {
      key: 'seated',
      label: 'Seated with',
      is: 'choice',
      choices: [
        { value: 'preload', label: 'a preload' },
        { value: 'torque', label: 'a torque' },
      ],
    },
    { key: 'preload', label: 'Preload', is: 'quantity', of: 'force', when: toPreload },
    { key: 'torqueMin', label: 'Torque, least', is: 'quantity', of: 'torque', half: true, when: toTorque },
    { key: 'torqueMax', label: 'Torque, most', is: 'quantity', of: 'torque', half: true, when: toTorque },
    { key: 'scatter', label: 'Scatter of preload, ± (%)', is: 'number', optional: true },
    { key: 'running', label: 'Running torque of a locking feature', is: 'quantity', of: 'torque', optional: true },
    { key: 'driver', label: 'Driver, greatest torque', is: 'quantity', of: 'torque', optional: true, half: true },
    { key: 'socket', label: 'Socket, rated torque', is: 'quantity', of: 'torque', optional: true, half: true },
    { key: 'extension', label: 'Extension, rated torque', is: 'quantity', of: 'torque', optional: true },
  ],
  first: {
    thread: 'M10',
    strength: '8.8',
    frictionThread: '0.14',
    frictionBearing: '0.14',
    bearing: '13 mm',
    seated: 'torque',
    torqueMin: '30 N·m',
    torqueMax: '34 N·m',
    scatter: '25',
    driver: '150 N·m',
    socket: '200 N·m',
  },
  paths: {
    ...jointPaths,
    'stop.driver.max': 'driver',
    'stop.parts[0].ratedTorque': 'socket',
    'stop.parts[1].ratedTorque': 'extension',
  },
  answer(typed, units) {
    const result = jointTask(questionOf(typed));
    const thread = readThread(textIn(typed, 'thread') ?? '');
    const unit = torqueUnitOf(textIn(typed, toTorque(typed) ? 'torqueMin' : 'driver') ?? textIn(typed, 'running'));
    const nm = (value: number): string => shownIn(value, 'N·m', unit, units);
    const releaseNm = result.releaseTorqueNm ?? 0;
    const running = textIn(typed, 'running');
    const runningNm = running === undefined ? 0 : inField('running', () => quantityIn(running, 'torque', 'N·m'));
    const stop = result.stopLimit ?? null;
    const limit = (one: StopLimit | undefined): string =>
      one === undefined
        ? 'no rating typed'
        : one.torqueNm === null
          ? (one.reason ?? 'not held')
          : `${limitShown(one.torqueNm, 'maximum', 'N·m', unit, units)}, set by the ${one.setBy ?? ''}`;
    const seated = stop?.seated.torqueNm ?? null;
    const isOver = seated !== null && releaseNm + runningNm > seated * (1 + 1e-9);
    const {
      thread: f,
      bearing: fc,
      bearingDiameterMm: dc,
    } = frictionOf(typed) as {
      thread: number;
      bearing: number;
      bearingDiameterMm: number;
    };
    const tan = thread.pitchMm / (Math.PI * thread.pitchDiameterMm);
    const sec = f / Math.cos(Math.PI / 6);
    return {
      lead: 'It starts loose at',
      value: nm(releaseNm + runningNm),
      ...(seated === null
        ? {}
        : {
            state: isOver
              ? {
                  mark: 'nonconforming-over' as const,
                  text: `Over the stop limit by ${nm(releaseNm + runningNm - seated)}`,
                }
              : { mark: 'conforming' as const, text: `Under the stop limit by ${nm(seated - releaseNm - runningNm)}` },
          }),
      facts: [
        { name: 'Without running torque', value: nm(releaseNm) },
        ...(running === undefined ? [] : [{ name: 'Running torque, added', value: nm(runningNm) }]),
        {
          name: 'Preload, nominal and greatest',
          value: `${newtons(result.preloadN.nominal)} and ${newtons(result.preloadN.max)}`,
        },
        { name: 'Stop while seated at', value: limit(stop?.seated) },
        { name: 'Stop once unseated at', value: limit(stop?.unseated) },
        ...(stop?.rootShearNm == null ? [] : [{ name: 'The root’s rim yields at', value: nm(stop.rootShearNm) }]),
        {
          name: 'Holds by itself',
          value: result.selfLocking === null ? 'not known' : result.selfLocking ? 'yes' : 'no',
        },
      ],
      formulas: [
        {
          formula:
            '*T* = *F* ({*d*_[2]|2} · {*f* sec *α* − tan *λ*|1 + *f* sec *α* tan *λ*} + {*f*_[c] *d*_[c]|2}) + *T*_[run]',
          put: `*T* = ${showNumber(result.preloadN.nominal, 5)} N · ({${showNumber(thread.pitchDiameterMm, 5)}|2} · {${showNumber(sec, 5)} − ${showNumber(tan, 5)}|1 + ${showNumber(sec, 5)} · ${showNumber(tan, 5)}} + {${fc} · ${showNumber(dc)}|2}) mm + ${showNumber(runningNm)} N·m = ${showNumber(releaseNm + runningNm)} N·m`,
          note: 'At nominal preload. The limit of the root is at the greatest preload, which leaves it the least torque.',
        },
      ],
      tables: [],
      figures: [],
      queries: [
        ...result.queries.map(({ message }) => message),
        ...(isOver
          ? ['It starts loose above the stop limit: another way to loosen it is needed, not more torque.']
          : []),
      ],
      valid:
        'static friction as typed: a joint that has settled, corroded or been painted takes more. Slow, steady turning; no impact.',
      assumed: [...result.assumptions, 'A string is as strong as its weakest part (common practice, no source).'],
      sources: [
        ...jointSources(result),
        { text: 'Root: distortion energy with elastic torsion, our form; no text prints it.', table: null },
      ],
      rounding: `${halfToEven} ${inwardRounding}`,
    };
  },
};

const newtons = (value: number): string => `${showNumber(value / 1000)} kN`;

function questionOf(typed: Typed): Record<string, unknown> {
  const ratings = ['driver', 'socket', 'extension'].map((key) => textIn(typed, key));
  const [driver, socket, extension] = ratings;
  const parts = [
    ...(socket === undefined ? [] : [{ name: 'socket', ratedTorque: socket }]),
    ...(extension === undefined ? [] : [{ name: 'extension', ratedTorque: extension }]),
  ];
  return given({
    thread: textIn(typed, 'thread') ?? '',
    strength: textIn(typed, 'strength'),
    friction: frictionOf(typed),
    form: 'screw',
    torque: toTorque(typed)
      ? { min: textIn(typed, 'torqueMin') ?? '', max: textIn(typed, 'torqueMax') ?? '' }
      : undefined,
    preload: toTorque(typed) ? undefined : textIn(typed, 'preload'),
    scatter: shareIn(typed, 'scatter'),
    stop: driver === undefined ? undefined : { driver: { name: 'driver', max: driver }, parts },
  });
}
