import preloadScatter from '../../../data/handbook/preload-scatter.json' with { type: 'json' };
import preloadUncertainty from '../../../data/handbook/preload-uncertainty.json' with { type: 'json' };
import jointConstantsNasa from '../../../data/handbook/joint-constants-nasa.json' with { type: 'json' };
import { transcribed } from './transcribed.ts';

/** Preload scatter and joint factors. */
export const preloadTables = {
  'preload-scatter': transcribed<'preload-scatter'>(preloadScatter),
  'preload-uncertainty': transcribed<'preload-uncertainty'>(preloadUncertainty),
  'joint-constants-nasa': transcribed<'joint-constants-nasa'>(jointConstantsNasa),
};
