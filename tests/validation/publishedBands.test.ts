/**
 * Every published torque band held, run through the command `callouts` as a callout of its own thread and condition: its own document
 * is named beside it and agrees. Where the document states strength and nut factor, the share of strength that its torque comes to is
 * reported; the rest are counted. Sources: the torque tables of data/handbook as printed; NASA TM-106943 for A-286 and CRES fasteners
 * and for its nut factors (0.11 to 0.15 lubricated, 0.2 unlubricated).
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CalloutsResult } from '../../shared-types/callout.ts';
import { heldBands, type HeldBand } from '../../renderer/engine/torqueTable/heldBands.ts';
import { roundNominal } from '../../renderer/engine/units/index.ts';
import { csvOf, type Cells } from '../engine/callout/judged.ts';
import { root } from '../support/tracked.ts';
import { resultsOf } from '../electron/headless/inProcess.ts';

/** Threads that have the diameters of the dash numbers. */
const dashThreads: Record<string, string> = {
  'MS21224-3': '10-32',
  'MS21224-4': '1/4-28',
  'MS21224-5': '5/16-24',
  'MS21224-6': '3/8-24',
  'MS21224-7': '7/16-20',
  'MS21224-8': '1/2-20',
  'MS21224-9': '9/16-18',
};

/** A thread of the band's own size; where a table prints no pitches, one of that diameter. */
function threadOf({ matched, size, printedAs }: HeldBand): string {
  if (matched === 'thread' || size.startsWith('M')) return size;
  return dashThreads[printedAs] ?? (size === '1' ? '1-8' : `${size}-22`);
}

/** A band that prints its greatest torque alone is run at that torque. */
function calloutOf(band: HeldBand, index: number): Cells {
  const { min, max, unit, condition } = band;
  return {
    id: String(index),
    thread: threadOf(band),
    torqueMin: `${min ?? max} ${unit}`,
    torqueMax: `${max ?? min} ${unit}`,
    lubrication: condition,
  };
}

async function judged(rows: Cells[]): Promise<CalloutsResult> {
  const [result] = await resultsOf<CalloutsResult>('callouts', [[{ csv: csvOf(rows) }]]);
  if (result === undefined) throw new Error('no answer');
  return result;
}

/** Bands printed, counted from the tables' own columns: a pair of least and greatest, a greatest allowable, a single value. */
function printedBands(): number {
  const folder = join(root, 'data/handbook');
  const tables = readdirSync(folder)
    .filter((name) => /^torque-(?:army|faa|helicopter|nasa)/.test(name))
    .map((name) => JSON.parse(readFileSync(join(folder, name), 'utf8')) as { rows: Record<string, unknown>[] });
  const columns = tables.flatMap(({ rows }) =>
    rows.flatMap((row) => Object.entries(row).filter(([, value]) => typeof value === 'number')),
  );
  return columns.filter(
    ([name]) =>
      /torque.*_min_/.test(name) || name.startsWith('max_allowable_') || /^torque_.*(?<!_min|_max)_lbf_ft$/.test(name),
  ).length;
}

/** The document's own strength and nut factors; null where it states but one of them, or none. */
function statedBy(band: HeldBand): { strength: string; nutFactors: string[] } | 'strength alone' | null {
  const { number } = band.citation;
  if (number === 'NASA TM-106943') {
    const strength = /A-286/.test(band.condition) ? 'A-286' : '300 series CRES';
    if (/greased|lubricated/.test(band.condition)) return { strength, nutFactors: ['0.11', '0.15'] };
    if (/passivated/.test(band.condition)) return { strength, nutFactors: ['0.2'] };
    return 'strength alone';
  }
  return /^grade \d/.test(band.condition) ? 'strength alone' : null;
}

const say = (line: string): void => void process.stdout.write(`${line}\n`);

describe('every published torque band held', () => {
  it('is one of those printed, and all of them are', () => {
    expect(heldBands.length).toBe(printedBands());
  });

  it('agrees with its own document, which is named beside it', async () => {
    const result = await judged(heldBands.map(calloutOf));
    expect(result.rows).toHaveLength(heldBands.length);
    for (const [index, band] of heldBands.entries()) {
      const row = result.rows[index];
      const held = result.published.bands[row?.computed.bands.of ?? ''] ?? [];
      const agreeing = row?.computed.bands.agreeing.map((at) => held[at]) ?? [];
      const own = agreeing.filter((one) => one?.document === band.citation.number && one.condition === band.condition);
      expect(own, `${threadOf(band)}: ${band.condition}`).not.toEqual([]);
      expect(row?.findings.filter(({ rule }) => rule === 'outside-published-band')).toEqual([]);
    }
    const alone = heldBands.filter(({ min }) => min === null).length;
    say(`Published torque bands held: ${heldBands.length}; ${alone} of them print their greatest torque alone.`);
    say(
      `  Each agrees with its own document as a callout of its own thread and condition: ${heldBands.length} of ${heldBands.length}.`,
    );
  });

  it('does not agree once an end lies outside what is printed', async () => {
    const wider = heldBands.map((band, index): Cells => {
      const row = calloutOf(band, index);
      return { ...row, torqueMax: `${(band.max ?? 0) * 1.000_001} ${band.unit}` };
    });
    const result = await judged(wider);
    for (const [index, band] of heldBands.entries()) {
      const row = result.rows[index];
      const held = result.published.bands[row?.computed.bands.of ?? ''] ?? [];
      const own = held.findIndex((one) => one.document === band.citation.number && one.maxNm !== null);
      const agrees = row?.computed.bands.agreeing.map((at) => held[at]) ?? [];
      expect(own).toBeGreaterThanOrEqual(0);
      // Another row of the same words may be wider; none of this one's own numbers agrees.
      expect(agrees.filter((one) => one?.condition === band.condition && one.table === band.citation.table)).toEqual(
        [],
      );
    }
  });

  it('comes to a share of the strength where its document states strength and nut factor', async () => {
    const stated = heldBands.map((band) => ({ band, by: statedBy(band) }));
    const full = stated.flatMap(({ band, by }, index) =>
      by === null || by === 'strength alone'
        ? []
        : by.nutFactors.map((nutFactor) => ({
            band,
            cells: { ...calloutOf(band, index), strength: by.strength, nutFactor },
          })),
    );
    const result = await judged(full.map(({ cells }) => cells));
    const byCondition = new Map<string, number[]>();
    for (const [index, row] of result.rows.entries()) {
      const { greatestStressMPa, strength } = row.computed;
      const share = (greatestStressMPa?.tension ?? Number.NaN) / (strength?.yieldMPa ?? Number.NaN);
      expect(share).toBeGreaterThan(0);
      const one = full[index];
      const key = `${one?.band.condition.replace(/^.*(A-286|CRES)/, '$1') ?? ''}, K ${one?.cells.nutFactor ?? ''}`;
      byCondition.set(key, [...(byCondition.get(key) ?? []), share]);
    }
    const bands = new Set(full.map(({ band }) => band)).size;
    say(
      `  Strength and nut factor stated by the document: ${bands} bands. Greatest tension as a share of the yield strength:`,
    );
    for (const [key, shares] of byCondition) {
      const [least, most] = [Math.min(...shares), Math.max(...shares)].map((share) => roundNominal(100 * share, 0));
      say(`    ${key}: ${least} to ${most} %, ${shares.length} bands`);
    }
    const strengthAlone = stated.filter(({ by }) => by === 'strength alone').length;
    const neither = stated.filter(({ by }) => by === null).length;
    say(
      `  Strength alone: ${strengthAlone} bands; neither: ${neither}. Their preload is not computed, for no nut factor is assumed.`,
    );
    expect(bands + strengthAlone + neither).toBe(heldBands.length);
    expect(bands).toBeGreaterThan(10);
  });
});
