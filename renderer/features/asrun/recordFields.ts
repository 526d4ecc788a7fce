import { quantityOf, textOf } from '../judged/rowFields.ts';
import type { RowFieldGroup } from '../judged/rowFields.ts';

const methods = [
  { value: 'read', label: 'Read off the tool while it was turned' },
  { value: 'set', label: 'Only set on the tool, not read' },
];

/** Every column of a record that a rule reads, as a person writes it down. */
export function recordGroups(callouts: readonly string[]): readonly RowFieldGroup[] {
  return [
    {
      title: 'Fastener',
      fields: [
        callouts.length === 0
          ? { path: 'callout', label: 'Callout', is: 'text' }
          : {
              ...{ path: 'callout', label: 'Callout', is: 'choice' },
              choices: callouts.map((id) => ({ value: id, label: id })),
            },
        { path: 'position', label: 'Position', is: 'text', hint: 'Its number in the pattern' },
        { path: 'cycle', label: 'Cycle', is: 'text', hint: '1 for the first time it is tightened' },
        textOf('pass', 'Pass', 'Where it is tightened in several'),
      ],
    },
    {
      title: 'Torque and turn',
      fields: [
        { path: 'final', label: 'Final torque', is: 'quantity', of: 'torque' },
        quantityOf('running', 'Running torque', 'torque'),
        quantityOf('breakaway', 'Breakaway torque', 'torque', 'Of the removal before'),
        { ...textOf('method', 'The final torque was'), is: 'choice', choices: methods },
        textOf('turns', 'Turns', 'as "4.5", from finger-tight on'),
        quantityOf('angle', 'Turn after the snug torque', 'angle'),
      ],
    },
    {
      title: 'Tool, day and temperature',
      fields: [
        textOf('tool', 'Tool'),
        textOf('serial', 'Serial', 'By which its values are found again'),
        textOf('time', 'Time', 'as "2026-04-21 09:10"'),
        textOf('temperature', 'Temperature', 'as "19 °C"'),
      ],
    },
  ];
}
