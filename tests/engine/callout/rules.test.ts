/**
 * For each rule at least ten callouts that break it and ten that just do not, near its limit and on both sides of the tolerance of 1e-9:
 * found in all of the first and in none of the second. The limits are worked out here, from the printed tables and the formulas
 * written out once more. Source: the headless contract, rules of `callouts`.
 */
import { describe, expect, it } from 'vitest';
import { readThread } from '../../../renderer/engine/thread/index.ts';
import { fired, judgedRows, type Cells } from './judged.ts';
import breakawayFine from '../../../data/handbook/prevailing-mil-dtl-45916-fine.json' with { type: 'json' };
import iso2320 from '../../../data/handbook/prevailing-iso-2320-class-04.json' with { type: 'json' };

/** By how much a limit is passed where it is broken, and kept to where it just is not. */
const over = [3e-9, 1e-8, 1e-6, 1e-4, 0.001, 0.01, 0.05, 0.2, 0.5, 1, 2e-9, 0.1];
const under = [0, 5e-10, -5e-10, -3e-9, -1e-8, -1e-6, -1e-4, -0.001, -0.01, -0.1, -0.3, 9e-10];

interface Case {
  rule: string;
  /** As the contract has it; the passes and the turn are our own. */
  severity: 'reject' | 'query' | 'note';
  breaks: Cells[];
  keeps: Cells[];
}

const nm = (value: number): string => `${value} N·m`;
const plain = { thread: 'M10', torqueMin: '40 N·m', torqueMax: '50 N·m' };

/** The band is `min` to `max`, one of which is moved past the other by the shares above. */
function bands(of: (share: number) => Cells): { breaks: Cells[]; keeps: Cells[] } {
  return { breaks: over.map(of), keeps: under.map(of) };
}

const threads = [
  'M6',
  'M8',
  'M10',
  'M12',
  '1/4-28',
  '3/8-24',
  '1/2-13',
  'M16x1.5',
  '5/16-24',
  'M8x1',
  '7/16-20',
  'M20',
];
const threadAt = (share: number): string =>
  threads[(over.indexOf(share) + under.indexOf(share) + 1) % threads.length] ?? 'M10';

/** T = K·D·F, F = Sp·As, in N·m. */
function proofTorqueNm(thread: string, nutFactor: number, proofMPa: number): number {
  const { majorMm, stressAreaMm2 } = readThread(thread);
  return (nutFactor * majorMm * proofMPa * stressAreaMm2) / 1000;
}

/** ISO 898-1 class 10.9 in every size: 830 MPa under proof load, 940 MPa yield (2013 and 1999). */
const [proof109, yield109] = [830, 940];

/** Screw equation, thread and bearing; elastic torsion on d0 = √(4·As/π): torque at which the equivalent stress is Rp [N·m]. */
function yieldTorqueNm(thread: string, friction: number, bearingMm: number, yieldMPa: number): number {
  const { pitchDiameterMm: d2, pitchMm: P, stressAreaMm2: As } = readThread(thread);
  const tan = P / (Math.PI * d2);
  const f = friction / Math.cos(Math.PI / 6);
  const threadArmMm = ((d2 / 2) * (tan + f)) / (1 - f * tan);
  const d0 = Math.sqrt((4 * As) / Math.PI);
  const shearPerN = (16 * threadArmMm) / (Math.PI * d0 ** 3);
  const F = yieldMPa / Math.sqrt((1 / As) ** 2 + 3 * shearPerN ** 2);
  return (F * (threadArmMm + (friction * bearingMm) / 2)) / 1000;
}

const metric = (share: number): string => {
  const name = threadAt(share);
  return name.startsWith('M') ? name : 'M10';
};

function proofCases(): { breaks: Cells[]; keeps: Cells[] } {
  return bands((share) => {
    const thread = metric(share);
    const limit = proofTorqueNm(thread, 0.17, proof109) / 1.25;
    return {
      thread,
      torqueMin: nm(limit * 0.3),
      torqueMax: nm(limit * (1 + share)),
      strength: '10.9',
      nutFactor: '0.17',
      scatter: '25 %',
    };
  });
}

function yieldCases(): { breaks: Cells[]; keeps: Cells[] } {
  return bands((share) => {
    const thread = metric(share);
    const limit = yieldTorqueNm(thread, 0.12, 14, yield109);
    return {
      thread,
      torqueMin: nm(limit * 0.3),
      torqueMax: nm(limit * (1 + share)),
      strength: '10.9',
      frictionThread: '0.12',
      frictionBearing: '0.12',
      bearingDiameter: '14 mm',
    };
  });
}

/** FED-STD-H28/2B with the limits of ASME B1.1 for 2A and 2B, inches: the length at which the bolt breaks before its own thread strips. */
function neededIn(D: number, n: number): number {
  const P = 1 / n;
  const Td2 = 0.0015 * Math.cbrt(D) + 0.0015 * Math.sqrt(D) + 0.015 * Math.cbrt(P ** 2);
  const d2min = D - 0.64951905 * P - 0.3 * Td2 - Td2;
  const D1max = D - 1.08253175 * P + 0.25 * P - 0.4 * P ** 2;
  const At = (Math.PI / 4) * (D - 0.9743 * P) ** 2;
  return (2 * At) / (Math.PI * n * D1max * (1 / (2 * n) + 0.57735 * (d2min - D1max)));
}

const coarse: [string, number, number][] = [
  ['1/4-20', 0.25, 20],
  ['3/8-16', 0.375, 16],
  ['1/2-13', 0.5, 13],
  ['5/8-11', 0.625, 11],
];

function strippingCases(): { breaks: Cells[]; keeps: Cells[] } {
  return bands((share) => {
    const [thread, D, n] = coarse[Math.abs(over.indexOf(share) + under.indexOf(share) + 1) % coarse.length] ?? [
      '1/2-13',
      0.5,
      13,
    ];
    return {
      ...plain,
      thread,
      strength: 'SAE J429 grade 5',
      // Stronger than the bolt by so much that the external thread alone decides.
      internalUltimate: '3000 MPa',
      engagement: `${neededIn(D, n) / (1 + share)} in`,
    };
  });
}

function runningCases(): { breaks: Cells[]; keeps: Cells[] } {
  return bands((share) => {
    const rows = breakawayFine.rows;
    const row = rows[Math.abs(over.indexOf(share) + under.indexOf(share) + 1) % rows.length];
    return {
      ...plain,
      thread: row?.thread ?? '',
      locking: 'MIL-DTL-45916C',
      runningIncluded: 'yes',
      runningMax: `${(row?.max_locking_torque_lbf_in ?? 0) * (1 + share)} lbf·in`,
      torqueMin: '900 lbf·ft',
      torqueMax: '1000 lbf·ft',
    };
  });
}

function breakawayCases(): { breaks: Cells[]; keeps: Cells[] } {
  return bands((share) => {
    const rows = iso2320.rows;
    const row = rows[Math.abs(over.indexOf(share) + under.indexOf(share) + 1) % rows.length];
    return {
      ...plain,
      thread: row?.thread ?? '',
      locking: 'ISO 2320',
      runningIncluded: 'yes',
      breakawayMin: nm((row?.first_off_min_N_m ?? 0) / (1 + share)),
    };
  });
}

/** As printed: hex heads of ISO 4014 and ASME B18.2.1, nuts of ISO 4032, sockets of ISO 4762. */
const heads: [string, string, string][] = [
  ['M6', 'hex', '10 mm'],
  ['M8', 'hex', '13 mm'],
  ['M10', 'hex', '16 mm'],
  ['M12', 'hex', '18 mm'],
  ['M16', 'hex', '24 mm'],
  ['1/4-28', 'hex', '7/16 in'],
  ['5/16-24', 'hex', '1/2 in'],
  ['3/8-24', 'hex', '9/16 in'],
  ['1/2-13', 'hex', '3/4 in'],
  ['M10', 'nut', '16 mm'],
  ['M8', 'hex-socket', '6 mm'],
  ['M10', 'hex-socket', '8 mm'],
];

const openings = {
  keeps: heads.map(([thread, head, wrench]): Cells => ({ ...plain, thread, head, wrench })),
  breaks: [
    ['M10', 'hex', '17 mm'],
    ['M10', 'hex', '15 mm'],
    ['M10', 'hex', '5/8 in'],
    ['M8', 'hex', '12 mm'],
    ['M6', 'hex', '11 mm'],
    ['M12', 'hex', '19 mm'],
    ['1/4-28', 'hex', '11 mm'],
    ['3/8-24', 'hex', '1/2 in'],
    ['1/2-13', 'hex', '11/16 in'],
    ['M10', 'hex', 'T30'],
    ['M8', 'hex-socket', '5 mm'],
    ['M10', 'nut', '18 mm'],
  ].map(([thread = '', head = '', wrench = '']): Cells => ({ ...plain, thread, head, wrench })),
};

/** A band printed for a thread in one document: FAA AC 43.13-1B Table 7-1, its greatest allowable and least standard torques. */
const printed: [string, number, number][] = [
  ['8-36', 7, 20],
  ['10-32', 12, 40],
  ['1/4-28', 30, 100],
];

function publishedCases(): { breaks: Cells[]; keeps: Cells[] } {
  const of = (share: number, index: number): Cells => {
    const [thread, least, greatest] = printed[index % printed.length] ?? ['1/4-28', 30, 100];
    // At one end of what that document prints and beyond it, in the words of its own table alone.
    const isUpper = index % 2 === 0;
    const [min, max] = isUpper ? [greatest * 0.9, greatest * (1 + share)] : [least / (1 + share), least * 1.05];
    return { thread, torqueMin: `${min} lbf·in`, torqueMax: `${max} lbf·in`, lubrication: 'cadmium-plated THREADS' };
  };
  const lower = printed.map(([, least]) => least);
  expect(lower.length).toBe(3);
  return { breaks: over.map(of), keeps: under.map(of) };
}

function toolCases(): { breaks: Cells[]; keeps: Cells[] } {
  return bands((share) => {
    // Just so accurate that min/(1 − a) is max/(1 + a), or by the share more.
    const [min, max] = [40, 50 * (1 + share)];
    return { ...plain, toolAccuracy: String(Math.max(0, (max - min) / (max + min))) };
  });
}

const cases: Case[] = [
  {
    rule: 'empty-band',
    severity: 'reject',
    ...bands((share) => ({ ...plain, thread: threadAt(share), torqueMin: nm(50 * (1 + share)) })),
  },
  {
    rule: 'empty-band',
    severity: 'reject',
    // Least + greatest running against greatest + least running.
    ...bands((share) => ({
      ...plain,
      runningMin: '2 N·m',
      runningMax: nm(Math.max(2, 52 * (1 + share) - 40)),
      runningIncluded: 'no',
    })),
  },
  { rule: 'preload-over-proof', severity: 'reject', ...proofCases() },
  { rule: 'preload-over-yield', severity: 'reject', ...yieldCases() },
  {
    rule: 'preload-below-minimum',
    severity: 'reject',
    ...bands((share) => ({
      ...plain,
      nutFactor: '0.2',
      scatter: '0.3',
      // (1 − 0.3)·40 N·m/(0.2·10 mm)
      preloadMin: `${14_000 * (1 + share)} N`,
    })),
  },
  {
    rule: 'preload-above-maximum',
    severity: 'reject',
    ...bands((share) => ({
      ...plain,
      nutFactor: '0.2',
      scatter: '0.3',
      // (1 + 0.3)·50 N·m/(0.2·10 mm)
      preloadMax: `${32.5 / (1 + share)} kN`,
    })),
  },
  { rule: 'thread-strips-first', severity: 'reject', ...strippingCases() },
  { rule: 'running-over-limit', severity: 'reject', ...runningCases() },
  { rule: 'breakaway-under-limit', severity: 'reject', ...breakawayCases() },
  { rule: 'wrong-wrench', severity: 'reject', ...openings },
  { rule: 'outside-published-band', severity: 'query', ...publishedCases() },
  { rule: 'tool-too-coarse', severity: 'query', ...toolCases() },
  {
    rule: 'running-not-accounted',
    severity: 'query',
    breaks: threads.map((thread, index) => ({
      ...plain,
      thread,
      locking: index % 2 === 0 ? 'ISO 2320' : 'a document nobody holds',
      runningIncluded: index % 3 === 0 ? 'no' : '',
      ...(index % 3 === 1 ? { runningMin: '1 N·m', runningMax: '2 N·m' } : {}),
    })),
    keeps: threads.map((thread, index) => ({
      ...plain,
      thread,
      ...(index % 4 === 3 ? {} : { locking: index % 2 === 0 ? 'ISO 2320' : 'FAA AC 43.13-1B' }),
      ...(index % 4 === 0 ? { runningIncluded: 'YES' } : {}),
      ...(index % 4 === 1 || index % 4 === 2
        ? { runningIncluded: 'no', runningMin: '1 N·m', runningMax: '2 N·m' }
        : {}),
    })),
  },
  {
    rule: 'passes-falling',
    severity: 'reject',
    ...bands((share) => ({ ...plain, passes: `20 N·m to ${nm(50 * (1 + share))}; 40-50 N·m` })),
  },
  {
    rule: 'passes-last-differs',
    severity: 'reject',
    breaks: over.map((share) => ({ ...plain, passes: `20-25 N·m; 40 N·m to ${nm(50 * (1 + share))}` })),
    keeps: under
      .filter((share) => Math.abs(share) <= 9e-10)
      .concat(Array.from({ length: 9 }, () => 0))
      .map((share, index) => ({ ...plain, passes: `${10 + index}-25 N·m; 40 N·m to ${nm(50 * (1 + share))}` })),
  },
  {
    rule: 'turn-over-one',
    severity: 'query',
    ...bands((share) => ({ ...plain, angle: `30 deg to ${360 * (1 + share)} deg` })),
  },
];

describe('each rule', () => {
  it.each(cases)(
    '$rule ($severity) is found where it is broken, and only there',
    ({ rule, severity, breaks, keeps }) => {
      expect(breaks.length).toBeGreaterThanOrEqual(10);
      expect(keeps.length).toBeGreaterThanOrEqual(10);
      const said = (rows: Cells[]) =>
        judgedRows(rows).map((row, index) => ({ cells: rows[index], rule, fired: fired(row, rule) }));
      expect(said(breaks)).toEqual(breaks.map((cells) => ({ cells, rule, fired: [severity] })));
      expect(said(keeps)).toEqual(keeps.map((cells) => ({ cells, rule, fired: [] })));
    },
  );

  it('decides: a reject is nonconforming, else a query indeterminate, else conforming; notes decide nothing', () => {
    for (const { breaks, severity, rule } of cases) {
      const decided = { reject: 'nonconforming', query: 'indeterminate', note: 'conforming' }[severity];
      for (const row of judgedRows(breaks)) {
        const severities = new Set(row.findings.map((finding) => finding.severity));
        const expected = severities.has('reject')
          ? 'nonconforming'
          : severities.has('query')
            ? 'indeterminate'
            : 'conforming';
        expect(row.decision, rule).toBe(expected);
        if (severity === 'reject') expect(row.decision).toBe(decided);
      }
    }
  });

  it('says its numbers, and what stands behind it', () => {
    for (const { breaks, rule } of cases) {
      for (const row of judgedRows(breaks)) {
        const finding = row.findings.find((one) => one.rule === rule);
        expect(finding?.message, rule).toMatch(/\w/);
        expect(finding?.source, rule).toBeTruthy();
        if (rule !== 'running-not-accounted') {
          expect(finding?.message, rule).toMatch(/\d/);
          expect(finding?.limit, rule).toBeTypeOf('number');
          expect(finding?.unit, rule).toBeTypeOf('string');
        }
      }
    }
  });
});
