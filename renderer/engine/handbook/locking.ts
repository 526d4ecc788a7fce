import prevailingMilDtl45916Coarse from '../../../data/handbook/prevailing-mil-dtl-45916-coarse.json' with { type: 'json' };
import prevailingMilDtl45916Fine from '../../../data/handbook/prevailing-mil-dtl-45916-fine.json' with { type: 'json' };
import breakawayArmyCoarse from '../../../data/handbook/breakaway-army-coarse.json' with { type: 'json' };
import breakawayArmyFine from '../../../data/handbook/breakaway-army-fine.json' with { type: 'json' };
import frictionHelicopterArmy from '../../../data/handbook/friction-helicopter-army.json' with { type: 'json' };
import reuseFaaAc4313Coarse from '../../../data/handbook/reuse-faa-ac-43.13-coarse.json' with { type: 'json' };
import reuseFaaAc4313Fine from '../../../data/handbook/reuse-faa-ac-43.13-fine.json' with { type: 'json' };
import reuseGeneratorSetArmy from '../../../data/handbook/reuse-generator-set-army.json' with { type: 'json' };
import prevailingIso2320Class04 from '../../../data/handbook/prevailing-iso-2320-class-04.json' with { type: 'json' };
import runningTorqueRules from '../../../data/handbook/running-torque-rules.json' with { type: 'json' };
import { transcribed } from './transcribed.ts';

/** Running, breakaway and prevailing torque of locking fasteners. */
export const lockingTables = {
  'prevailing-mil-dtl-45916-coarse': transcribed<'prevailing-mil-dtl-45916-coarse'>(prevailingMilDtl45916Coarse),
  'prevailing-mil-dtl-45916-fine': transcribed<'prevailing-mil-dtl-45916-fine'>(prevailingMilDtl45916Fine),
  'breakaway-army-coarse': transcribed<'breakaway-army-coarse'>(breakawayArmyCoarse),
  'breakaway-army-fine': transcribed<'breakaway-army-fine'>(breakawayArmyFine),
  'friction-helicopter-army': transcribed<'friction-helicopter-army'>(frictionHelicopterArmy),
  'reuse-faa-ac-43.13-coarse': transcribed<'reuse-faa-ac-43.13-coarse'>(reuseFaaAc4313Coarse),
  'reuse-faa-ac-43.13-fine': transcribed<'reuse-faa-ac-43.13-fine'>(reuseFaaAc4313Fine),
  'reuse-generator-set-army': transcribed<'reuse-generator-set-army'>(reuseGeneratorSetArmy),
  'prevailing-iso-2320-class-04': transcribed<'prevailing-iso-2320-class-04'>(prevailingIso2320Class04),
  'running-torque-rules': transcribed<'running-torque-rules'>(runningTorqueRules),
};
