import type { Highs } from 'highs';
import type { CheckFailure, Infeasibility } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { shownPieces } from '../stack/shown.ts';
import { convertValue, showNumber } from '../units/index.ts';
import type { Slack } from './bagModel.ts';
import { bagModel } from './bagModel.ts';
import { readAnswer } from './outingAnswer.ts';
import type { Counts, OutingWork, StepGroup } from './outingWork.ts';
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

function shortfalls(highs: Highs, plan: ResolvedPlan, work: OutingWork): { stack: string[]; fails: CheckFailure[] } {
  const model = bagModel(plan, work, 'count', true);
  const { columns } = model.program.solve(highs);
  if (!columns) return { stack: [], fails: [{ check: 'bag', have: 'no bag', need: '1 bag' }] };
  const stack = readAnswer(model, columns).chosen[0]?.stack.ids ?? [];
  const fails = model.slacks.flatMap((slack) => failure(slack, columns[slack.column] ?? 0));
  return { stack, fails };
}

function failure({ limit }: Slack, by: number): CheckFailure[] {
  if (by < 1e-6) return [];
  if (limit.kind === 'stock') {
    const { id, onHand } = limit.item;
    return [
      { check: 'stock', have: `${shownPieces(onHand)} of ${id} on hand`, need: shownPieces(onHand + Math.round(by)) },
    ];
  }
  const { bag, allowed, kind } = limit;
  const show = {
    mass: (kg: number) => `${showNumber(kg)} kg`,
    volume: (litres: number) => `${showNumber(litres)} L`,
    items: (count: number) => shownPieces(Math.round(count)),
    tethers: (count: number) => `${showNumber(Math.round(count))} tether points`,
  }[kind];
  const scale = kind === 'mass' ? convertValue(1, 'g', 'kg') : kind === 'volume' ? convertValue(1, 'mL', 'L') : 1;
  return [{ check: 'bag', have: `bag ${bag.id} takes ${show(allowed)}`, need: show(allowed + by * scale) }];
}
