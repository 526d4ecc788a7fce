import type { Finding } from '../../../../shared-types/judged.ts';
import { openingLimits } from '../../socket/index.ts';
import { sameNominalMm } from '../../socket/sameNominal.ts';
import { atLeast } from '../../tolerance.ts';
import { showNumber } from '../../units/index.ts';
import type { Callout } from '../callout.ts';
import type { CalloutRule } from '../calloutCase.ts';
import { notHeldNote } from '../notHeld.ts';
import type { Wrench } from '../wrench.ts';

/** `wrong-wrench`: the size called out against the head of the callout's form and thread. */
export const wrongWrench: CalloutRule = ({ callout }, found) => {
  const { wrench, head, thread } = callout;
  if (wrench === null) return;
  const finding = thread.sameFinding(`wrench ${head} ${wrench.text}`, () => judgeWrench(callout, wrench));
  if (finding !== null) found.push(finding);
};

function judgeWrench({ head: form, thread }: Callout, wrench: Wrench): Finding | null {
  if (form === null)
    return notHeldNote('wrong-wrench', `Whether ${wrench.text} fits is not judged: the callout names no form of head.`);
  const { held, reason } = thread.head(form);
  if (held === null)
    return notHeldNote('wrong-wrench', `Whether ${wrench.text} fits is not judged: ${reason}`.slice(0, noteMost));
  const { head, near } = held;
  const headText = `${form} head of ${thread.thread.designation}, ${head.nominal} (${head.citation.number})`;
  const fault = (severity: Finding['severity'], message: string): Finding => ({
    rule: 'wrong-wrench',
    severity,
    message,
    ...('mm' in wrench ? { value: wrench.mm } : {}),
    limit: head.nominalMm,
    unit: 'mm',
    source: head.citation,
  });
  if ('hexalobular' in wrench)
    return fault('reject', `A ${wrench.hexalobular} drives six lobes; it does not go on the ${headText}.`);
  if (sameNominalMm(wrench.mm, head.nominalMm)) {
    const opening = form === 'hex-socket' ? null : openingLimits({ nominalMm: wrench.mm });
    if (opening === null || atLeast(opening.minMm, head.limits?.acrossFlatsMaxMm ?? 0)) return null;
    const least = showNumber(opening.minMm);
    return fault(
      'reject',
      `A ${wrench.text} opening may be as small as ${least} mm: it does not go on every ${headText}.`,
    );
  }
  const neighbour = near.find((opening) => sameNominalMm(opening.nominalMm, wrench.mm));
  if (neighbour?.goesOn === true) {
    const { clearanceMaxMm } = neighbour;
    const loose = clearanceMaxMm === null ? '' : `, with up to ${showNumber(clearanceMaxMm)} mm of clearance`;
    return fault('query', `${wrench.text} is not the size of the ${headText}; it goes on${loose}.`);
  }
  const why = neighbour?.goesOn === false ? 'does not go on' : 'is not the size of';
  return fault('reject', `${wrench.text} ${why} the ${headText}.`);
}

/** A refusal lists all that is held; a note needs not. */
const noteMost = 300;
