import torqueToolsIso6789 from '../../../data/handbook/torque-tools-iso-6789.json' with { type: 'json' };
import torqueToolChoiceArmy from '../../../data/handbook/torque-tool-choice-army.json' with { type: 'json' };
import torqueToolRangeLaboratory from '../../../data/handbook/torque-tool-range-laboratory.json' with { type: 'json' };
import torqueToolEffectiveRangeArmy from '../../../data/handbook/torque-tool-effective-range-army.json' with { type: 'json' };
import { transcribed } from './transcribed.ts';

/** Torque tools: permissible deviation, and which share of the range to use. */
export const toolTables = {
  'torque-tools-iso-6789': transcribed<'torque-tools-iso-6789'>(torqueToolsIso6789),
  'torque-tool-choice-army': transcribed<'torque-tool-choice-army'>(torqueToolChoiceArmy),
  'torque-tool-range-laboratory': transcribed<'torque-tool-range-laboratory'>(torqueToolRangeLaboratory),
  'torque-tool-effective-range-army': transcribed<'torque-tool-effective-range-army'>(torqueToolEffectiveRangeArmy),
};
