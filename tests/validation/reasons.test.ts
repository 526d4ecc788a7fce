/**
 * The reasons of a bag against an exhaustive search that shares no code with the planner: for 200 random pieces of
 * random plans, "without it" is what that search finds for the plan without it; of the demos' pieces, which are too
 * many to search, it is what the program plans for the plan's own file with the piece out of stock.
 */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { outingCost } from '../../renderer/engine/bag/reasons/ask.ts';
import { bindingLimits } from '../../renderer/engine/bag/reasons/bindingLimits.ts';
import { costOfTolerance } from '../../renderer/engine/bag/reasons/costOfTolerance.ts';
import { packedPieces } from '../../renderer/engine/bag/reasons/derived.ts';
import { stepConflicts } from '../../renderer/engine/bag/reasons/faults/stepConflicts.ts';
import { withoutSome } from '../../renderer/engine/bag/reasons/withoutItem.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import type { ResolvedPlan } from '../../renderer/engine/plan/resolved.ts';
import type { BagOuting, BagResult } from '../../shared-types/bag.ts';
import type { LimitReason, StepConflict, WithoutItem } from '../../shared-types/bagReasons.ts';
import type { Plan } from '../../shared-types/plan.ts';
import { planSchema } from '../../shared-types/plan.ts';
import { dice } from '../reference/dice.ts';
import { randomPlan } from '../reference/randomPlan.ts';
import type { GeneratedPlan } from '../reference/randomPlan.ts';
import { leastOf, lifted, outingOf, sameCost, stocked, stockedOnly } from './reasonsReference.ts';

const piecesAsked = 200;
/** Half of the random plans; `BAGWRIGHT_WHOLE=1` asks all of them. */
const share = (plans: number): number => (process.env['BAGWRIGHT_WHOLE'] === '1' ? plans : plans / 2);
const campaignTimeoutMs = 400_000;

interface Answered extends GeneratedPlan {
  resolved: ResolvedPlan;
  result: BagResult;
}

async function answered(seed: number): Promise<Answered> {
  const generated = randomPlan(seed);
  const resolved = planFrom(generated.plan);
  return { ...generated, resolved, result: await planBag(resolved, { minimise: generated.minimise }) };
}

interface Asked extends Answered {
  outing: BagOuting;
  found: WithoutItem;
}

/** A piece of a stack of one of the outings, and how many of it are left: seeded, so that a failure can be had again. */
async function askOne(one: Answered): Promise<Asked | null> {
  const roll = dice(one.seed + 70_000);
  const pieces = one.result.outings.flatMap((outing) =>
    [...packedPieces(one.resolved, outing)].flatMap(([id, packed]) =>
      one.resolved.carried.get(id)?.kind === 'gear' ? [] : [{ outing, id, packed }],
    ),
  );
  if (pieces.length === 0) return null;
  const { outing, id, packed } = roll.pick(pieces);
  const left = packed > 1 && roll.chance(0.6) ? packed - 1 : 0;
  const { resolved, result, minimise } = one;
  const found = await withoutSome(resolved, result, { outing: outing.id, id, left }, { minimise });
  return { ...one, outing, found };
}

/** What the outing packs in the end, by the finding. */
function packedAfter({ resolved, outing, found }: Asked): Map<string, number> {
  const after = packedPieces(resolved, outing);
  for (const { id, quantity } of found.goesOut) after.set(id, (after.get(id) ?? 0) - quantity);
  for (const { id, quantity } of found.comesIn) after.set(id, (after.get(id) ?? 0) + quantity);
  return after;
}

const named = ({ seed, found }: Asked): string =>
  `seed ${seed}, ${found.outing}: ${found.left} of ${found.packed} × ${found.id}`;

const asked: Asked[] = [];
const impossible: Answered[] = [];

beforeAll(async () => {
  for (let seed = 1; asked.length < piecesAsked; seed += 1) {
    const one = await answered(seed);
    if (one.result.status === 'infeasible') impossible.push(one);
    else {
      const piece = await askOne(one);
      if (piece) asked.push(piece);
    }
  }
}, campaignTimeoutMs);

describe(
  `of ${piecesAsked} random pieces, what is said of an outing without one`,
  { timeout: campaignTimeoutMs },
  () => {
    it('is what an exhaustive search finds for that outing with so many of it on hand', () => {
      const differing = asked.flatMap((one) => {
        const { plan, minimise, resolved, outing, found } = one;
        const least = leastOf(stocked(outingOf(plan, outing.id), new Map([[found.id, found.left]])), minimise);
        const says = found.cost && outingCost(resolved, outing, minimise) + found.cost.value;
        const outcome = least === null ? 'infeasible' : 'proven';
        return sameCost(says, least) && found.outcome === outcome
          ? []
          : [`${named(one)}: says ${found.outcome} ${says}, the search ${least}`];
      });
      expect(differing).toEqual([]);
      const failing = asked.filter(({ found }) => found.outcome === 'infeasible').length;
      expect(failing).toBeGreaterThan(piecesAsked * 0.3);
      expect(failing).toBeLessThan(piecesAsked * 0.9);
      expect(asked.filter(({ found }) => (found.cost?.value ?? 0) > 0).length).toBeGreaterThan(20);
      expect(asked.filter(({ found }) => found.left > 0).length).toBeGreaterThan(10);
    });

    it('names a replacement that does it: with those pieces alone on hand the search finds the same cost', () => {
      const differing = asked.flatMap((one) => {
        const { plan, minimise, resolved, outing, found } = one;
        if (!found.cost) return [];
        const least = leastOf(stockedOnly(outingOf(plan, outing.id), packedAfter(one)), minimise);
        const says = outingCost(resolved, outing, minimise) + found.cost.value;
        return sameCost(says, least) ? [] : [`${named(one)}: says ${says}, with those pieces ${least}`];
      });
      expect(differing).toEqual([]);
    });

    it('never packs more of the item than is left, and costs no less than with it', () => {
      for (const one of asked) {
        if (!one.found.cost) continue;
        expect(packedAfter(one).get(one.found.id) ?? 0, named(one)).toBeLessThanOrEqual(one.found.left);
        expect(one.found.cost.value, named(one)).toBeGreaterThanOrEqual(0);
      }
    });

    it('names steps that fail where it is impossible: each by itself, or together', () => {
      const wrong: string[] = [];
      for (const one of asked) {
        const { plan, minimise, outing, found } = one;
        if (found.outcome !== 'infeasible') continue;
        const rest = stocked(plan, new Map([[found.id, found.left]]));
        const steps = found.fails.flatMap(({ step }) => step ?? []);
        if (steps.length + found.conflicts.length === 0) wrong.push(`${named(one)}: nothing is said to fail`);
        for (const step of steps) {
          if (leastOf(outingOf(rest, outing.id, [step]), minimise) !== null)
            wrong.push(`${named(one)}: ${step} does not`);
        }
        for (const conflict of found.conflicts)
          wrong.push(...faultsOfConflict(rest, minimise, conflict).map((w) => `${named(one)}: ${w}`));
      }
      expect(wrong).toEqual([]);
    });
  },
);

/** What an exhaustive search has against a conflict: that it is one, that it is smallest, and what mends it. */
function faultsOfConflict(plan: Plan, minimise: GeneratedPlan['minimise'], conflict: StepConflict): string[] {
  const { outing, steps, eased, easedTogether } = conflict;
  const core = outingOf(plan, outing, steps);
  const goes = (of: Plan): boolean => leastOf(of, minimise) !== null;
  const wrong: string[] = [];
  if (goes(core)) wrong.push(`${steps.join(' + ')} go together`);
  for (const step of steps) {
    const others = steps.filter((id) => id !== step);
    if (!goes(outingOf(plan, outing, others))) wrong.push(`${others.join(' + ')} do not go without ${step}`);
  }
  // Gear of one step that no bag of its role takes is no matter of an amount.
  if (steps.length > 1 && eased.length + easedTogether.length === 0) wrong.push('nothing stands in the way');
  for (const { limit, needs, allowed, least } of eased) {
    if (!goes(lifted(core, limit, needs))) wrong.push(`${JSON.stringify(limit)} eased to ${needs} does not do`);
    if (needs === null || allowed === null || !least) continue;
    const whole = limit.kind === 'stock' || limit.kind === 'itemsMax' || limit.kind === 'tetherPoints';
    const less = whole ? needs - 1 : needs * (1 - 1e-6);
    if (less > allowed && goes(lifted(core, limit, less))) wrong.push(`${JSON.stringify(limit)} does with ${less}`);
  }
  const all = easedTogether.map(({ limit }) => limit);
  if (all.length > 0) {
    if (!goes(all.reduce((of, limit) => lifted(of, limit), core))) wrong.push('limits eased together do not do');
    for (const kept of all) {
      const but = all.filter((limit) => limit !== kept);
      if (goes(but.reduce((of, limit) => lifted(of, limit), core))) wrong.push(`${JSON.stringify(kept)} is not needed`);
    }
  }
  return wrong;
}

describe('of random plans that cannot be done', { timeout: campaignTimeoutMs }, () => {
  it('the conflicts named are some, disjoint, smallest, and mended by what is said to mend them', async () => {
    const wrong: string[] = [];
    const kinds = new Set<string>();
    let conflictCount = 0;
    for (const { seed, plan, minimise, resolved } of impossible.slice(0, share(70))) {
      for (const { id } of resolved.outings) {
        const conflicts = await stepConflicts(resolved, id, { minimise });
        conflictCount += conflicts.length;
        const steps = conflicts.flatMap((conflict) => conflict.steps);
        if (new Set(steps).size < steps.length) wrong.push(`seed ${seed}: a step in two conflicts`);
        for (const conflict of conflicts) {
          for (const { limit } of conflict.eased) kinds.add(limit.kind);
          wrong.push(...faultsOfConflict(plan, minimise, conflict).map((what) => `seed ${seed}: ${what}`));
        }
        const rest = resolved.steps.filter((step) => step.outing === id && !steps.includes(step.id));
        const doable = rest.filter((step) => leastOf(outingOf(plan, id, [step.id]), minimise) !== null);
        const left = outingOf(
          plan,
          id,
          doable.map((step) => step.id),
        );
        if (leastOf(left, minimise) === null) wrong.push(`seed ${seed}: ${id} still cannot be packed`);
      }
    }
    expect(wrong).toEqual([]);
    expect(conflictCount).toBeGreaterThan(10);
    expect(kinds.size, [...kinds].join(', ')).toBeGreaterThan(3);
  });
});

describe('of the limits of random plans', { timeout: campaignTimeoutMs }, () => {
  it('those bind without which an exhaustive search finds less, and no others', async () => {
    const wrong: string[] = [];
    const verdicts = { true: 0, false: 0 };
    for (const { seed, plan, minimise, resolved, result } of asked.slice(0, 50)) {
      const found: LimitReason[] = [];
      for await (const one of bindingLimits(resolved, result, { minimise }))
        if (one.kind === 'limit') found.push(one.found);
      const roll = dice(seed + 80_000);
      const some = found.filter(({ binds }) => binds === true || roll.chance(0.1));
      for (const { outing, limit, binds, relaxed } of some) {
        const before = result.outings.find(({ id }) => id === outing);
        const rest = (result.objective?.value ?? 0) - (before ? outingCost(resolved, before, minimise) : 0);
        const least = leastOf(lifted(outingOf(plan, outing), limit), minimise);
        const total = least === null ? null : rest + least;
        verdicts[`${binds === true}`] += 1;
        if (binds === sameCost(total, result.objective?.value ?? null) || !sameCost(total, relaxed?.value ?? null))
          wrong.push(
            `seed ${seed}, ${outing}, ${JSON.stringify(limit)}: says ${binds} ${relaxed?.value}, the search ${total}`,
          );
      }
    }
    expect(wrong).toEqual([]);
    expect(verdicts.true).toBeGreaterThan(10);
    expect(verdicts.false).toBeGreaterThan(10);
  });
});

describe('of what tolerance costs in random plans', { timeout: campaignTimeoutMs }, () => {
  it('each point is what an exhaustive search finds for that loss, outing by outing and in sum', async () => {
    const wrong: string[] = [];
    const counts = { possible: 0, dearer: 0, impossible: 0 };
    for (const { seed, plan, minimise, resolved, result } of asked.slice(60, 60 + share(40))) {
      for await (const { tolerance, outcome, total, outings, stoppedBy } of costOfTolerance(resolved, result, {
        minimise,
      })) {
        const least = outings.map(({ id }) => leastOf(outingOf(plan, id), minimise, tolerance));
        const sum = least.reduce((all, one) => (all === null || one === null ? null : all + one), 0);
        const same =
          sameCost(total?.value ?? null, sum) &&
          outings.every((one, at) => sameCost(one.total?.value ?? null, least[at] ?? null));
        if (!same || outcome !== (sum === null ? 'infeasible' : 'proven') || (sum === null) !== stoppedBy.length > 0)
          wrong.push(`seed ${seed}, ${tolerance}: says ${outcome} ${total?.value}, the search ${sum}`);
        if (tolerance === 'nothing') continue;
        counts[sum === null ? 'impossible' : 'possible'] += 1;
        counts.dearer += Number(sum !== null && !sameCost(sum, result.objective?.value ?? null));
      }
    }
    expect(wrong).toEqual([]);
    expect(counts.impossible).toBeGreaterThan(10);
    expect(counts.dearer).toBeGreaterThan(2);
  });
});

describe.each(['tarn-array', 'skua-rock-light'])('of the pieces of the demo %s', (name) => {
  it(
    '"without it" is what its file with the piece out of stock is planned to',
    { timeout: campaignTimeoutMs },
    async () => {
      const plan = planSchema.parse(JSON.parse(readFileSync(`data/demo/${name}.json`, 'utf8')));
      const resolved = planFrom(plan);
      const result = await planBag(resolved, { minimise: 'mass' });
      const roll = dice(name.length);
      const pieces = result.outings.flatMap((outing) =>
        [...packedPieces(resolved, outing).keys()]
          .filter((id) => resolved.carried.get(id)?.kind !== 'gear')
          .map((id) => ({ outing, id })),
      );
      for (const { outing, id } of pieces.filter(() => roll.chance(0.15))) {
        const found = await withoutSome(resolved, result, { outing: outing.id, id, left: 0 }, { minimise: 'mass' });
        const again = planFrom(stocked(outingOf(plan, outing.id), new Map([[id, 0]])));
        const { objective, outings } = await planBag(again, { minimise: 'mass' });
        const says = found.cost && outing.massKg + found.cost.value;
        expect(sameCost(says, objective?.value ?? null), `${id}: ${says}, ${objective?.value}`).toBe(true);
        if (!found.cost || !outings[0]) continue;
        expect(
          outings[0].steps.filter((step) => found.changed.some((changed) => changed.id === step.id)),
        ).toMatchObject(found.changed);
      }
    },
  );
});
