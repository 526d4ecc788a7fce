/**
 * Torque and preload against print, through the headless command `preload`, and through the engine's own functions where a page prints
 * the areas it goes on with. None of the printed preloads and torques is in the program.
 */
import { describe, expect, it } from 'vitest';
import type { JointResult } from '../../shared-types/joint.ts';
import { preloadTables } from '../../renderer/engine/handbook/index.ts';
import {
  greatestPreloadN,
  jointConstant,
  leastPreloadN,
  serviceStressMPa,
  stressSharePreloadN,
  tensionMPa,
} from '../../renderer/engine/preload/formula/index.ts';
import { convertValue } from '../../renderer/engine/units/index.ts';
import { resultOf } from '../electron/headless/inProcess.ts';
import { fault, faultWithin, numberOf, printed, type Miss } from './values/printed.ts';

const answer = (joint: Record<string, unknown>): Promise<JointResult> => resultOf('preload', joint);

describe('VDI 2230, preload and torque at 90 % of yield', () => {
  interface FineRow {
    thread: string;
    friction: string;
    dwMm: string;
    dhMm: string;
    printed: Record<string, string>;
  }
  interface CoarseRow {
    thread: string;
    friction: string;
    strength: string;
    printed: { preloadKN: string };
  }
  const fine = printed<FineRow>('tightening-fine-vdi-2230');
  const coarse = printed<CoarseRow>('tightening-coarse-vdi-2230');
  const cells = fine.rows.flatMap((row) =>
    Object.entries(row.printed).map(([column, text]) => ({ row, column, text })),
  );

  const at = (thread: string, strength: string, friction: string, bearingDiameterMm: number): Promise<JointResult> =>
    answer({
      thread,
      strength,
      friction: { thread: Number(friction), bearing: Number(friction), bearingDiameterMm },
      form: 'linear',
      yieldShare: 0.9,
    });

  it('has 18 rows and 108 values of fine threads, 3 of coarse ones', () => {
    expect([fine.rows.length, cells.length, coarse.rows.length]).toEqual([18, 108, 3]);
  });

  // The tolerances are the source file's own, found by its formula: 0.34 % of a preload, 0.8 % of a torque printed in whole N·m.
  it.each(cells)('$row.thread, μ $row.friction, $column: $text', async ({ row, column, text }) => {
    const [kind, strength = ''] = column.split(' ');
    const result = await at(row.thread, strength, row.friction, (Number(row.dwMm) + Number(row.dhMm)) / 2);
    expect(
      kind === 'preloadKN'
        ? faultWithin(result.preloadN.nominal / 1000, text, 0.0034 * numberOf(text), fine.source)
        : faultWithin(result.torqueNm.seating.nominal, text, Math.max(0.5, 0.008 * numberOf(text)), fine.source),
    ).toBeNull();
  });

  it.each(coarse.rows)('$thread, μ $friction, $strength: $printed.preloadKN kN', async (row) => {
    const { preloadN } = await at(row.thread, row.strength, row.friction, 10);
    const text = row.printed.preloadKN;
    expect(faultWithin(preloadN.nominal / 1000, text, 0.0034 * numberOf(text), coarse.source)).toBeNull();
  });
});

describe('torque by the nut factor, worked examples of textbooks', () => {
  interface Row {
    thread: string;
    diameterIn: string;
    nutFactor: string;
    preloadLbf: string;
    printed: { torqueLbfIn: string };
  }
  const { rows, source } = printed<Row>('nut-factor-examples-textbooks');

  it('has 4 rows', () => {
    expect(rows).toHaveLength(4);
  });

  it.each(rows)('K $nutFactor, $diameterIn in, $preloadLbf lbf: $printed.torqueLbfIn lbf·in', async (row) => {
    const { torqueNm } = await answer({
      thread: row.thread,
      nutFactor: { nominal: Number(row.nutFactor), diameterMm: Number(row.diameterIn) * 25.4 },
      preload: `${row.preloadLbf} lbf`,
    });
    const lbfIn = convertValue(torqueNm.seating.nominal, 'N·m', 'lbf·in');
    expect(fault(lbfIn, row.printed.torqueLbfIn, undefined, undefined, source)).toBeNull();
  });
});

describe('stresses in a bolted joint, Example 8-3 of a design textbook', () => {
  interface Row {
    preloadLbf: string;
    loadLbf: string;
    boltStiffness: string;
    jointStiffness: string;
    areaIn2: string;
    printed: { preloadStressKsi: string; jointConstant: string; boltStressKsi: string };
  }
  const { rows, source } = printed<Row>('joint-example-textbook');
  const [row] = rows;
  if (row === undefined) throw new Error('the example is missing');
  // Every formula here is the same in pounds and inches.
  const preloadN = numberOf(row.preloadLbf);
  const stressAreaMm2 = numberOf(row.areaIn2);
  const constant = jointConstant({
    boltStiffnessNPerMm: numberOf(row.boltStiffness),
    jointStiffnessNPerMm: numberOf(row.jointStiffness),
  });

  it.each([
    ['preload stress', tensionMPa({ preloadN, stressAreaMm2 }) / 1000, row.printed.preloadStressKsi],
    ['joint constant', constant, row.printed.jointConstant],
    [
      'bolt stress under load',
      serviceStressMPa({ jointConstant: constant, loadN: numberOf(row.loadLbf), preloadN, stressAreaMm2 }) / 1000,
      row.printed.boltStressKsi,
    ],
  ])('%s', (_what, computed, text) => {
    expect(fault(computed, text, undefined, undefined, source)).toBeNull();
  });
});

interface NasaRow {
  thread: string;
  material: string;
  yieldPsi: string;
  areaIn2: string;
  printed: { nominal: string; min: string; max: string };
}

describe.each([
  ['preload-a286-nasa-tm-106943', 8],
  ['preload-cres-nasa-tm-106943', 8],
] as const)('%s: preload of a torque table', (name, count) => {
  const { rows, source } = printed<NasaRow>(name);
  const ends = ['nominal', 'min', 'max'] as const;
  const cells = rows.flatMap((row) => ends.map((end) => ({ row, end, text: row.printed[end] })));
  const constant = (named: string): number =>
    preloadTables['joint-constants-nasa'].rows.find((row) => row.name === named)?.value ?? Number.NaN;
  const share = constant('preload target share of yield');
  const relaxation = constant('relaxation loss used, share of preload');
  const scatter =
    (preloadTables['preload-uncertainty'].rows.find((row) => row.method === 'torque wrench, lubricated')
      ?.uncertainty_percent ?? Number.NaN) / 100;
  const misses: Record<string, Miss> = {
    'preload-a286-nasa-tm-106943 1/2-20 nominal': { by: 0.53, reason: '8834.5 rounded up' },
    'preload-a286-nasa-tm-106943 1/2-20 min': { by: 0.67, reason: 'from the printed nominal 8835: 6310.7' },
    'preload-a286-nasa-tm-106943 4-40 min': { by: 0.64, reason: 'from the printed nominal 334: 238.6' },
  };

  it(`has ${count} threads`, () => {
    expect(rows).toHaveLength(count);
  });

  it.each(cells)('$row.thread $end: $text lbf, from the printed area', ({ row, end, text }) => {
    const preloadN = stressSharePreloadN({
      share,
      yieldMPa: numberOf(row.yieldPsi),
      stressAreaMm2: numberOf(row.areaIn2),
    });
    const computed = {
      nominal: preloadN,
      min: leastPreloadN({ preloadN, scatter, lossN: 0, relaxation, form: 'divide' }),
      max: greatestPreloadN({ preloadN, scatter, gainN: 0 }),
    }[end];
    expect(fault(computed, text, misses[`${name} ${row.thread} ${end}`], undefined, source)).toBeNull();
  });

  it.each(cells)('$row.thread $end: $text lbf, by the command', async ({ row, end, text }) => {
    const { preloadN } = await answer({
      thread: row.thread,
      strength: { yieldMPa: convertValue(numberOf(row.yieldPsi), 'psi', 'MPa') },
      nutFactor: { nominal: 0.15 },
      stressShare: share,
      scatter,
      relaxation: { share: relaxation, form: 'divide' },
    });
    // The command computes the area; the page goes on with its printed one, rounded to half of its last digit.
    const digits = row.areaIn2.split('.')[1] ?? '';
    const ofArea = (0.5 * 10 ** -digits.length) / numberOf(row.areaIn2);
    const tolerance = 1 + 2 * ofArea * numberOf(text);
    expect(faultWithin(convertValue(preloadN[end], 'N', 'lbf'), text, tolerance, source)).toBeNull();
  });
});
