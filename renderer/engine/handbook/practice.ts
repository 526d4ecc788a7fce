import humanFactors from '../../../data/handbook/human-factors.json' with { type: 'json' };
import nearSizes from '../../../data/handbook/near-sizes.json' with { type: 'json' };
import commonPractice from '../../../data/handbook/common-practice.json' with { type: 'json' };
import nominalSockets from '../../../data/handbook/nominal-sockets.json' with { type: 'json' };
import { transcribed } from './transcribed.ts';

/** Common practice without a published source, and single statements about people. */
export const practiceTables = {
  'human-factors': transcribed<'human-factors'>(humanFactors),
  'near-sizes': transcribed<'near-sizes'>(nearSizes),
  'common-practice': transcribed<'common-practice'>(commonPractice),
  'nominal-sockets': transcribed<'nominal-sockets'>(nominalSockets),
};
