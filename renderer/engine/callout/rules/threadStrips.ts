import { showNumber } from '../../units/index.ts';
import type { CalloutRule } from '../calloutCase.ts';
import { notHeldNote } from '../notHeld.ts';
import { forceText } from '../words.ts';

const source =
  'FED-STD-H28/2B (1991, as reproduced), shear area formulas; limits of size by ASME B1.1, formulas of classes 2A, 3A, 2B and 3B (from memory).';

/** `thread-strips-first`: over the engagement given, a thread fails before the bolt does. */
export const threadStrips: CalloutRule = ({ callout, engagement }, found) => {
  const { engagementMm } = callout;
  if (engagement === null || engagementMm === null) return;
  if ('reason' in engagement) {
    found.push(notHeldNote('thread-strips-first', `What fails first is not judged: ${engagement.reason}`));
    return;
  }
  const { threadFailsBeforeBolt, failsFirst, requiredEngagementMm, loadsN } = engagement;
  if (threadFailsBeforeBolt === null) {
    const missing = callout.internalUltimateMPa === null ? 'the internal thread' : 'the fastener';
    found.push(
      notHeldNote(
        'thread-strips-first',
        `What fails first is judged for the external thread alone, which holds: no tensile strength of ${missing} is given.`,
      ),
    );
    return;
  }
  if (!threadFailsBeforeBolt) return;
  const load = failsFirst === 'internal thread' ? loadsN.internalThread : loadsN.externalThread;
  const loads =
    load !== null && loadsN.bolt !== null
      ? ` strips at ${forceText(load)}, before the bolt breaks at ${forceText(loadsN.bolt)}`
      : ' strips before the bolt breaks';
  const needed = requiredEngagementMm === null ? '' : `; ${showNumber(requiredEngagementMm)} mm are needed`;
  found.push({
    rule: 'thread-strips-first',
    severity: 'reject',
    message: `Over ${showNumber(engagementMm)} mm of engagement the ${failsFirst ?? 'external thread'}${loads}${needed}.`,
    value: engagementMm,
    ...(requiredEngagementMm === null ? {} : { limit: requiredEngagementMm }),
    unit: 'mm',
    source,
  });
};
