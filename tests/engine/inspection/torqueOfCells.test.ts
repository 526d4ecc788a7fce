/** What a callout asks of a step: its band in its own words, its running torque, source and condition. */
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { torqueOfCells } from '../../../renderer/engine/inspection/index.ts';

const plain = { id: 'A', thread: 'M10', torqueMin: '45 N·m', torqueMax: '50 N·m' };

describe('the torque of a callout', () => {
  it.each([
    ['as typed', {}, '45 N·m', '50 N·m'],
    ['in its own unit and spelling', { torqueMin: '33.5 ft-lb', torqueMax: '450 in-lb' }, '33.5 ft-lb', '450 in-lb'],
    [
      'with a point for the comma of a table',
      { torqueMin: '45,5 N·m', torqueMax: '50,25 N·m' },
      '45.5 N·m',
      '50.25 N·m',
    ],
  ])('%s', (_, cells, min, max) => {
    expect(torqueOfCells({ ...plain, ...cells }).callout).toEqual({ min, max });
  });

  it.each([
    ['40 lbf·ft', '10 %', '36 lbf·ft', '44 lbf·ft'],
    ['70 lbf·ft', '± 7 lbf·ft', '63 lbf·ft', '77 lbf·ft'],
    ['100 lbf·in', '0 %', '100 lbf·in', '100 lbf·in'],
  ])('%s within %s, worked out in its unit', (torque, tolerance, min, max) => {
    expect(torqueOfCells({ id: 'A', thread: 'M10', torque, tolerance }).callout).toEqual({ min, max });
  });

  it('has what else the callout says of it, and nothing that it does not', () => {
    expect(torqueOfCells(plain)).toEqual({
      ...{ callout: { min: '45 N·m', max: '50 N·m' }, source: null, condition: null, thread: 'M10x1.5' },
    });
    const whole = {
      runningMin: '1 N·m',
      runningMax: '20 lbf·in',
      runningIncluded: 'no',
      lubrication: 'dry',
      Source: 'Drawing 7',
    };
    expect(torqueOfCells({ ...plain, ...whole })).toMatchObject({
      ...{ running: { min: '1 N·m', max: '20 lbf·in' }, runningIncluded: false, source: 'Drawing 7', condition: 'dry' },
    });
    expect(torqueOfCells({ ...plain, runningMax: '2 N·m' })).not.toHaveProperty('running');
  });

  it.each([
    ['a band without a unit', { torqueMin: '45' }, /no unit/],
    ['half a band', { torqueMax: '' }, /torqueMax: is empty/],
    ['no thread', { thread: '' }, /thread: is empty/],
    ['an empty band', { torqueMin: '51 N·m' }, /above the greatest/],
    ['nothing', { id: '', thread: '', torqueMin: '', torqueMax: '' }, /nothing is typed/],
  ])('is refused for %s', (_, cells, message) => {
    const given = Object.fromEntries(Object.entries({ ...plain, ...cells }).filter(([, text]) => text !== ''));
    expect(() => torqueOfCells(given)).toThrow(RefusedError);
    expect(() => torqueOfCells(given)).toThrow(message);
  });
});
