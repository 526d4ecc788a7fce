import { beforeAll, describe, expect, it } from 'vitest';
import { ledgerFaults } from '../../../renderer/engine/outing/ledger/ledgerFaults.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { CourseProblem, LedgerRow } from '../../../shared-types/outing.ts';
import { dice as diceOf } from '../../reference/dice.ts';
import { demoCourses, demoNames, followed, type DemoCourse } from './demoCourse.ts';
import { lossesInLedger, lossesInPlan } from './plantedLosses.ts';
import { shareOf } from '../../support/shareOf.ts';

let demos: DemoCourse[] = [];
beforeAll(async () => {
  demos = await demoCourses();
}, 240_000);
const demo = (name: string): DemoCourse => demos.find((one) => one.name === name) as DemoCourse;

const keyOf = ({ rule, step, id, kind, quantity }: CourseProblem) => JSON.stringify([rule, step, id, kind, quantity]);
const keysOf = (problems: readonly CourseProblem[]) => new Set(problems.map(keyOf));

describe.each(demoNames)('the ledger of %s', (name) => {
  const open = name === 'tarn-array' ? ['loose 2 × tarn-fa-head at t3-head-off'] : [];

  it('has nothing wrong with it but what the example leaves open and says so', () => {
    const { ledger } = followed(demo(name));
    const told = ledger.problems.map(({ rule, quantity, id, step }) => `${rule} ${quantity} × ${id} at ${step}`);
    expect(told).toEqual(open);
    const step = demo(name).source.steps.find(({ id }) => id === 't3-head-off');
    if (open.length > 0) expect(step?.notes).toMatch(/Left open on purpose/);
  });

  it('has as many of every piece after each entry as before anything was done', () => {
    const { ledger } = followed(demo(name));
    const sums = (rows: readonly LedgerRow[]) => {
      const sum: Record<string, number> = {};
      for (const { kind, id, quantity } of rows) sum[`${kind} ${id}`] = (sum[`${kind} ${id}`] ?? 0) + quantity;
      return sum;
    };
    const opening = sums(ledger.opening);
    expect(Object.keys(opening).length).toBeGreaterThan(40);
    for (const entry of ledger.entries) expect(sums(entry.rows)).toEqual(opening);
  });

  it('stands up to its second count', () => {
    const { source, outings } = demo(name);
    expect(ledgerFaults(planFrom(source), outings, followed(demo(name)).ledger)).toEqual([]);
  });

  it('ends with every loosened fastener in its hole or at home, and every unit at rest', () => {
    const last = followed(demo(name)).ledger.entries.at(-1);
    const secured = new Set(last?.rows.map((row) => row.secured));
    expect([...secured].toSorted()).toEqual(
      [...(open.length > 0 ? ['loose'] : []), 'fixed', 'home', 'used'].toSorted(),
    );
    expect(last?.rows.filter(({ where }) => where.at === 'site' && where.loosened)).toEqual([]);
  });

  it('has a way without a gap for each piece', () => {
    for (const { intervals } of followed(demo(name)).ways) {
      for (const [index, { to }] of intervals.entries()) expect(to).toEqual(intervals[index + 1]?.from ?? null);
      expect(intervals.length).toBeGreaterThan(0);
    }
  });
});

describe('planted losses', () => {
  const kinds = Object.entries(lossesInPlan);

  it('in the plan and its bags are each told as a problem that was not there before', () => {
    const seen = new Map<string, number>();
    const missed: string[] = [];
    const known = new Map(demos.map((one) => [one.name, keysOf(followed(one).ledger.problems)]));
    for (let seed = 1; [...seen.values()].reduce((a, b) => a + b, 0) < shareOf(121); seed += 1) {
      const dice = diceOf(seed);
      const one = demo(demoNames[seed % 2] ?? '');
      const [kind, lose] = kinds[seed % kinds.length] ?? [];
      const changed = structuredClone(one);
      const lost = lose?.(changed, dice) ?? null;
      if (kind === undefined || lost === null) continue;
      const { ledger } = followed(changed);
      const fresh = ledger.problems.filter((problem) => known.get(one.name)?.has(keyOf(problem)) === false);
      if (fresh.length === 0 || fresh.some(({ mends }) => mends.length === 0))
        missed.push(`${one.name}: ${kind}: ${lost}`);
      expect(ledgerFaults(planFrom(structuredClone(changed.source)), changed.outings, ledger), lost).toEqual([]);
      seen.set(kind, (seen.get(kind) ?? 0) + 1);
    }
    expect(missed).toEqual([]);
    expect(seen.size).toBe(kinds.length);
  });

  it('in the ledger are each found by its second count', () => {
    const losses = Object.entries(lossesInLedger);
    const seen = new Map<string, number>();
    const missed: string[] = [];
    const ledgers = new Map(demos.map((one) => [one.name, followed(one).ledger]));
    for (let seed = 1; [...seen.values()].reduce((a, b) => a + b, 0) < shareOf(108); seed += 1) {
      const one = demo(demoNames[seed % 2] ?? '');
      const [kind, lose] = losses[seed % losses.length] ?? [];
      const ledger = structuredClone(ledgers.get(one.name));
      if (ledger === undefined || kind === undefined || lose === undefined) continue;
      const lost = lose(ledger, diceOf(seed));
      if (lost === null) continue;
      if (ledgerFaults(planFrom(one.source), one.outings, ledger).length === 0)
        missed.push(`${one.name}: ${kind}: ${lost}`);
      seen.set(kind, (seen.get(kind) ?? 0) + 1);
    }
    expect(missed).toEqual([]);
    expect(seen.size).toBe(losses.length);
  });
});
