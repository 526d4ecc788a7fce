import type { CalloutBand, CalloutComputed } from '../../../shared-types/callout.ts';
import type { BandNm } from '../plan/resolved.ts';
import type { Callout } from './callout.ts';
import type { CalloutCase } from './calloutCase.ts';
import { accuracyMax } from './rules/toolTooCoarse.ts';
import { isInside } from './rules/publishedBand.ts';
import { isEmpty } from './torqueOfCallout.ts';
import { inUnit } from './words.ts';

/** What the rules looked at, for whoever reads the answer. */
export function computedOf(x: CalloutCase): CalloutComputed {
  const { callout, torque } = x;
  const { band, thread, strength } = callout;
  const calloutNm = shown(band);
  const computed: CalloutComputed = {
    thread: thread.thread.designation,
    calloutNm,
    assumptions: assumptionsOf(x),
    bands: bandsOf(callout),
  };
  if (torque.running !== null) computed.runningNm = shown(torque.running);
  if (!isEmpty(torque.aim)) {
    computed.aimNm = torque.aim === band ? calloutNm : shown(torque.aim);
    if (callout.toolAccuracy !== null) computed.toolAccuracyMax = accuracyMax(torque.aim);
  }
  if (!isEmpty(torque.seating)) computed.seatingNm = torque.seating === band ? calloutNm : shown(torque.seating);
  if (torque.ifAdded !== null)
    computed.ifRunningAdded = { aimNm: shown(torque.ifAdded.aim), seatingNm: shown(torque.ifAdded.seating) };
  const shownStrength = strength === null ? undefined : thread.shownStrength(strength);
  if (shownStrength !== undefined) computed.strength = shownStrength;
  addAlternative(callout, computed);
  addJoint(x, computed);
  addHeld(callout, computed);
  addTurn(callout, computed);
  return computed;
}

function addAlternative({ alternative, band }: Callout, computed: CalloutComputed): void {
  if (alternative === null) return;
  const { min, max } = alternative;
  computed.alternative = {
    min: min.value,
    max: max.value,
    unit: max.unit,
    exact: { min: inUnit(band.minNm, min.unit), max: inUnit(band.maxNm, max.unit) },
  };
}

function addJoint({ joint, engagement }: CalloutCase, computed: CalloutComputed): void {
  if (engagement !== null && !('reason' in engagement)) {
    const { requiredEngagementMm, failsFirst, loadsN } = engagement;
    computed.engagement = { requiredEngagementMm, failsFirst, loadsN };
  }
  if (joint === null) return;
  const { preloadN, stressMPa, proofShare, yieldShare } = joint;
  const growth = preloadN.max / preloadN.nominal;
  computed.preloadN = preloadN;
  if (stressMPa !== null) {
    const { tension, equivalent } = stressMPa;
    computed.greatestStressMPa =
      equivalent === null
        ? { tension: tension * growth }
        : { tension: tension * growth, equivalent: equivalent * growth };
  }
  if (proofShare !== null) computed.proofShare = proofShare;
  if (yieldShare !== null) computed.yieldShare = yieldShare;
}

function addHeld({ head: form, locking, thread }: Callout, computed: CalloutComputed): void {
  const head = form === null ? undefined : thread.shownHead(form);
  if (head !== undefined) computed.head = head;
  const named = locking === null ? undefined : thread.shownLocking(locking);
  if (named !== undefined) computed.locking = named;
}

function addTurn({ angleDeg, passes, thread }: Callout, computed: CalloutComputed): void {
  if (passes.length > 0) computed.passesNm = passes.map(shown);
  if (angleDeg === null) return;
  const advanceMm = (deg: number): number => (deg / 360) * thread.thread.pitchMm;
  computed.turn = { angleDeg, advanceMm: { min: advanceMm(angleDeg.min), max: advanceMm(angleDeg.max) } };
}

function shown({ minNm, maxNm }: BandNm): CalloutBand {
  return { min: minNm, max: maxNm };
}

function bandsOf({ thread, lubrication, band }: Callout): CalloutComputed['bands'] {
  const { of, bands } = thread.bands(lubrication);
  const agreeing: number[] = [];
  if (!isEmpty(band)) for (const [at, published] of bands.entries()) if (isInside(band, published)) agreeing.push(at);
  return { of, agreeing };
}

/** What is assumed where the callout leaves it unsaid, in the order of the questions below. */
const said = [
  'Whether running torque is in the band is not said: it is read as in it, the other reading beside.',
  'No least running torque: 0.',
  'No greatest running torque: none is counted.',
  'No scatter of the preload: 0.',
  'No settling, no change of temperature.',
  'A nut factor says no torsion: no equivalent stress.',
  'Limits of size of 2A and 2B, or as designated (ASME B1.1, from memory); shear strength half the tensile strength.',
  'The band is the snug torque; the preload is of it alone, before the turn.',
];

/** The lists there are, each made once: there are as many as ways to leave things unsaid. */
const lists = new Map<number, readonly string[]>();

function assumptionsOf({ callout, torque, joint, engagement }: CalloutCase): readonly string[] {
  const { runningMinNm: least, runningMaxNm: greatest, tightening } = callout;
  const held = [
    torque.ifAdded !== null,
    greatest !== null && least === null,
    greatest === null && least !== null,
    joint !== null && callout.scatter === null,
    joint !== null,
    joint !== null && tightening?.by === 'nutFactor',
    engagement !== null && !('reason' in engagement),
    callout.angleDeg !== null,
  ];
  let key = 0;
  for (const holds of held) key = 2 * key + (holds ? 1 : 0);
  const known = lists.get(key) ?? Object.freeze(said.filter((_, at) => held[at] === true));
  lists.set(key, known);
  return known;
}
