import type { Highs } from 'highs';
import type { CheckFailure, Infeasibility, Tolerance } from '../../../shared-types/bag.ts';
import type { Carried, ResolvedBag, ResolvedPlan } from '../plan/resolved.ts';
import { lightestStacks } from '../stack/lightest.ts';
import { apart, shownPieces } from '../stack/shown.ts';
import { stackIds } from '../stack/stackTask.ts';
import { atMost } from '../tolerance.ts';
import { showNumber } from '../units/index.ts';
import type { Counts } from './counts.ts';
import { leastContents } from './leastContents.ts';
import { lossFaults } from './lossFaults.ts';
import { volumeL } from './measure.ts';
import type { Costs } from './model/costs.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import type { OutingWork, StepGroup } from './outingWork.ts';
import { reduceWork } from './presolve/reduceWork.ts';
import { settle } from './settle/settle.ts';
import { stepName } from './unplaceable.ts';

const noGear: Counts = new Map();

/**
 * Why an outing has no bag though each of its steps has a stack: the steps that cannot be packed even alone, else the
 * smallest part of the outing that cannot be packed together, found by leaving one thing out at a time; each with by
 * how much stock or bags fall short of it at the least. Where there is a bag as long as nothing is lost, the steps that
 * do not survive a loss with all that is on hand come first.
 */
export function jointFaults(highs: Highs, plan: ResolvedPlan, work: OutingWork): Infeasibility[] {
  const untroubled = { ...work, tolerance: 'nothing' as const };
  if (work.tolerance !== 'nothing') {
    if (!packs(highs, plan, untroubled)) return jointFaults(highs, plan, untroubled);
    const fatal = lossFaults(plan, work);
    if (fatal.length > 0) return fatal;
  }
  const bare = { ...work, gear: noGear, keep: noGear };
  const alone = work.groups.flatMap((group) => {
    const only = { ...bare, groups: [group] };
    return packs(highs, plan, only) ? [] : stepFaults(highs, plan, only, group);
  });
  if (alone.length > 0) return alone;

  let core = work;
  const leaveOut = (smaller: OutingWork): void => {
    if (!packs(highs, plan, smaller)) core = smaller;
  };
  leaveOut({ ...core, gear: noGear });
  leaveOut({ ...core, keep: noGear });
  for (const group of work.groups) leaveOut({ ...core, groups: core.groups.filter((g) => g !== group) });

  const { fails } = shortfalls(highs, plan, core) ?? nothingFits;
  const listed = ({ size }: Counts, what: string, counts: Counts): string[] =>
    size > 0 ? [`${what} ${[...counts].map(([id, n]) => `${n} × ${id}`).join(', ')}`] : [];
  const extra = [...listed(core.gear, 'the gear', core.gear), ...listed(core.keep, 'what is kept,', core.keep)];
  const who = [...core.groups.map(groupName), ...extra].join(', ');
  const { id } = work.outing;
  return [
    {
      outing: id,
      reason: `outing ${id}: cannot pack ${who} together${afterLoss(work)}: ${said(fails)}`,
      closest: [{ stack: [], fails }],
    },
  ];
}

const standsWords: Record<Tolerance, string> = {
  nothing: '',
  piece: ' so that any one piece may be lost',
  bag: ' so that any one bag may be lost',
};

function afterLoss({ tolerance }: OutingWork): string {
  return standsWords[tolerance];
}

function stepFaults(highs: Highs, plan: ResolvedPlan, only: OutingWork, group: StepGroup): Infeasibility[] {
  const { stack, fails } = shortfalls(highs, plan, only) ?? nowhere(group);
  return group.steps.map((step) => {
    return {
      step: step.id,
      reason: `${stepName(step)}: cannot be packed${afterLoss(only)}: ${said(fails)}`,
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

/** Nothing costs anything: only limits count. */
const free: Costs = { ofItem: () => 0, ofBag: () => 0, back: (cost) => cost, countsPieces: false };

function packs(highs: Highs, plan: ResolvedPlan, work: OutingWork): boolean {
  const found = leastContents(highs, plan, reduceWork(work, 'count'), { costs: free, anyAnswer: true });
  return found.status !== 'infeasible';
}

interface Shortfalls {
  stack: string[];
  fails: CheckFailure[];
}

/** Where no limit that gives would help: what the bags may hold at all is too little. */
const nothingFits: Shortfalls = {
  stack: [],
  fails: [{ check: 'bag', have: '1 bag that may hold it', need: '2 bags' }],
};

function nowhere({ ways }: StepGroup): Shortfalls {
  const [lightest] = lightestStacks(ways, 1);
  return { ...nothingFits, stack: lightest ? stackIds(lightest) : [] };
}

/** The least that would have to give for this part of the outing to be packed, counted from that packing itself. */
function shortfalls(highs: Highs, plan: ResolvedPlan, work: OutingWork): Shortfalls | null {
  const { contents } = leastContents(highs, plan, reduceWork(work, 'count'), { costs: free, elastic: true });
  if (!contents) return null;
  const answer = settle(work, contents);
  const stock = [...plan.carried.values()].flatMap(({ id, onHand }): CheckFailure[] => {
    const taken = answer.contents.reduce((sum, line) => sum + (line.item.id === id ? line.quantity : 0), 0);
    if (taken <= onHand) return [];
    return [{ check: 'stock', have: `${shownPieces(onHand)} of ${id} on hand`, need: shownPieces(taken) }];
  });
  const fails = [...stock, ...work.bags.flatMap((bag) => overfull(bag, answer.contents))];
  return { stack: [...answer.chosen.values()][0]?.stack.ids ?? [], fails };
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
