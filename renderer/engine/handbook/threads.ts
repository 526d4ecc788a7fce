import pitchesIso262 from '../../../data/handbook/pitches-iso-262.json' with { type: 'json' };
import unifiedSeriesAsmeB11 from '../../../data/handbook/unified-series-asme-b1.1.json' with { type: 'json' };
import { transcribed } from './transcribed.ts';

/** Thread series: sizes, pitches, threads per inch. */
export const threadTables = {
  'pitches-iso-262': transcribed<'pitches-iso-262'>(pitchesIso262),
  'unified-series-asme-b1.1': transcribed<'unified-series-asme-b1.1'>(unifiedSeriesAsmeB11),
};
