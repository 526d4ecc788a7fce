import type { BagOuting } from '../../../../shared-types/bag.ts';
import type { CourseProblem, SwapProposal } from '../../../../shared-types/outing.ts';
import type { ResolvedOuting, ResolvedPlan, ResolvedStep } from '../../plan/resolved.ts';
import { atMost } from '../../tolerance.ts';
import { scheduleOf } from '../clock.ts';
import { followPieces } from '../ledger/ledger.ts';

type Change = SwapProposal['changes'][number];

/** So many are looked at with the bag, and so many shown; the shortest first. */
const judgedMost = 5;
const shownMost = 3;
/** Loads differ very much where one is half as much again as the other; common practice, no source. */
const veryDifferent = 1.5;

/**
 * Steps that one role could take from another, so that an outing gets shorter or its roles share the work better.
 *
 * @param outings - the planned bags
 * @param problems - what the ledger of the plan as it stands tells
 * @returns the best few: those by which the outing gets shortest first, those which the bag as planned serves before others
 * @throws nothing
 * @source loads and minutes as the clock has them: rule 8 and rule 15 of command `bag`
 * @validity one step given, or two exchanged in one slot; who is able to do a step, the plan says with `swaps` alone
 */
export function swapProposals(
  plan: ResolvedPlan,
  outings: readonly BagOuting[],
  outing: ResolvedOuting,
  problems = problemsOf(plan, outings),
): SwapProposal[] {
  const steps = plan.steps.filter((step) => step.outing === outing.id && !step.contingency);
  const minutes = scheduleOf(steps).endMin;
  const candidates = pairsOf(outing).flatMap(([one, other]) => changesBetween(steps, one, other));
  const better = candidates
    .map((changes) => ({ changes, after: scheduleOf(changed(steps, changes)).endMin }))
    .map(({ changes, after }) => ({ changes, after, gap: gapOf(changed(steps, changes), changes) }))
    .filter(({ changes, after, gap }) => {
      if (!atMost(minutes, after)) return true;
      const now = gapOf(steps, changes);
      return atMost(after, minutes) && now.ratio > veryDifferent && gap.minutes < now.minutes;
    })
    .toSorted((a, b) => a.after - b.after || a.gap.minutes - b.gap.minutes);
  if (better.length === 0) return [];
  const known = keysOf(problems);
  const judged = better.slice(0, judgedMost).map(({ changes, after }) => {
    const { clashes, bag } = judge(plan, outings, outing, changes, known);
    return { changes, minutes: { before: minutes, after }, loads: loadsOf(outing, steps, changes), clashes, bag };
  });
  const served = (proposal: SwapProposal): number =>
    proposal.bag?.serves === false || proposal.clashes.length > 0 ? 1 : 0;
  return judged.toSorted((a, b) => served(a) - served(b)).slice(0, shownMost);
}

function pairsOf(outing: ResolvedOuting): [string, string][] {
  const { roles, swaps } = outing;
  return swaps ?? roles.flatMap((one, index) => roles.slice(index + 1).map((other): [string, string] => [one, other]));
}

/** One step given either way, or two of one slot exchanged. */
function changesBetween(steps: readonly ResolvedStep[], one: string, other: string): Change[][] {
  const of = (role: string) => steps.filter((step) => step.role === role);
  const give = (role: string, to: string) => of(role).map(({ id }): Change[] => [{ step: id, from: role, to }]);
  const exchange = of(one).flatMap((a) =>
    of(other)
      .filter((b) => a.slot !== null && b.slot === a.slot && b.minutes !== a.minutes)
      .map((b): Change[] => [
        { step: a.id, from: one, to: other },
        { step: b.id, from: other, to: one },
      ]),
  );
  return [...give(one, other), ...give(other, one), ...exchange];
}

function changed<S extends { id: string; role: string }>(steps: readonly S[], changes: readonly Change[]): S[] {
  const to = new Map(changes.map((change) => [change.step, change.to]));
  return steps.map((step) => ({ ...step, role: to.get(step.id) ?? step.role }));
}

function loadOf(steps: readonly ResolvedStep[], role: string): number {
  return steps.reduce((sum, step) => sum + (step.role === role ? step.minutes : 0), 0);
}

/** How different the loads of the two roles of a change are. */
function gapOf(steps: readonly ResolvedStep[], changes: readonly Change[]): { minutes: number; ratio: number } {
  const [first] = changes;
  const loads = [first?.from ?? '', first?.to ?? ''].map((role) => loadOf(steps, role));
  const [most, least] = [Math.max(...loads), Math.min(...loads)];
  return { minutes: most - least, ratio: most === 0 ? 1 : most / least };
}

function loadsOf(
  outing: ResolvedOuting,
  steps: readonly ResolvedStep[],
  changes: readonly Change[],
): SwapProposal['loads'] {
  const after = changed(steps, changes);
  return outing.roles.map((role) => ({ role, before: loadOf(steps, role), after: loadOf(after, role) }));
}

/** What the course has wrong with the changed roles and has not without: clashes apart from what the bag does not hold. */
function judge(
  plan: ResolvedPlan,
  outings: readonly BagOuting[],
  outing: ResolvedOuting,
  changes: readonly Change[],
  known: ReadonlySet<string>,
): Pick<SwapProposal, 'clashes' | 'bag'> {
  const swapped = { ...plan, steps: changed(plan.steps, changes) };
  const fresh = problemsOf(swapped, outings).filter((problem) => !known.has(keyOf(problem)));
  const clashes = fresh.filter(({ rule }) => rule === 'used-twice');
  const answer = outings.find(({ id }) => id === outing.id);
  if (answer === undefined) return { clashes, bag: null };
  const missing = fresh
    .filter(({ rule }) => rule !== 'used-twice')
    .map(({ rule, step, id, quantity }) => `${rule}: ${quantity} × ${id} at ${step ?? outing.id}`);
  const reasons = [...missing, ...strangers(swapped, answer)];
  return { clashes, bag: { serves: reasons.length === 0, reasons } };
}

/** Rule 9: a role's bag holds what that role's own steps use. */
function strangers(plan: ResolvedPlan, answer: BagOuting): string[] {
  const stacks = new Map(answer.steps.map((step) => [step.id, [...step.stack, ...(step.hold ?? [])]]));
  const steps = plan.steps.filter((step) => step.outing === answer.id);
  return answer.items.flatMap(({ id, bag, because }) => {
    const role = plan.bags.get(bag)?.role ?? null;
    if (role === null) return [];
    const users = steps.filter(
      (step) =>
        (stacks.get(step.id) ?? []).includes(id) ||
        because.includes(step.id) ||
        step.gear.some((gear) => gear.id === id),
    );
    return users.length === 0 || users.some((step) => step.role === role)
      ? []
      : [`${bag} of ${role} would hold ${id}, which no step of ${role} uses`];
  });
}

function problemsOf(plan: ResolvedPlan, outings: readonly BagOuting[]): CourseProblem[] {
  return followPieces(plan, outings, { withRows: false }).ledger.problems;
}

const keyOf = ({ rule, step, id, kind, quantity }: CourseProblem): string =>
  JSON.stringify([rule, step, id, kind, quantity]);

const keysOf = (problems: readonly CourseProblem[]): Set<string> => new Set(problems.map(keyOf));
