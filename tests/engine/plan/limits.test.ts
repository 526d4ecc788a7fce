import { describe, expect, it } from 'vitest';
import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { planFrom, readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { squareName, squareSideMm } from '../../../renderer/engine/plan/squares.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, put, remove } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

function planWith(edit: Edit) {
  const source = smallPlan();
  edit(source);
  return planFrom(source);
}

function refusalOf(run: () => unknown): Refusal {
  try {
    run();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('a square drive', () => {
  // Rule 1 of command `bag`: 6.3, 10, 12.5, 20 and 25 mm are the same squares.
  it.each([
    [6.35, 6.3, 6.35, '1/4 in'],
    [9.525, 10, 9.525, '3/8 in'],
    [12.7, 12.5, 12.7, '1/2 in'],
    [19.05, 20, 19.05, '3/4 in'],
    [25.4, 25, 25.4, '1 in'],
  ])('of %d mm is that of %d mm', (inchMm, metricMm, sideMm, name) => {
    expect(squareSideMm(inchMm)).toBe(sideMm);
    expect(squareSideMm(metricMm)).toBe(sideMm);
    expect(squareName(sideMm)).toBe(name);
    for (const size of [inchMm, metricMm]) {
      for (const off of [-0.0099, 0.0099]) expect(squareSideMm(size + off)).toBe(sideMm);
      for (const off of [-0.0101, 0.0101]) expect(refusalOf(() => squareSideMm(size + off)).code).toBe('out-of-range');
    }
  });

  it('of no name is called by its side', () => {
    expect(squareName(8)).toBe('8 mm');
  });
});

describe('an amount', () => {
  const mass = 'catalog.carryGear[0].mass';
  it('may be nothing, and as much as 1 000 000', () => {
    expect(planWith(put(mass, '0 kg')).gear.get('C-1')?.massKg).toBe(0);
    expect(planWith(put(mass, '1000000 kg')).gear.get('C-1')?.massKg).toBe(1e6);
    const refusal = refusalOf(() => planWith(put(mass, '1000001 kg')));
    expect(refusal).toMatchObject({ code: 'out-of-range', field: mass, value: '1000001 kg' });
    expect(refusal.message).toContain('at most 1000000 kg');
    expect(refusalOf(() => planWith(put(mass, '-1 g'))).message).toContain('0 or more');
  });

  it.each(['catalog.sockets[0].length', 'catalog.sockets[0].outsideDiameter', 'catalog.fasteners[0].head.acrossFlats'])(
    '%s is more than nothing',
    (field) => {
      expect(refusalOf(() => planWith(put(field, '0 mm')))).toMatchObject({ code: 'out-of-range', field });
      expect(() => planWith(put(field, '0.1 mm'))).not.toThrow();
    },
  );

  it.each(['0 lbf·ft', '-1 lbf·ft'])('an increment of %s is none', (increment) => {
    const refusal = refusalOf(() => planWith(put('catalog.torqueTools[0].increment', increment)));
    expect(refusal).toMatchObject({ code: 'out-of-range', field: 'catalog.torqueTools[0].increment' });
    expect(refusal.message).toContain('more than 0');
  });
});

describe('a band', () => {
  // 1e-9 relative in every command: what is above by less counts as equal.
  it.each(['steps[1].callout', 'catalog.torqueTools[0]'])('%s may have no width, but not be upside down', (at) => {
    const ends = (min: string, max: string) => planWith(all(put(`${at}.min`, min), put(`${at}.max`, max)));
    expect(() => ends('75 lbf·ft', '75 lbf·ft')).not.toThrow();
    expect(() => ends('75.00000001 lbf·ft', '75 lbf·ft')).not.toThrow();
    expect(refusalOf(() => ends('75.000001 lbf·ft', '75 lbf·ft'))).toMatchObject({
      code: 'contradiction',
      field: `${at}.min`,
    });
  });
});

describe('what running torque does to a step (rules 5 and 6)', () => {
  const running = put('steps[1].running', { min: '2 lbf·ft', max: '4 lbf·ft' });
  const step = (edit: Edit) => {
    const found = planWith(edit).steps[1];
    return { demandNm: found?.demandNm, ...found?.aim };
  };
  const lbfFtNm = 1.3558179483314003;

  it('nothing where the callout includes it, or does not say', () => {
    const callout = { demandNm: 35 * lbfFtNm, minNm: 30 * lbfFtNm, maxNm: 35 * lbfFtNm };
    for (const edit of [all(), running, all(running, put('steps[1].runningIncluded', true))]) {
      const found = step(edit);
      for (const [name, nm] of Object.entries(callout))
        expect([name, found]).toEqual([name, expect.objectContaining({ [name]: expect.closeTo(nm, 9) as number })]);
    }
  });

  it('moves the aim to [min + running max, max + running min] and adds to the demand where it does not', () => {
    const found = step(all(running, put('steps[1].runningIncluded', false)));
    expect(found.demandNm).toBeCloseTo(39 * lbfFtNm, 9);
    expect(found.minNm).toBeCloseTo(34 * lbfFtNm, 9);
    expect(found.maxNm).toBeCloseTo(37 * lbfFtNm, 9);
  });
});

describe('the units a step is shown in', () => {
  const shown = (edit: Edit, index = 0) => planWith(edit).steps[index]?.shown;

  it('are those of its access and its torque', () => {
    expect(shown(all())).toEqual({ length: 'in', torque: 'lbf·ft' });
    expect(shown(put('steps[0].access.depth', '2 ft'))).toMatchObject({ length: 'in' });
    expect(shown(put('steps[0].access.depth', '50 mm'))).toMatchObject({ length: 'mm' });
    expect(shown(put('steps[1].callout', { min: '40 N·m', max: '45 N·m' }), 1)).toMatchObject({ torque: 'N·m' });
  });

  it('are those of the head where there is no access, and SI where there is nothing', () => {
    expect(shown(remove('steps[0].access'))).toMatchObject({ length: 'in' });
    expect(shown(all(remove('steps[0].access'), put('catalog.fasteners[0].head.acrossFlats', '14 mm')))).toMatchObject({
      length: 'mm',
    });
    expect(shown(all(), 2)).toEqual({ length: 'mm', torque: 'N·m' });
  });
});

describe('a limit that cannot be read', () => {
  it.each([
    ['steps[1].callout', { min: 'x', max: '0.5 N·m' }, 'steps[1].callout.min'],
    ['steps[1].callout', { min: '30 N·m', max: 'x' }, 'steps[1].callout.max'],
    ['steps[1].callout', { min: '30 N·m', max: '-1 N·m' }, 'steps[1].callout.max'],
    ['catalog.drivers[0].drive', 'x', 'catalog.drivers[0].drive'],
    ['catalog.torqueTools[0].max', 'x', 'catalog.torqueTools[0].max'],
  ])('%s of %j is refused once, and compared with nothing', (at, value, field) => {
    const refusal = refusalOf(() => planWith(put(at, value)));
    expect(refusal.field).toBe(field);
    expect(refusal.rows).toBeUndefined();
  });
});

describe('what a plan does not say', () => {
  it('is none: tethers, the mass of a bag, depth at the head, minutes, a share of the range', () => {
    const silent = planWith(remove('catalog.bags[0].mass'));
    expect(silent.sockets.get('S-9/16')?.tethers).toBe(0);
    expect(silent.bags.get('B-1')?.massKg).toBe(0);
    expect(planWith(all()).bags.get('B-1')?.massKg).toBeCloseTo(0.5, 12);
    expect(silent.steps[2]?.access).toMatchObject({ depthMm: 0, clearDiameterMm: null });
    expect(silent.steps.map(({ minutes }) => minutes)).toEqual([0, 0, 0]);
    expect(silent.rangeShareMin).toBe(0);
  });

  it.each([
    [0, 'a step that loosens names its fastener'],
    [1, 'a step that tightens names its fastener'],
  ])('of step %i is asked for in the words of what it does', (index, says) => {
    const refusal = refusalOf(() => planWith(remove(`steps[${index}].fastener`)));
    expect(refusal.message).toContain(says);
  });
});

it('a plan file of 32 MiB is read, and none that is larger', () => {
  const padded = (bytes: number) => '{}'.padEnd(bytes, ' ');
  expect(refusalOf(() => readPlan(padded(33_554_432)))).toMatchObject({ code: 'missing-field' });
  expect(refusalOf(() => readPlan(padded(33_554_433)))).toMatchObject({ code: 'too-large' });
});

describe('ids', () => {
  it('listed twice are refused where they come again', () => {
    expect(refusalOf(() => planWith(put('outings[0].bags', ['B-1', 'B-1'])))).toMatchObject({
      code: 'duplicate-id',
      field: 'outings[0].bags[1]',
      value: 'B-1',
    });
    const places = put('places', [{ id: 'foot' }, { id: 'foot' }]);
    expect(refusalOf(() => planWith(places))).toMatchObject({ code: 'duplicate-id', field: 'places[1].id' });
  });
});
