/**
 * How fast the engine computes, in ratios of one run, so that machines compare: `npx tsx tests/bench/engine.ts`. A resolved
 * conversion against the bare multiplication and against two libraries; reading and converting; one joint against the same
 * arithmetic written out in one place.
 */
import Qty from 'js-quantities';
import { unit } from 'mathjs';
import { computeJoint, readJoint } from '../../renderer/engine/preload/index.ts';
import { converter, convertValue, quantityIn, roundNominal, showNumber } from '../../renderer/engine/units/index.ts';
import { inlineJoint, type InlineJoint } from './inlineJoint.ts';
import { timed, type Contestant, type Timed } from './timed.ts';

const values = Float64Array.from({ length: 1024 }, (_, index) => index + 0.5);
const at = (index: number): number => values[index & 1023] ?? 0;

function over(name: string, times: number, each: (value: number) => number): Contestant {
  return {
    name,
    times,
    run: (count) => {
      let sum = 0;
      for (let n = 0; n < count; n += 1) sum += each(at(n));
      return sum;
    },
  };
}

const say = (text: string): void => void process.stdout.write(`${text}\n`);

/** The ratio of the first to the second, or of what it is slower by, with the aim it is held to. */
function compared(
  all: readonly Timed[],
  slow: string,
  fast: string,
  aim: string,
  holds: (ratio: number) => boolean,
): void {
  const ns = (name: string): number => all.find((one) => one.name === name)?.nsEach ?? Number.NaN;
  const ratio = ns(slow) / ns(fast);
  const word = holds(ratio) ? 'holds' : 'MISSED';
  say(`  ${slow} / ${fast}: × ${roundNominal(ratio, 1)} (aim ${aim}: ${word})`);
}

function sayEach(all: readonly Timed[]): void {
  for (const { name, nsEach } of all)
    say(`  ${name}: ${showNumber(nsEach)} ns, ${showNumber(1e9 / nsEach, 3)} a second`);
}

// The double nearest to 1.3558179483314004, the exact size.
const lbfFt = 1.3558179483314003;
const resolved = converter('lbf·ft', 'N·m');
const swift = Qty.swiftConverter('lbf*ft', 'N*m');

say('One value, lbf·ft to N·m');
const conversions = timed([
  // These have loops of their own: a loop shared with others calls what it cannot foresee, and that is most of its time.
  {
    name: 'bare multiplication',
    times: 2_000_000,
    run: (count) => {
      let sum = 0;
      for (let n = 0; n < count; n += 1) sum += at(n) * lbfFt;
      return sum;
    },
  },
  {
    name: 'resolved converter',
    times: 2_000_000,
    run: (count) => {
      let sum = 0;
      for (let n = 0; n < count; n += 1) sum += resolved(at(n));
      return sum;
    },
  },
  over('convertValue', 50_000, (value) => convertValue(value, 'lbf·ft', 'N·m')),
  over('mathjs', 2000, (value) => unit(value, 'lbf ft').toNumber('N m')),
  over('js-quantities', 2000, (value) => Qty(value, 'lbf*ft').to('N*m').scalar),
  {
    name: 'js-quantities, its resolved converter',
    times: 2_000_000,
    run: (count) => {
      let sum = 0;
      for (let n = 0; n < count; n += 1) sum += swift(at(n));
      return sum;
    },
  },
]);
sayEach(conversions);
compared(conversions, 'resolved converter', 'bare multiplication', '≤ 3', (ratio) => ratio <= 3);
for (const library of ['mathjs', 'js-quantities']) {
  compared(conversions, library, 'resolved converter', '≥ 20', (ratio) => ratio >= 20);
}
compared(conversions, 'js-quantities, its resolved converter', 'resolved converter', '≥ 1', (ratio) => ratio >= 1);

say('Read a typed quantity and convert it');
const texts = Array.from({ length: 64 }, (_, index) => String(index * 3 + 1));
const readings = timed([
  over('quantityIn', 10_000, (value) => quantityIn(`${texts[value & 63] ?? ''} ft-lb`, 'torque', 'N·m')),
  over('mathjs', 2000, (value) => unit(`${texts[value & 63] ?? ''} lbf ft`).toNumber('N m')),
  over('js-quantities', 2000, (value) => Qty(`${texts[value & 63] ?? ''} lbf*ft`).to('N*m').scalar),
]);
sayEach(readings);

const given = {
  thread: 'M10',
  strength: '8.8',
  friction: { thread: 0.12, bearing: 0.14, bearingDiameterMm: 13 },
  torque: { min: '40 N·m', max: '48 N·m' },
  scatter: 0.1,
  relaxation: { share: 0.05, form: 'divide' },
};
const { joint } = readJoint(given);
const { screw, tightening, target, yieldMPa, proofMPa, scatter, relaxation } = joint;
if (tightening.by !== 'friction' || target.to !== 'torque' || yieldMPa === null || proofMPa === null) {
  throw new Error('the joint measured is one by friction and torque, with its strength');
}
const inline: InlineJoint = {
  meanMm: screw.meanDiameterMm,
  leadMm: screw.leadMm,
  halfAngleDeg: screw.halfAngleDeg,
  nominalMm: screw.nominalDiameterMm ?? 0,
  areaMm2: screw.stressAreaMm2 ?? 0,
  threadFriction: tightening.thread,
  bearingFriction: tightening.bearing,
  bearingMm: tightening.bearingDiameterMm,
  minNm: 40,
  maxNm: 48,
  scatter,
  relaxation: relaxation.share,
  yieldMPa,
  proofMPa,
};
const torqueAt = (value: number) => ({ minNm: 40 + value / 1e6, maxNm: 48 });
const one = computeJoint(joint);
const same = inlineJoint(inline);
const off = Math.max(
  ...[
    [one.preloadN.min, same.preloadN.min],
    [one.preloadN.max, same.preloadN.max],
    [one.releaseTorqueNm ?? 0, same.releaseTorqueNm],
    [one.efficiency ?? 0, same.efficiency],
    [one.stressMPa?.equivalent ?? 0, same.stressMPa.equivalent],
    [one.yieldShare?.max ?? 0, same.yieldShare.max],
  ].map(([a = 0, b = 0]) => Math.abs(a / b - 1)),
);
if (!(off <= 1e-12)) throw new Error(`the two joints differ by ${off}`);

say('One joint by friction: preload, range, release torque, stress, shares');
const joints = timed([
  over('same arithmetic inline', 100_000, (value) => inlineJoint({ ...inline, ...torqueAt(value) }).preloadN.max),
  over(
    'computeJoint',
    100_000,
    (value) => computeJoint({ ...joint, target: { ...target, torque: torqueAt(value) } }).preloadN.max,
  ),
  over('read and compute', 500, () => computeJoint(readJoint(given).joint).preloadN.max),
]);
sayEach(joints);
const nsOf = (name: string): number => joints.find((timing) => timing.name === name)?.nsEach ?? Number.NaN;
say(
  `  computeJoint / same arithmetic inline: × ${roundNominal(nsOf('computeJoint') / nsOf('same arithmetic inline'), 1)}`,
);
const perSecond = 1e9 / nsOf('computeJoint');
say(`  aim 100,000 joints a second: ${perSecond >= 1e5 ? 'holds' : 'MISSED'}`);
