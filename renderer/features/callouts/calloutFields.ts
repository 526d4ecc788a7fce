import { headForms } from '../../../shared-types/plan.ts';
import { headWords } from '../catalog/words.ts';
import { quantityOf as quantity, textOf as text } from '../judged/rowFields.ts';
import type { RowFieldGroup } from '../judged/rowFields.ts';

const yesNo = [
  { value: 'yes', label: 'Yes, it is in the band' },
  { value: 'no', label: 'No, it is added to the band' },
];

/** Every column that a rule reads, as a person writes it down. */
export const calloutGroups: readonly RowFieldGroup[] = [
  {
    title: 'Callout',
    fields: [
      { path: 'id', label: 'Id', is: 'text', hint: 'What the drawing calls it' },
      { path: 'thread', label: 'Thread', is: 'text', hint: 'as "3/8-24 UNF" or "M10"' },
      quantity('torqueMin', 'Torque, least', 'torque'),
      quantity('torqueMax', 'Torque, most', 'torque'),
      quantity('torque', 'or torque', 'torque', 'With a tolerance, in place of least and most'),
      text('tolerance', 'Tolerance, ±', 'as "10 %" or "3 N·m"'),
      text('torqueAlt', 'Band in a second unit', 'as "62-67 N·m", as the drawing prints it'),
      text('lubrication', 'Lubrication or condition', 'Picks among the published bands'),
    ],
  },
  {
    title: 'Fastener and wrench',
    fields: [
      text('strength', 'Class, grade or material', 'as "8.8" or "SAE J429 grade 5"'),
      {
        ...text('head', 'Head'),
        is: 'choice',
        choices: headForms.map((value) => ({ value, label: headWords[value] })),
      },
      quantity('wrench', 'Wrench called out', 'head-size'),
    ],
  },
  {
    title: 'Locking and running torque',
    folded: true,
    fields: [
      text('locking', 'Locking document', 'as "MIL-DTL-45916"'),
      { ...text('runningIncluded', 'Running torque'), is: 'choice', choices: yesNo },
      quantity('runningMin', 'Running torque, least', 'torque'),
      quantity('runningMax', 'Running torque, most', 'torque'),
      quantity('breakawayMin', 'Breakaway torque, least', 'torque'),
    ],
  },
  {
    title: 'Preload',
    folded: true,
    fields: [
      text('nutFactor', 'Nut factor K', 'No K is taken by itself'),
      text('frictionThread', 'Friction in the thread', 'In place of K'),
      text('frictionBearing', 'Friction under the head'),
      quantity('bearingDiameter', 'Mean diameter under the head', 'length'),
      text('scatter', 'Scatter of preload, ±', 'as "25 %"'),
      quantity('preloadMin', 'Preload, least', 'force'),
      quantity('preloadMax', 'Preload, most', 'force'),
    ],
  },
  {
    title: 'Engagement',
    folded: true,
    fields: [
      text('engagement', 'Length of engagement', 'as "0.5 in"'),
      quantity('internalUltimate', 'Tensile strength of the internal thread', 'stress'),
    ],
  },
  {
    title: 'Tool, passes and turn',
    folded: true,
    fields: [
      text('toolAccuracy', 'Tool, ± of the reading', 'as "4 %"'),
      text('passes', 'Passes', 'as "50 %; 100 %"'),
      text('angle', 'Turn after the torque', 'as "60 ± 5 deg"'),
    ],
  },
];

export const labelOf: ReadonlyMap<string, string> = new Map(
  calloutGroups.flatMap(({ fields }) => fields.map(({ path, label }) => [path, label])),
);
