import { describe, expect, it } from 'vitest';
import { preloadTables, torqueTables } from '../../../renderer/engine/handbook/index.ts';
import { effectiveNutFactor } from '../../../renderer/engine/preload/formula/index.ts';
import { jointTask, publishedNutFactors, publishedScatter } from '../../../renderer/engine/preload/index.ts';

const m10 = { thread: 'M10', preload: '1 kN' };
const conditions = (joint: Record<string, unknown>) =>
  jointTask({ ...m10, ...joint }).published.map((row) => row.condition);

describe('published factors', () => {
  it('are every row of their tables, with the row’s own basis', () => {
    expect(publishedNutFactors.map(({ condition, min, max, basis }) => ({ condition, min, max, basis }))).toEqual(
      torqueTables['nut-factors'].rows.map((row) => ({
        condition: row.condition,
        min: row.K ?? row.K_min,
        max: row.K ?? row.K_max,
        basis: row.source_row,
      })),
    );
    expect(publishedScatter.map(({ condition, min, basis }) => ({ condition, min, basis }))).toEqual(
      preloadTables['preload-uncertainty'].rows.map((row) => ({
        condition: row.method,
        min: row.uncertainty_percent / 100,
        basis: row.basis,
      })),
    );
  });

  it('recalled rows say so', () => {
    const recalled = publishedScatter.filter((row) => row.source.obtained === 'from memory');
    expect(recalled.map((row) => row.condition)).toEqual([
      'hydraulic tensioner',
      'preload-indicating washer',
      'ultrasonic',
      'bolt elongation measurement',
    ]);
  });
});

describe('a factor given is shown beside what prints it', () => {
  it.each([
    [0.2, ['zinc plated', 'unlubricated (NASA)']],
    [0.16, ['cadmium plated']],
    [0.3, ['nonplated, black finish']],
    [0.13, ['lubricated (NASA)']],
    [0.11, ['lubricated (NASA)']],
    [0.15, ['lubricated (NASA)']],
    [0.17, []],
  ])('nut factor %d', (nominal, printed) => {
    expect(conditions({ nutFactor: { nominal } })).toEqual(printed);
  });

  it('cadmium: 0.16 is held, and the note beside it names the 0.20 that is also in print', () => {
    const [row] = jointTask({ ...m10, nutFactor: { nominal: 0.16 } }).published;
    expect(row?.notes).toMatch(/cadmium: \.16 here, \.20/);
  });

  it.each([
    [0.25, ['torque wrench, lubricated']],
    [0.35, ['torque wrench, unlubricated']],
    [0.05, ['instrumented bolts', 'bolt elongation measurement']],
    [0.07, []],
  ])('scatter %d', (scatter, printed) => {
    expect(conditions({ nutFactor: { nominal: 0.17 }, scatter })).toEqual(printed);
  });

  it('nothing is chosen where nothing is given', () => {
    const told = jointTask({ ...m10, friction: { thread: 0.12, bearing: 0.12, bearingDiameterMm: 13 } });
    expect(told.published).toEqual([]);
    expect(told.preloadN.min).toBe(told.preloadN.max);
  });
});

/** The source's own evaluation of its tests: 90 N·m on a thread of 1/2 in. */
it.each(preloadTables['preload-scatter'].rows)('scatter tests, $condition: a nut factor of 0.207', (row) => {
  const K = effectiveNutFactor({ torqueNm: 90, diameterMm: 12.7, preloadN: row.mean_preload_kN * 1000 });
  expect(Math.abs(K - 0.207)).toBeLessThanOrEqual(0.0005);
});
