import hexHeadIso4014 from '../../../data/handbook/hex-head-iso-4014.json' with { type: 'json' };
import hexNutIso4032 from '../../../data/handbook/hex-nut-iso-4032.json' with { type: 'json' };
import acrossFlatsIso272 from '../../../data/handbook/across-flats-iso-272.json' with { type: 'json' };
import acrossFlatsDinIso from '../../../data/handbook/across-flats-din-iso.json' with { type: 'json' };
import socketHeadIso4762 from '../../../data/handbook/socket-head-iso-4762.json' with { type: 'json' };
import hexalobularIso10664 from '../../../data/handbook/hexalobular-iso-10664.json' with { type: 'json' };
import hexCapScrewAsmeB1821 from '../../../data/handbook/hex-cap-screw-asme-b18.2.1.json' with { type: 'json' };
import heavyHexAsme from '../../../data/handbook/heavy-hex-asme.json' with { type: 'json' };
import structuralMetricTextbook from '../../../data/handbook/structural-metric-textbook.json' with { type: 'json' };
import socketHeadAsmeB183 from '../../../data/handbook/socket-head-asme-b18.3.json' with { type: 'json' };
import { transcribed } from './transcribed.ts';

/** Heads and nuts: across flats, across corners, heights. */
export const headTables = {
  'hex-head-iso-4014': transcribed<'hex-head-iso-4014'>(hexHeadIso4014),
  'hex-nut-iso-4032': transcribed<'hex-nut-iso-4032'>(hexNutIso4032),
  'across-flats-iso-272': transcribed<'across-flats-iso-272'>(acrossFlatsIso272),
  'across-flats-din-iso': transcribed<'across-flats-din-iso'>(acrossFlatsDinIso),
  'socket-head-iso-4762': transcribed<'socket-head-iso-4762'>(socketHeadIso4762),
  'hexalobular-iso-10664': transcribed<'hexalobular-iso-10664'>(hexalobularIso10664),
  'hex-cap-screw-asme-b18.2.1': transcribed<'hex-cap-screw-asme-b18.2.1'>(hexCapScrewAsmeB1821),
  'heavy-hex-asme': transcribed<'heavy-hex-asme'>(heavyHexAsme),
  'structural-metric-textbook': transcribed<'structural-metric-textbook'>(structuralMetricTextbook),
  'socket-head-asme-b18.3': transcribed<'socket-head-asme-b18.3'>(socketHeadAsmeB183),
};
