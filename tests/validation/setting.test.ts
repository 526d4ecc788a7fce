/**
 * Command `setting` against print: offset heads in both directions, and every row of the tables that say how much of a torque
 * tool's range to use. Asked once through the headless command; printed numbers are held to half of their last digit.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { RangeUse, ToolSettingResult } from '../../shared-types/toolSetting.ts';
import { resultsOf } from '../electron/headless/inProcess.ts';
import { fault, numberOf, printed } from './values/printed.ts';

interface Head {
  document: string;
  direction: 'set from applied' | 'applied from set';
  unit: 'lbf·in' | 'lbf·ft';
  given: string;
  leverIn: string;
  headIn: string;
  angleDeg: string;
  printed: string;
}
interface Shares {
  from: string;
  to: string;
  unit: 'lbf·in' | 'lbf·ft';
  printed: { minShare: string; maxShare: string };
}

const heads = printed<Head>('extension-heads');
const choices = printed<Shares & { capacity: string }>('torque-tool-choice');
const effective = printed<Shares & { effectiveFrom: string; effectiveTo: string }>('torque-tool-effective-range');
const rule = printed<{ rule: string; printed: string }>('torque-tool-range-rule');
const standard = printed<{ rule: string; printed: Record<string, string> }>('torque-tools-iso-6789');

const newtonMetresIn = { lbf·in: 0.1129848290276167, lbf·ft: 12 * 0.1129848290276167 };
/** Far finer than the last digit printed, so that the tool's scale does not decide. */
const step = 0.001;

/** Set from applied: a callout of no width, and a tool that can be set finely. Applied from set: a tool with that one setting. */
function headInput(row: Head): unknown {
  const given = numberOf(row.given);
  const from = row.direction === 'set from applied';
  const callout = `${from ? row.given : row.printed} ${row.unit}`;
  const marks = from ? { increment: step } : { settings: [given] };
  return {
    callout: { min: callout, max: callout },
    tool: { min: 1, max: 200, ...marks, unit: row.unit, accuracyOfReading: 0, lever: `${row.leverIn} in` },
    offsetHead: { length: `${row.headIn} in`, angleDeg: numberOf(row.angleDeg) },
  };
}

const toolOf = (unit: string, max: string, min: string) => ({
  min: numberOf(min),
  max: numberOf(max),
  increment: 1,
  unit,
  accuracyOfReading: 0,
});
const choiceInput = ({ from, to, unit, capacity }: (typeof choices.rows)[number]) => ({
  callout: { min: `${from} ${unit}`, max: `${to} ${unit}` },
  tool: toolOf(unit, capacity, '0'),
});
/** The callout is the effective range itself: what is set is its middle. */
const effectiveInput = ({ from, to, unit, effectiveFrom, effectiveTo }: (typeof effective.rows)[number]) => ({
  callout: { min: `${effectiveFrom} ${unit}`, max: `${effectiveTo} ${unit}` },
  tool: toolOf(unit, to, from),
});
const ruleInput = (percent: number) => ({
  callout: { min: `${percent} N·m`, max: `${percent} N·m` },
  tool: { min: 1, max: 100, increment: 1, unit: 'N·m', accuracyOfReading: 0 },
});
const standardInput = (maxNm: number, siteC: number) => ({
  callout: { min: '4 N·m', max: '6 N·m' },
  tool: { min: 1, max: maxNm, increment: 1, unit: 'N·m', accuracyOfReading: 0.04 },
  siteTemperature: `${siteC} °C`,
});

const asked = [
  ...heads.rows.map(headInput),
  ...choices.rows.map(choiceInput),
  ...effective.rows.map(effectiveInput),
  ...[19, 20, 21].map(ruleInput),
  ...[
    [10, 18],
    [10.001, 28],
    [50, 17.9],
    [50, 28.1],
  ].map(([max = 0, siteC = 0]) => standardInput(max, siteC)),
];
let results: ToolSettingResult[] = [];
const resultAt = (index: number): ToolSettingResult => {
  const result = results[index];
  if (result === undefined) throw new Error('not computed');
  return result;
};

beforeAll(async () => {
  results = await resultsOf<ToolSettingResult>(
    'setting',
    asked.map((input) => [input as Record<string, unknown>]),
  );
});

const useOf = (result: ToolSettingResult, key: string, says: string): RangeUse => {
  const found = result.useOfRange.filter((use) => use.source.key === key && use.says.includes(says));
  expect(found).toHaveLength(1);
  return found[0] as RangeUse;
};

describe(`offset heads: ${heads.source.number}`, () => {
  it('has 4 rows', () => expect(heads.rows).toHaveLength(4));

  it.each(heads.rows.map((row, index) => ({ row, index })))(
    '$row.document, $row.direction: $row.printed',
    ({ row, index }) => {
      const { correction, setting, appliedNm, decision } = resultAt(index);
      const given = numberOf(row.given);
      if (row.direction === 'set from applied') {
        expect(fault(given * correction, row.printed)).toBeNull();
        expect(fault(setting?.value ?? Number.NaN, row.printed)).toBeNull();
        expect(setting?.unit).toBe(row.unit);
        return;
      }
      expect(setting?.value).toBe(given);
      expect(fault((appliedNm?.nominal ?? Number.NaN) / newtonMetresIn[row.unit], row.printed)).toBeNull();
      expect(fault(given / correction, row.printed)).toBeNull();
      expect(decision).toBe('conforming');
    },
  );
});

describe(`which tool for which torque: ${choices.source.number}`, () => {
  it('has 6 rows', () => expect(choices.rows).toHaveLength(6));

  it.each(choices.rows.map((row, index) => ({ row, index })))('$row.from to $row.to $row.unit', ({ row, index }) => {
    const result = resultAt(heads.rows.length + index);
    const says = `for ${row.from} to ${row.to} ${row.unit} the tool of ${row.capacity} ${row.unit}`;
    const use = useOf(result, 'torque-tool-choice-army', says);
    expect(fault(use.minShare ?? Number.NaN, row.printed.minShare)).toBeNull();
    expect(fault(use.maxShare ?? Number.NaN, row.printed.maxShare)).toBeNull();
    expect(use.inside).toBe(true);
  });
});

describe(`most effective range: ${effective.source.number}`, () => {
  it('has 4 rows', () => expect(effective.rows).toHaveLength(4));

  it.each(effective.rows.map((row, index) => ({ row, index })))('$row.from to $row.to $row.unit', ({ row, index }) => {
    const result = resultAt(heads.rows.length + choices.rows.length + index);
    const says = `a tool of ${row.from} to ${row.to} ${row.unit} is most effective at ${row.effectiveFrom} to ${row.effectiveTo}`;
    const use = useOf(result, 'torque-tool-effective-range-army', says);
    expect(fault(use.minShare ?? Number.NaN, row.printed.minShare)).toBeNull();
    expect(fault(use.maxShare ?? Number.NaN, row.printed.maxShare)).toBeNull();
    expect(use.inside).toBe(true);
    // Every other row of the table is shown without a verdict: it speaks of another tool.
    const others = result.useOfRange.filter(({ source }) => source.key === use.source.key).filter((one) => one !== use);
    expect(others.map(({ inside }) => inside)).toEqual([null, null, null]);
  });
});

describe(`least share of the range: ${rule.source.title}`, () => {
  const from = heads.rows.length + choices.rows.length + effective.rows.length;

  it.each([
    [19, 0, false],
    [20, 1, true],
    [21, 2, true],
  ])('a tool of 100 N·m set at %d N·m', (_percent, index, inside) => {
    const [row] = rule.rows;
    expect(rule.rows).toHaveLength(1);
    const use = useOf(resultAt(from + index), 'torque-tool-range-laboratory', row?.rule ?? '');
    expect(`${(use.minShare ?? 0) * 100} %`).toBe(row?.printed);
    expect(use.inside).toBe(inside);
  });
});

describe(`hand torque tools: ${standard.source.number}`, () => {
  const from = heads.rows.length + choices.rows.length + effective.rows.length + 3;
  const of = (index: number) => resultAt(from + index).calibration;
  const percent = (share: number) => String(Math.round(share * 100));

  /** What the answer says for each rule, as the file prints it. */
  const said: [string, () => Record<string, string>][] = [
    [
      'permissible deviation, setting tool type II class A, range maximum above 10 N*m',
      () => ({ value_percent: percent(of(1).permissibleDeviation) }),
    ],
    [
      'permissible deviation, setting tool type II class A, range maximum 10 N*m or less',
      () => ({ value_percent: percent(of(0).permissibleDeviation) }),
    ],
    [
      'check points as share of range maximum',
      () => ({ value_percent_list: `[${of(0).checkShares.map(percent).join(', ')}]` }),
    ],
    ['permissible error of the test device', () => ({ value_percent: percent(of(0).testDeviceError) })],
    ['preloading cycles before the check', () => ({ value_count: String(of(0).preloadingCycles) })],
    [
      'ambient temperature range',
      () => ({ value_degC_min: String(of(0).ambientC.min), value_degC_max: String(of(0).ambientC.max) }),
    ],
    [
      'time for the last 20 % of the load (setting tools)',
      () => ({ value_s_min: String(of(0).lastFifthOfLoadS.min), value_s_max: String(of(0).lastFifthOfLoadS.max) }),
    ],
    [
      'lowest check point in the 2017 edition',
      () => ({ value_text: of(0).lowestCheckLater.replace(' (from memory)', '') }),
    ],
  ];

  it('has 8 rows, and each is looked up', () => {
    expect(standard.rows.map((row) => row.rule)).toEqual(said.map(([name]) => name));
  });

  it.each(said.map(([name, answer], index) => ({ name, answer, index })))('$name', ({ answer, index }) => {
    expect(answer()).toEqual(standard.rows[index]?.printed);
  });

  it('asks about a site outside the temperatures of the check, its ends not', () => {
    expect([0, 1, 2, 3].map((index) => resultAt(from + index).queries.map((query) => query.rule))).toEqual([
      [],
      [],
      ['site-temperature'],
      ['site-temperature'],
    ]);
  });
});
