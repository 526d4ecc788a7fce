import type { Highs } from 'highs';
import type { CheckFailure, Infeasibility } from '../../../shared-types/bag.ts';
import type { Carried, ResolvedBag, ResolvedPlan } from '../plan/resolved.ts';
import { apart, shownPieces } from '../stack/shown.ts';
import { atMost } from '../tolerance.ts';
import { showNumber } from '../units/index.ts';
import { bagModel } from './bagModel.ts';
import type { Counts } from './counts.ts';
import { volumeL } from './measure.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import { readAnswer } from './outingAnswer.ts';
import type { OutingWork, StepGroup } from './outingWork.ts';
import { settle } from './settle.ts';
import { stepName } from './unplaceable.ts';

const noGear: Counts = new Map();

/**
 * Why an outing has no bag though each of its steps has a stack: the steps that cannot be packed even alone, else the
 * smallest part of the outing that cannot be packed together, found by leaving one thing out at a time; each with by
 * how much stock or bags fall short of it at the least.
 */
export function jointFaults(highs: Highs, plan: ResolvedPlan, work: OutingWork): Infeasibility[] {
  const alone = work.groups.flatMap((group) => {
    const only = { ...work, gear: noGear, groups: [group] };
    return packs(highs, plan, only) ? [] : stepFaults(highs, plan, only, group);
  });
  if (alone.length > 0) return alone;

  let core = work;
  const leaveOut = (smaller: OutingWork): void => {
    if (!packs(highs, plan, smaller)) core = smaller;
  };
  leaveOut({ ...core, gear: noGear });
  for (const group of work.groups) leaveOut({ ...core, groups: core.groups.filter((g) => g !== group) });

  const { fails } = shortfalls(highs, plan, core);
  const gear = core.gear.size > 0 ? [`the gear ${[...core.gear].map(([id, n]) => `${n} × ${id}`).join(', ')}`] : [];
  const who = [...core.groups.map(groupName), ...gear].join(', ');
  const { id } = work.outing;
  return [
    {
      outing: id,
      reason: `outing ${id}: cannot pack ${who} together: ${said(fails)}`,
      closest: [{ stack: [], fails }],
    },
  ];
}

function stepFaults(highs: Highs, plan: ResolvedPlan, only: OutingWork, group: StepGroup): Infeasibility[] {
  const { stack, fails } = shortfalls(highs, plan, only);
  return group.steps.map((step) => {
    return {
      step: step.id,
      reason: `${stepName(step)}: cannot be packed: ${said(fails)}`,
      closest: [{ stack, fails }],
    };
  });
}

function said(fails: readonly CheckFailure[]): string {
  return fails.map(({ have, need }) => `${have}, ${need} needed`).join('; ');
}

function groupName({ steps }: StepGroup): string {
  const [first] = steps;
  if (!first) return '';
  return steps.length === 1 ? stepName(first) : `${stepName(first)} and ${steps.length - 1} like it`;
}

function packs(highs: Highs, plan: ResolvedPlan, work: OutingWork): boolean {
  const { program } = bagModel(plan, work, 'count');
  program.dropCosts();
  return program.solve(highs).status !== 'infeasible';
}

/** The least that would have to give for this part of the outing to be packed, counted from that packing itself. */
function shortfalls(highs: Highs, plan: ResolvedPlan, work: OutingWork): { stack: string[]; fails: CheckFailure[] } {
  const model = bagModel(plan, work, 'count', true);
  const { columns } = model.program.solve(highs);
  if (!columns) return { stack: [], fails: [{ check: 'bag', have: '0 bags', need: '1 bag' }] };
  const answer = settle(readAnswer(model, columns));
  const stock = [...plan.carried.values()].flatMap(({ id, onHand }): CheckFailure[] => {
    const taken = answer.contents.reduce((sum, line) => sum + (line.item.id === id ? line.quantity : 0), 0);
    if (taken <= onHand) return [];
    return [{ check: 'stock', have: `${shownPieces(onHand)} of ${id} on hand`, need: shownPieces(taken) }];
  });
  const fails = [...stock, ...work.bags.flatMap((bag) => overfull(bag, answer.contents))];
  return { stack: answer.chosen[0]?.stack.ids ?? [], fails };
}

function overfull(bag: ResolvedBag, contents: OutingAnswer['contents']): CheckFailure[] {
  const inside = contents.filter((line) => line.bag === bag);
  const over = (
    allowed: number | null,
    each: (item: Carried) => number,
    show: (amount: number, digits: number) => string,
  ): CheckFailure[] => {
    if (allowed === null) return [];
    const total = inside.reduce((sum, { item, quantity }) => sum + each(item) * quantity, 0);
    if (atMost(total, allowed)) return [];
    const [have, need] = apart(allowed, total, show);
    return [{ check: 'bag', have: `bag ${bag.id} takes ${have}`, need }];
  };
  return [
    ...over(
      bag.massMaxKg,
      (item) => item.massKg,
      (kg, digits) => `${showNumber(kg, digits)} kg`,
    ),
    ...over(bag.volumeMaxL, volumeL, (litres, digits) => `${showNumber(litres, digits)} L`),
    ...over(bag.itemsMax, () => 1, shownPieces),
    ...over(
      bag.tetherPoints,
      (item) => item.tethers,
      (points) => `${showNumber(points)} tether points`,
    ),
  ];
}
