import torqueFaaAc4313Coarse from '../../../data/handbook/torque-faa-ac-43.13-coarse.json' with { type: 'json' };
import torqueFaaAc4313Fine from '../../../data/handbook/torque-faa-ac-43.13-fine.json' with { type: 'json' };
import torqueNasaA286 from '../../../data/handbook/torque-nasa-a286.json' with { type: 'json' };
import torqueNasaCres from '../../../data/handbook/torque-nasa-cres.json' with { type: 'json' };
import torqueNasaSmall from '../../../data/handbook/torque-nasa-small.json' with { type: 'json' };
import torqueHelicopterNutsArmy from '../../../data/handbook/torque-helicopter-nuts-army.json' with { type: 'json' };
import torqueArmyGeneral from '../../../data/handbook/torque-army-general.json' with { type: 'json' };
import torqueArmyTableF1 from '../../../data/handbook/torque-army-table-f1.json' with { type: 'json' };
import runDownRuleArmy from '../../../data/handbook/run-down-rule-army.json' with { type: 'json' };
import dragTorqueRuleFaa from '../../../data/handbook/drag-torque-rule-faa.json' with { type: 'json' };
import nutFactors from '../../../data/handbook/nut-factors.json' with { type: 'json' };
import { transcribed } from './transcribed.ts';

/** Torque against size, nut factors, and how running torque is added. */
export const torqueTables = {
  'torque-faa-ac-43.13-coarse': transcribed<'torque-faa-ac-43.13-coarse'>(torqueFaaAc4313Coarse),
  'torque-faa-ac-43.13-fine': transcribed<'torque-faa-ac-43.13-fine'>(torqueFaaAc4313Fine),
  'torque-nasa-a286': transcribed<'torque-nasa-a286'>(torqueNasaA286),
  'torque-nasa-cres': transcribed<'torque-nasa-cres'>(torqueNasaCres),
  'torque-nasa-small': transcribed<'torque-nasa-small'>(torqueNasaSmall),
  'torque-helicopter-nuts-army': transcribed<'torque-helicopter-nuts-army'>(torqueHelicopterNutsArmy),
  'torque-army-general': transcribed<'torque-army-general'>(torqueArmyGeneral),
  'torque-army-table-f1': transcribed<'torque-army-table-f1'>(torqueArmyTableF1),
  'run-down-rule-army': transcribed<'run-down-rule-army'>(runDownRuleArmy),
  'drag-torque-rule-faa': transcribed<'drag-torque-rule-faa'>(dragTorqueRuleFaa),
  'nut-factors': transcribed<'nut-factors'>(nutFactors),
};
