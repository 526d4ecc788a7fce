import classesIso8981 from '../../../data/handbook/classes-iso-898-1.json' with { type: 'json' };
import proofStressIso8981 from '../../../data/handbook/proof-stress-iso-898-1.json' with { type: 'json' };
import classesMetricTextbook from '../../../data/handbook/classes-metric-textbook.json' with { type: 'json' };
import gradesAstm from '../../../data/handbook/grades-astm.json' with { type: 'json' };
import gradesSaeJ429 from '../../../data/handbook/grades-sae-j429.json' with { type: 'json' };
import stainlessIso35061 from '../../../data/handbook/stainless-iso-3506-1.json' with { type: 'json' };
import materialsNasaTm106943 from '../../../data/handbook/materials-nasa-tm-106943.json' with { type: 'json' };
import nutStrengthNasaTm106943 from '../../../data/handbook/nut-strength-nasa-tm-106943.json' with { type: 'json' };
import { transcribed } from './transcribed.ts';

/** Property classes, grades and materials. */
export const strengthTables = {
  'classes-iso-898-1': transcribed<'classes-iso-898-1'>(classesIso8981),
  'proof-stress-iso-898-1': transcribed<'proof-stress-iso-898-1'>(proofStressIso8981),
  'classes-metric-textbook': transcribed<'classes-metric-textbook'>(classesMetricTextbook),
  'grades-astm': transcribed<'grades-astm'>(gradesAstm),
  'grades-sae-j429': transcribed<'grades-sae-j429'>(gradesSaeJ429),
  'stainless-iso-3506-1': transcribed<'stainless-iso-3506-1'>(stainlessIso35061),
  'materials-nasa-tm-106943': transcribed<'materials-nasa-tm-106943'>(materialsNasaTm106943),
  'nut-strength-nasa-tm-106943': transcribed<'nut-strength-nasa-tm-106943'>(nutStrengthNasaTm106943),
};
