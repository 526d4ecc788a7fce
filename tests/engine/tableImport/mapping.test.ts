import { describe, expect, it } from 'vitest';
import { asRunColumns } from '../../../shared-types/asRun.ts';
import { calloutColumns } from '../../../shared-types/callout.ts';
import {
  guessMapping,
  headerSign,
  importTargets,
  mappingFault,
  unitsSeen,
} from '../../../renderer/engine/tableImport/index.ts';
import { csv } from './tried.ts';

const { callouts, 'as-run': asRun } = importTargets;

function fed(names: string[], target = callouts) {
  return guessMapping(names, target).mapping.map(({ column, unit }) => (unit === null ? column : `${column}: ${unit}`));
}

describe('the columns of a file', () => {
  it('are told by our names, whatever their case, blanks and signs', () => {
    expect(fed([...calloutColumns])).toEqual([...calloutColumns]);
    expect(fed([...asRunColumns], asRun)).toEqual([...asRunColumns]);
    expect(fed(['ID', 'Thread', 'torque_min', 'Torque Max', 'Minimum torque', 'Colour'])).toEqual([
      ...['id', 'thread', 'torqueMin', 'torqueMax'],
      ...[null, null],
    ]);
  });

  it('are told by other names people give them', () => {
    expect(fed(['Callout', 'Thread size', 'Min torque', 'Max. torque', 'Property class'])).toEqual([
      ...['id', 'thread', 'torqueMin', 'torqueMax', 'strength'],
    ]);
    expect(fed(['Callout', 'Pos', 'Cycle', 'Final torque', 'S/N', 'Date'], asRun)).toEqual([
      ...['callout', 'position', 'cycle', 'final', 'serial', 'time'],
    ]);
  });

  it.each([
    ['torqueMin (N·m)', 'torqueMin: N·m'],
    ['Min torque [ft-lb]', 'torqueMin: lbf·ft'],
    ['torque max / Nm', 'torqueMax: N·m'],
    ['Torque Max, in-lbs', 'torqueMax: lbf·in'],
    ['torqueMin in N·m', 'torqueMin: N·m'],
    ['torqueMin_Nm', 'torqueMin: N·m'],
    ['preloadMin (kN)', 'preloadMin: kN'],
    ['engagement (mm)', 'engagement: mm'],
  ])('have the unit their header says: %s', (header, expected) => {
    expect(fed([header])).toEqual([expected]);
  });

  it.each([
    ['torqueMin (nm)', /nanometre/],
    ['torqueMin (lb)', /unit of mass/],
    ['torqueMin (mm)', /unit of length/],
    ['engagement (N·m)', /unit of torque/],
    ['torqueMin (see note)', /no unit/],
    ['lubrication (mm)', /takes none/],
  ])('have none where it can be read in two ways, or is of another kind: %s', (header, why) => {
    const { mapping, doubts } = guessMapping([header], callouts);
    expect(mapping[0]?.unit).toBeNull();
    expect(doubts.get(0)).toMatch(why);
  });

  it('that may both be the same are neither, and it is said', () => {
    const { mapping, doubts } = guessMapping(['Min torque', 'Minimum torque', 'torque max'], callouts);
    expect(mapping.map(({ column }) => column)).toEqual([null, null, 'torqueMax']);
    expect([...doubts.keys()]).toEqual([0, 1]);
    expect(fed(['torqueMin', 'Min torque'])).toEqual(['torqueMin', null]);
  });

  it('lack nothing, or what they lack is named', () => {
    const of = (names: string[]) => mappingFault(guessMapping(names, callouts).mapping, callouts);
    expect(of(['id', 'thread', 'torqueMin', 'torqueMax'])).toBeNull();
    expect(of(['id', 'thread', 'torque', 'tolerance'])).toBeNull();
    expect(of(['id', 'thread', 'torqueMin'])).toMatch(/^torqueMax is fed by no column/);
    const twice = [
      { column: 'id', unit: null },
      { column: 'id', unit: null },
    ];
    expect(mappingFault(twice, callouts)).toMatch(/^id is fed by two/);
  });

  it('are remembered as a set, in any order', () => {
    expect(headerSign(['id', 'Thread size'])).toBe(headerSign(['thread-size', 'ID']));
    expect(headerSign(['id', 'thread'])).not.toBe(headerSign(['id', 'threads']));
  });
});

describe('the units of a column', () => {
  it('are counted, and numbers without one', () => {
    const cells = ['45 lbf·ft', '46 ft-lb', '50 N·m', '47', '1/2 lbf·ft', 'as drawn', '', '45,5 N·m'];
    const grid = csv(`id;torqueMin\n${cells.map((cell, at) => `C-${at};${cell}`).join('\n')}\n`);
    expect(unitsSeen(grid, 1, 'torque')).toEqual({
      units: [
        { unit: 'lbf·ft', cells: 3 },
        { unit: 'N·m', cells: 2 },
      ],
      bare: 1,
    });
  });
});
