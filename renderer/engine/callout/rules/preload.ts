import type { Finding, FindingSource } from '../../../../shared-types/judged.ts';
import { atLeast, atMost } from '../../tolerance.ts';
import { showNumber } from '../../units/index.ts';
import type { Callout } from '../callout.ts';
import type { CalloutCase, CalloutRule } from '../calloutCase.ts';
import { notHeldNote } from '../notHeld.ts';
import { forceText, percentText } from '../words.ts';

const noFactor = notHeldNote(
  'preload-over-proof',
  'No preload is judged: neither nut factor nor friction is given, and none is assumed.',
);

const byTurn = notHeldNote(
  'preload-below-minimum',
  'The callout goes on by a turn after the torque, and what preload the turn gives is not computed: the stiffness of the joint is not given.',
);

const formulas = {
  nutFactor:
    "F = T/(K·D) with the callout's own nut factor (mechanical engineering design textbook, 9th ed., eq. 8-27; NASA TM-106943, text).",
  friction:
    "Screw equation with the callout's own friction (mechanical engineering design textbook, eq. 8-1, 8-5, 8-6); stresses by distortion energy.",
};

/**
 * `preload-over-proof`, `preload-over-yield`, `preload-below-minimum`, `preload-above-maximum`: judged by the callout's own nut factor or
 * friction alone. Without one there is one note.
 */
export const preload: CalloutRule = (x, found) => {
  const { callout, joint } = x;
  if (callout.tightening === null) {
    found.push(noFactor);
    return;
  }
  if (joint === null) return;
  overProof(x, found);
  overYield(x, found);
  const { min, max } = joint.preloadN;
  const { preloadMinN, preloadMaxN } = callout;
  const source = formulas[callout.tightening.by];
  if (preloadMinN !== null && callout.angleDeg !== null) found.push(byTurn);
  else if (preloadMinN !== null && !atLeast(min, preloadMinN)) {
    found.push({
      rule: 'preload-below-minimum',
      severity: 'reject',
      message: `The least preload is ${forceText(min)}, ${forceText(preloadMinN - min)} under the minimum of ${forceText(preloadMinN)}${spread(callout)}.`,
      value: min,
      limit: preloadMinN,
      unit: 'N',
      source,
    });
  }
  if (preloadMaxN !== null && !atMost(max, preloadMaxN)) {
    found.push({
      rule: 'preload-above-maximum',
      severity: 'reject',
      message: `The greatest preload is ${forceText(max)}, ${forceText(max - preloadMaxN)} over the maximum of ${forceText(preloadMaxN)}${spread(callout)}.`,
      value: max,
      limit: preloadMaxN,
      unit: 'N',
      source,
    });
  }
};

function overProof({ callout, joint }: CalloutCase, found: Finding[]): void {
  const { strength } = callout;
  if (joint === null || strength === null) return;
  if (strength.proofMPa === null) {
    found.push(notHeldNote('preload-over-proof', `No stress under proof load is held for ${strength.name}.`));
    return;
  }
  const share = joint.proofShare?.max ?? 0;
  if (atMost(share, 1)) return;
  found.push({
    rule: 'preload-over-proof',
    severity: 'reject',
    message: `The greatest preload of ${forceText(joint.preloadN.max)} pulls with ${showNumber(share * strength.proofMPa)} MPa, ${percentText(share)} of the ${showNumber(strength.proofMPa)} MPa under proof load (${strength.name})${spread(callout)}.`,
    value: share * strength.proofMPa,
    limit: strength.proofMPa,
    unit: 'MPa',
    source: strengthSource(callout, 'proof'),
  });
}

/** Tension alone is no more than the equivalent stress: where torsion is not known and no proof stress is held, it must do. */
function overYield({ callout, joint }: CalloutCase, found: Finding[]): void {
  const { strength } = callout;
  if (joint === null || strength === null) return;
  if (strength.yieldMPa === null) {
    if (joint.stressMPa?.equivalent !== null)
      found.push(notHeldNote('preload-over-yield', `No yield strength is held for ${strength.name}.`));
    return;
  }
  const isTensionAlone = joint.yieldShare === null && strength.proofMPa === null;
  const growth = joint.preloadN.max / joint.preloadN.nominal;
  const share = isTensionAlone
    ? ((joint.stressMPa?.tension ?? 0) * growth) / strength.yieldMPa
    : (joint.yieldShare?.max ?? 0);
  if (atMost(share, 1)) return;
  found.push({
    rule: 'preload-over-yield',
    severity: 'reject',
    message: `At the greatest preload of ${forceText(joint.preloadN.max)}, ${isTensionAlone ? 'tension alone, without the torsion beside it,' : 'tension and torsion together'} reach ${showNumber(share * strength.yieldMPa)} MPa, ${percentText(share)} of the yield strength of ${showNumber(strength.yieldMPa)} MPa (${strength.name})${spread(callout)}.`,
    value: share * strength.yieldMPa,
    limit: strength.yieldMPa,
    unit: 'MPa',
    source: strengthSource(callout, 'yield'),
  });
}

function strengthSource({ strength }: Callout, of: 'proof' | 'yield'): FindingSource {
  const sources = strength?.sources ?? [];
  return (of === 'proof' ? sources.at(-1) : sources[0]) ?? 'The strength as the callout gives it.';
}

function spread({ scatter }: Callout): string {
  return scatter === null || scatter === 0
    ? ', with no scatter counted'
    : `, with a scatter of ${percentText(scatter)}`;
}
