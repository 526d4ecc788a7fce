/**
 * Screws of other threads than fasteners' against print, through the headless command `preload`: raising a load is tightening, lowering
 * it is loosening. Square and Acme threads, with collar and without.
 */
import { describe, expect, it } from 'vitest';
import type { JointResult } from '../../shared-types/joint.ts';
import { bearingArmMm, screwThreadArmMm, tanLeadAngle } from '../../renderer/engine/preload/formula/index.ts';
import { convertValue } from '../../renderer/engine/units/index.ts';
import { resultOf } from '../electron/headless/inProcess.ts';
import { fault, faultWithin, numberOf, printed } from './values/printed.ts';

const answer = (joint: Record<string, unknown>): Promise<JointResult> => resultOf('preload', joint);

describe('worked examples of a machine elements textbook', () => {
  interface Row {
    example: string;
    nominalMm: string;
    pitchMm: string;
    friction: string;
    collarFriction: string;
    collarMeanMm: string;
    torqueNmm?: string;
    raiseN?: string;
    lowerN?: string;
    armMm?: string;
    printed: Record<string, string>;
  }
  const { rows, source } = printed<Row>('power-screws-examples');
  const cells = rows.flatMap((row) => Object.entries(row.printed).map(([column, text]) => ({ row, column, text })));

  function joint(row: Row, asked: Record<string, unknown>): Promise<JointResult> {
    return answer({
      thread: {
        meanDiameterMm: numberOf(row.nominalMm) - numberOf(row.pitchMm) / 2,
        leadMm: numberOf(row.pitchMm),
        halfAngleDeg: 0,
      },
      friction: {
        thread: numberOf(row.friction),
        bearing: numberOf(row.collarFriction),
        bearingDiameterMm: numberOf(row.collarMeanMm),
      },
      ...asked,
    });
  }

  async function computed(row: Row, column: string): Promise<number> {
    const torque = `${row.torqueNmm} mN·m`;
    const asked =
      row.torqueNmm === undefined ? { preload: `${row.raiseN} N` } : { torque: { min: torque, max: torque } };
    const raised = await joint(row, asked);
    const armM = numberOf(row.armMm ?? '') / 1000;
    switch (column) {
      case 'loadN':
        return raised.preloadN.nominal;
      case 'efficiencyPercent':
        return 100 * (raised.efficiency ?? Number.NaN);
      case 'raiseForceN':
        return raised.torqueNm.seating.nominal / armM;
      default:
        return ((await joint(row, { preload: `${row.lowerN} N` })).releaseTorqueNm ?? Number.NaN) / armM;
    }
  }

  it('has 3 examples and 7 values', () => {
    expect([rows.length, cells.length]).toEqual([3, 7]);
  });

  it.each(cells)('$row.example $column: $text', async ({ row, column, text }) => {
    expect(fault(await computed(row, column), text, undefined, undefined, source)).toBeNull();
  });
});

interface Example {
  example: string;
  unit: 'mm' | 'in';
  meanDiameter: string;
  lead: string;
  halfAngleDeg: string;
  friction: string;
  collarFriction: string | null;
  collarDiameter: string;
  load: string;
  printed: Record<string, string>;
}

/** The example's screw, and its torques in N·m or lbf·in as printed. */
function screwOf(row: Example) {
  const mm = row.unit === 'in' ? 25.4 : 1;
  const screw = {
    meanDiameterMm: numberOf(row.meanDiameter) * mm,
    leadMm: numberOf(row.lead) * mm,
    halfAngleDeg: numberOf(row.halfAngleDeg),
  };
  const collar = { bearing: Number(row.collarFriction ?? '0.1'), bearingDiameterMm: numberOf(row.collarDiameter) * mm };
  const inPrint = (nm: number): number => (row.unit === 'in' ? convertValue(nm, 'N·m', 'lbf·in') : nm);
  const loadN = row.unit === 'in' ? convertValue(numberOf(row.load), 'lbf', 'N') : numberOf(row.load);
  const friction = numberOf(row.friction);
  const told = (): Promise<JointResult> =>
    answer({
      thread: screw,
      friction: { thread: friction, ...collar },
      preload: `${row.load} ${row.unit === 'in' ? 'lbf' : 'N'}`,
    });
  return {
    thread: () => inPrint((loadN * screwThreadArmMm({ ...screw, friction })) / 1000),
    collar: () =>
      inPrint((loadN * bearingArmMm({ friction: collar.bearing, bearingDiameterMm: collar.bearingDiameterMm })) / 1000),
    leadAngleDeg: () => (Math.atan(tanLeadAngle(screw)) * 180) / Math.PI,
    raising: async () => inPrint((await told()).torqueNm.seating.nominal),
    lowering: async () => inPrint((await told()).releaseTorqueNm ?? Number.NaN),
    efficiency: async () => (await told()).efficiency ?? Number.NaN,
  } as Record<string, () => number | Promise<number>>;
}

describe.each([
  ['power-screws-textbook', 2, 8, null],
  ['power-screws-other', 2, 5, 0.005],
] as const)('%s', (name, examples, values, share) => {
  const { rows, source } = printed<Example>(name);
  const cells = rows.flatMap((row) => Object.entries(row.printed).map(([column, text]) => ({ row, column, text })));

  it(`has ${examples} examples and ${values} values`, () => {
    expect([rows.length, cells.length]).toEqual([examples, values]);
  });

  it.each(cells)('$row.example $column: $text', async ({ row, column, text }) => {
    const computed = (await screwOf(row)[column]?.()) ?? Number.NaN;
    expect(
      share === null
        ? fault(computed, text, undefined, undefined, source)
        : faultWithin(computed, text, share * numberOf(text), source),
    ).toBeNull();
  });
});

describe('efficiency against lead angle, problem 8-3 of a design textbook', () => {
  interface Row {
    leadAngleDeg: string;
    friction: string;
    printed: { efficiency: string };
  }
  const { rows, source } = printed<Row>('screw-efficiency-textbook');

  it('has 3 rows', () => {
    expect(rows).toHaveLength(3);
  });

  it.each(rows)('$leadAngleDeg°, f $friction: $printed.efficiency', async (row) => {
    const meanDiameterMm = 20;
    const leadMm = Math.PI * meanDiameterMm * Math.tan((numberOf(row.leadAngleDeg) * Math.PI) / 180);
    const { efficiency } = await answer({
      thread: { meanDiameterMm, leadMm, halfAngleDeg: 0 },
      friction: { thread: numberOf(row.friction), bearing: 0.1, bearingDiameterMm: 0 },
      preload: '1 kN',
    });
    expect(fault(efficiency ?? Number.NaN, row.printed.efficiency, undefined, undefined, source)).toBeNull();
  });
});
