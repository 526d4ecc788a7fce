import type { CalloutBand, CalloutComputed, PublishedLocking } from '../../../shared-types/callout.ts';
import type { LockingLimits } from '../locking/index.ts';
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
  const computed: CalloutComputed = {
    thread: thread.thread.designation,
    calloutNm: shown(band),
    assumptions: assumptionsOf(x),
    bands: bandsOf(callout),
  };
  if (torque.running !== null) computed.runningNm = shown(torque.running);
  if (!isEmpty(torque.aim)) {
    computed.aimNm = shown(torque.aim);
    computed.toolAccuracyMax = accuracyMax(torque.aim);
  }
  if (!isEmpty(torque.seating)) computed.seatingNm = shown(torque.seating);
  if (torque.ifAdded !== null)
    computed.ifRunningAdded = { aimNm: shown(torque.ifAdded.aim), seatingNm: shown(torque.ifAdded.seating) };
  if (strength !== null) {
    const { name, proofMPa, yieldMPa, ultimateMPa } = strength;
    computed.strength = { name, proofMPa, yieldMPa, ultimateMPa };
  }
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
    computed.greatestStressMPa = {
      tension: tension * growth,
      equivalent: equivalent === null ? null : equivalent * growth,
    };
  }
  if (proofShare !== null) computed.proofShare = proofShare;
  if (yieldShare !== null) computed.yieldShare = yieldShare;
}

function addHeld({ head: form, locking, thread }: Callout, computed: CalloutComputed): void {
  const head = form === null ? null : thread.head(form).held?.head;
  if (form !== null && head != null) {
    const { nominal, nominalMm, citation } = head;
    computed.head = { form, nominal, nominalMm, document: citation.number };
  }
  const named = locking === null ? null : thread.locking(locking).held;
  if (named !== null) computed.locking = printedLocking(named);
}

/** What one document says, without the words around it. */
export function printedLocking({ source, runningMaxNm, breakawayMinNm, reusedMinNm }: LockingLimits): PublishedLocking {
  return { document: source.number, runningMaxNm, breakawayMinNm, reusedMinNm };
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

const said = {
  readAsIncluded:
    'The callout does not say whether running torque is in its band: it is read as in it, and the other reading stands beside.',
  runningFromZero: 'No least running torque is given: it is taken as 0.',
  runningUnbounded: 'No greatest running torque is given: none is counted.',
  noScatter: 'Scatter of the preload is taken as 0: none is given.',
  noSettling: 'Settling and temperature change nothing of the preload: none is given.',
  noTorsion: 'A nut factor does not say the torque in the shank: no torsion and no equivalent stress.',
  fit: 'Limits of size of 2A and 2B, or of 3A and 3B where the designation says 3 (ASME B1.1, from memory); shear strength half the tensile strength.',
  snug: 'The band is the snug torque; the preload is of it alone, before the turn.',
};

function assumptionsOf({ callout, torque, joint, engagement }: CalloutCase): string[] {
  const list: string[] = [];
  if (torque.ifAdded !== null) list.push(said.readAsIncluded);
  if (callout.runningMaxNm !== null && callout.runningMinNm === null) list.push(said.runningFromZero);
  if (callout.runningMaxNm === null && callout.runningMinNm !== null) list.push(said.runningUnbounded);
  if (joint !== null) {
    if (callout.scatter === null) list.push(said.noScatter);
    list.push(said.noSettling);
    if (callout.tightening?.by === 'nutFactor') list.push(said.noTorsion);
  }
  if (engagement !== null && !('reason' in engagement)) list.push(said.fit);
  if (callout.angleDeg !== null) list.push(said.snug);
  return list;
}
