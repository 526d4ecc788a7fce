import wrenchOpeningsAsmeB1822 from '../../../data/handbook/wrench-openings-asme-b18.2.2.json' with { type: 'json' };
import squareDrivesAsaB538 from '../../../data/handbook/square-drives-asa-b5.38.json' with { type: 'json' };
import squareDrivesIso11741 from '../../../data/handbook/square-drives-iso-1174-1.json' with { type: 'json' };
import testTorquesIso17111 from '../../../data/handbook/test-torques-iso-1711-1.json' with { type: 'json' };
import wrenchHeadsAA1346 from '../../../data/handbook/wrench-heads-a-a-1346.json' with { type: 'json' };
import { transcribed } from './transcribed.ts';

/** Wrench openings, wrench heads, driving squares, test torques of wrenches. */
export const openingTables = {
  'wrench-openings-asme-b18.2.2': transcribed<'wrench-openings-asme-b18.2.2'>(wrenchOpeningsAsmeB1822),
  'square-drives-asa-b5.38': transcribed<'square-drives-asa-b5.38'>(squareDrivesAsaB538),
  'square-drives-iso-1174-1': transcribed<'square-drives-iso-1174-1'>(squareDrivesIso11741),
  'test-torques-iso-1711-1': transcribed<'test-torques-iso-1711-1'>(testTorquesIso17111),
  'wrench-heads-a-a-1346': transcribed<'wrench-heads-a-a-1346'>(wrenchHeadsAA1346),
};
