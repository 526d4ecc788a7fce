/**
 * An answer of command `bag` checked again from the plan alone: every rule on the stacks chosen and the pieces packed,
 * the reasons, masses and objective re-added, the settings and problems re-derived. It does not ask whether a smaller
 * bag exists; the exhaustive search does.
 *
 * Readings where the rules leave room:
 * - `because` is empty only for what was asked for beside the plan, and names only steps that use the item and may draw
 *   on that bag, or that the item protects: where a loss is to be stood, some possible stack of theirs has it, and it
 *   may lie anywhere; every step that uses an item is named on at least one of its lines;
 * - gear may serve from any bag it may lie in; only stacks are tied to their role's bags;
 * - the setting of a step that does not tighten is null; the stack of a `use` step is [] and its hold null.
 */
import type { BagItem, BagOuting, BagResult, BagStep, Minimised, PlanProblem } from '../../shared-types/bag.ts';
import type { Plan, PlanStep } from '../../shared-types/plan.ts';
import { askOf, keptOn, stockOn, withSpares } from './ask.ts';
import type { Ask } from './ask.ts';
import type { BreakName } from './breaks.ts';
import { judgeInfeasible } from './judgeInfeasible.ts';
import { brokenLimits, costOf, ownBagCost } from './limits.ts';
import { problemsOf } from './moves.ts';
import { choicesOf, gearOf, gearPacked, momentsOf, outingGear, possibleByRole, stepsOf } from './needs.ts';
import type { StepNeeds } from './needs.ts';
import { atMost, same, torqueNm } from './quantity.ts';
import { chosenSettingNm, failedRules, holdJob, pieceCounts, stackFromIds, stackIds, stepJob } from './rules.ts';
import type { Job, Stack } from './rules.ts';
import { readStock } from './stock.ts';
import type { Bag, Stock } from './stock.ts';
import type { Accuse, Violation } from './violation.ts';

/** What the judge holds while it looks at one answer. */
interface Court {
  plan: Plan;
  stock: Stock;
  ask: Ask;
  broken: BreakName | undefined;
  accuse: Accuse;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

function judgeStack(court: Court, ids: readonly string[] | null, job: Job | null, where: string): Stack | null {
  if (job === null) {
    if (ids !== null && ids.length > 0) court.accuse('stack', where, 'a stack where none is asked');
    return null;
  }
  const stack = stackFromIds(court.stock, ids ?? []);
  if (stack === null) {
    court.accuse('stack', where, `${JSON.stringify(ids)} is no tool, extensions and socket`);
    return null;
  }
  for (const rule of failedRules(stack, job, court.broken)) court.accuse(rule, where, stackIds(stack).join(' '));
  return stack;
}

function judgeSetting(court: Court, step: PlanStep, answer: BagStep, stack: Stack | null): void {
  const job = stepJob(court.plan, step, court.broken);
  const wantedNm = stack === null || job === null ? null : chosenSettingNm(stack.tool, job, court.broken);
  const said = answer.setting;
  if (said === null || wantedNm === null) {
    if (said !== null || wantedNm !== null) {
      court.accuse('setting', step.id, `says ${JSON.stringify(said)}, chosen is ${wantedNm} N·m`);
    }
    return;
  }
  const saidNm = torqueNm(`1 ${said.unit}`) * said.value;
  if (!same(saidNm, wantedNm)) court.accuse('setting', step.id, `says ${saidNm} N·m, chosen is ${wantedNm} N·m`);
}

/** The step's chosen stack and hold as the one choice it has. */
function judgeStep(court: Court, step: PlanStep, answer: BagStep): StepNeeds {
  const { plan, broken } = court;
  const stack = judgeStack(court, answer.stack, stepJob(plan, step, broken), step.id);
  const hold = judgeStack(court, answer.hold, holdJob(plan, step, broken), `${step.id} hold`);
  judgeSetting(court, step, answer, stack);
  const counts = pieceCounts([...(stack ? stackIds(stack) : []), ...(hold ? stackIds(hold) : [])], broken);
  return { step, choices: [{ stack, hold, settingNm: null, counts }] };
}

function judgeBagLimits(court: Court, bags: readonly Bag[], items: readonly BagItem[]): void {
  for (const bag of bags) {
    const inside = items.flatMap(({ id, quantity, bag: lies }) => {
      const item = court.stock.carried.get(id);
      return lies === bag.id && item !== undefined ? [{ item, count: quantity }] : [];
    });
    for (const limit of brokenLimits(bag, inside, court.broken))
      court.accuse(limit, bag.id, `bag ${bag.id} is over it`);
  }
}

/** Rule 9: a bag with a role holds that role's gear, and what a stack of that role may use. */
function judgeContents(
  court: Court,
  bags: readonly Bag[],
  items: readonly BagItem[],
  steps: readonly StepNeeds[],
): void {
  const possible = possibleByRole(steps);
  for (const { id, bag: bagId } of items) {
    const role = bags.find((bag) => bag.id === bagId)?.role ?? null;
    if (role === null) continue;
    const isGear = court.stock.gear.some((item) => item.id === id);
    const belongs = isGear
      ? court.broken === 'roleContents' || steps.some(({ step }) => step.role === role && gearOf(step).has(id))
      : possible.get(role)?.has(id) === true;
    if (!belongs) court.accuse('roleContents', bagId, `${id} serves no step of ${role}`);
  }
}

/** Rules 8 and 9: at every moment each role finds its pieces in its own bags and in those without role. */
function judgeDraws(court: Court, bags: readonly Bag[], items: readonly BagItem[], steps: readonly StepNeeds[]): void {
  const lying = (id: string, role: string | null): number =>
    sum(
      items
        .filter((item) => item.id === id)
        .filter(
          (item) => court.broken === 'roleDraw' || (bags.find((bag) => bag.id === item.bag)?.role ?? null) === role,
        )
        .map((item) => item.quantity),
    );
  for (const { roles } of momentsOf(steps)) {
    const ids = new Set(
      roles.flatMap(({ steps: mates }) => mates.flatMap(({ choices }) => [...(choices[0]?.counts.keys() ?? [])])),
    );
    for (const id of ids) {
      const draws = roles.map(({ role, steps: mates }) => {
        const need = Math.max(...mates.map(({ choices }) => choices[0]?.counts.get(id) ?? 0));
        const own = court.broken === 'ownFirst' || court.broken === 'roleDraw' ? 0 : lying(id, role);
        return Math.max(0, need - own);
      });
      const drawn = court.broken === 'slot' ? Math.max(...draws) : sum(draws);
      const where = roles.flatMap(({ steps: mates }) => mates.map(({ step }) => step.id)).join(' ');
      if (drawn > lying(id, null)) court.accuse('draw', where, `${id}: ${drawn} drawn, ${lying(id, null)} shared`);
    }
  }
}

function judgeStock(court: Court, outing: BagOuting): void {
  const taken = new Map<string, number>();
  for (const { id, quantity } of outing.items) taken.set(id, (taken.get(id) ?? 0) + quantity);
  const own = stockOn(court.stock, court.ask, outing.id, court.broken);
  for (const [id, quantity] of taken) {
    const onHand = own.carried.get(id)?.onHand ?? 0;
    if (quantity > onHand && court.broken !== 'onHand')
      court.accuse('onHand', outing.id, `${id}: ${quantity} taken, ${onHand} on hand`);
  }
  for (const [id, quantity] of gearPacked(court.plan, court.stock, court.ask, outing.id, court.broken)) {
    const has = taken.get(id) ?? 0;
    if (has < quantity) court.accuse('gear', outing.id, `${id}: ${has} taken, ${quantity} needed`);
  }
  const first = court.plan.outings[0]?.id ?? '';
  for (const [id, quantity] of keptOn(court.ask, outing.id, first, court.broken)) {
    const has = taken.get(id) ?? 0;
    if (has < quantity) court.accuse('keep', outing.id, `${id}: ${has} taken, ${quantity} to be kept`);
  }
}

/** Rule 10, by taking each piece away in turn; or each bag with all it holds. */
function judgeLoss(court: Court, bags: readonly Bag[], items: readonly BagItem[], steps: readonly StepNeeds[]): void {
  const { tolerance } = court.ask;
  const gear = new Set(court.stock.gear.map(({ id }) => id));
  const parts = items.filter(({ id }) => !gear.has(id));
  const left = new Map<string, number>();
  const add = ({ id }: BagItem, count: number): void => void left.set(id, (left.get(id) ?? 0) + count);
  for (const item of parts) add(item, item.quantity);
  const accuseUnserved = (rule: string, lost: string): void => {
    for (const { step, choices } of steps) {
      const served = choices.some(({ counts }) => [...counts].every(([id, count]) => count <= (left.get(id) ?? 0)));
      if (!served) court.accuse(rule, step.id, `no stack is left without ${lost}`);
    }
  };
  if (tolerance === 'piece' && court.broken !== 'pieceLoss') {
    for (const item of parts) {
      const taken = court.broken === 'lossCopies' ? (left.get(item.id) ?? 0) : 1;
      add(item, -taken);
      accuseUnserved('pieceLoss', item.id);
      add(item, taken);
    }
  }
  if (tolerance === 'bag' && court.broken !== 'bagLoss') {
    for (const bag of bags) {
      const inside = parts.filter((item) => item.bag === bag.id);
      for (const item of inside) add(item, -item.quantity);
      accuseUnserved('bagLoss', bag.id);
      for (const item of inside) add(item, item.quantity);
    }
  }
}

function judgeReasons(
  court: Court,
  bags: readonly Bag[],
  outing: BagOuting,
  { steps, possible }: { steps: readonly StepNeeds[]; possible: readonly StepNeeds[] },
): void {
  const wished = new Set([...court.ask.keep, ...court.ask.spares].map(({ id }) => id));
  const protects = (stepId: string, id: string): boolean =>
    court.ask.tolerance !== 'nothing' &&
    possible.some(({ step, choices }) => step.id === stepId && choices.some(({ counts }) => counts.has(id)));
  const uses = ({ step, choices }: StepNeeds, id: string): boolean =>
    gearOf(step).has(id) || choices.some(({ counts }) => counts.has(id));
  for (const item of outing.items) {
    const where = `${outing.id} ${item.id} in ${item.bag}`;
    const role = bags.find((bag) => bag.id === item.bag)?.role ?? null;
    if (item.because.length === 0 && !wished.has(item.id)) court.accuse('because', where, 'taken for nothing');
    if (new Set(item.because).size !== item.because.length) court.accuse('because', where, 'a step twice');
    for (const stepId of item.because) {
      const needs = steps.find(({ step }) => step.id === stepId);
      const draws =
        needs !== undefined && (role === null || role === needs.step.role || gearOf(needs.step).has(item.id));
      if ((!draws || !uses(needs, item.id)) && !protects(stepId, item.id))
        court.accuse('because', where, `${stepId} does not use it`);
    }
  }
  for (const needs of steps) {
    for (const id of new Set(outing.items.map((item) => item.id))) {
      const named = outing.items.some((item) => item.id === id && item.because.includes(needs.step.id));
      if (uses(needs, id) && !named)
        court.accuse('because', `${outing.id} ${id}`, `${needs.step.id} uses it and is not named`);
    }
  }
}

function judgeLines(court: Court, bags: readonly Bag[], outing: BagOuting): void {
  const seen = new Set<string>();
  for (const { id, quantity, bag } of outing.items) {
    const where = `${outing.id} ${id} in ${bag}`;
    if (!court.stock.carried.has(id) || !bags.some((one) => one.id === bag))
      court.accuse('items', where, 'no such piece or bag');
    if (!Number.isInteger(quantity) || quantity < 1) court.accuse('items', where, `quantity ${quantity}`);
    if (seen.has(`${id}\n${bag}`)) court.accuse('items', where, 'two lines for one');
    seen.add(`${id}\n${bag}`);
  }
}

function judgeMass(court: Court, bags: readonly Bag[], outing: BagOuting): void {
  const piecesKg = sum(outing.items.map(({ id, quantity }) => quantity * (court.stock.carried.get(id)?.massKg ?? 0)));
  const ownKg = sum(bags.filter((bag) => outing.items.some((item) => item.bag === bag.id)).map((bag) => bag.massKg));
  if (!same(outing.massKg, piecesKg + ownKg))
    court.accuse('massKg', outing.id, `says ${outing.massKg}, is ${piecesKg + ownKg}`);
}

function judgeOuting(court: Court, outing: BagOuting): void {
  const bagIds = court.plan.outings.find((one) => one.id === outing.id)?.bags ?? [];
  const bags = bagIds.flatMap((id) => court.stock.bags.filter((bag) => bag.id === id));
  const planned = stepsOf(court.plan, outing.id);
  if (planned.map((step) => step.id).join('\n') !== outing.steps.map((step) => step.id).join('\n')) {
    court.accuse('steps', outing.id, 'not the steps of the plan in their order');
  }
  const steps = planned.flatMap((step) => {
    const answer = outing.steps.find((one) => one.id === step.id);
    return answer === undefined ? [] : [judgeStep(court, step, answer)];
  });
  const own = stockOn(court.stock, court.ask, outing.id, court.broken);
  const possible = planned.map((step) => ({ step, choices: choicesOf(court.plan, own, step, court.broken) }));
  judgeLines(court, bags, outing);
  judgeStock(court, outing);
  judgeBagLimits(court, bags, outing.items);
  judgeContents(court, bags, outing.items, possible);
  judgeDraws(court, bags, outing.items, steps);
  judgeLoss(court, bags, outing.items, possible);
  judgeReasons(court, bags, outing, { steps, possible });
  judgeMass(court, bags, outing);
}

function judgeConsumed(court: Court): void {
  for (const item of court.stock.gear.filter((one) => one.consumed)) {
    const spent = sum(
      court.plan.outings.map(({ id }) => {
        const need = outingGear(court.plan, id, court.broken);
        const all = court.broken === 'sparesConsumed' ? need : withSpares(need, court.ask.spares, id, court.broken);
        return all.get(item.id) ?? 0;
      }),
    );
    if (spent > item.onHand && court.broken !== 'consumed')
      court.accuse('consumed', item.id, `${spent} spent over all, ${item.onHand} on hand`);
  }
}

function judgeObjective(court: Court, result: BagResult): void {
  const { objective } = result;
  if (objective === null) return court.accuse('objective', 'plan', 'none given');
  const unit = { mass: 'kg', count: 'pieces', volume: 'L' }[court.ask.minimise];
  if (objective.minimised !== court.ask.minimise || objective.unit !== unit) {
    court.accuse('objective', 'plan', `${objective.minimised} in ${objective.unit}`);
  }
  const used = new Set(result.outings.flatMap(({ id, items }) => items.map(({ bag }) => `${id}\n${bag}`)));
  const value =
    sum(
      result.outings.flatMap(({ items }) =>
        items.map(({ id, quantity }) => {
          const item = court.stock.carried.get(id);
          return item === undefined ? 0 : quantity * costOf(item, court.ask.minimise);
        }),
      ),
    ) +
    sum(
      [...used].map((key) => {
        const bag = court.stock.bags.find((one) => one.id === key.split('\n')[1]);
        return bag === undefined ? 0 : ownBagCost(bag, court.ask.minimise, court.broken);
      }),
    );
  if (!same(objective.value, value)) court.accuse('objective', 'plan', `says ${objective.value}, is ${value}`);
  if (!atMost(objective.bound, objective.value)) court.accuse('objective', 'plan', 'a bound over the value');
  const gap = objective.value === 0 ? 0 : (objective.value - objective.bound) / objective.value;
  if (Math.abs(gap - objective.gap) > 1e-9) court.accuse('objective', 'plan', `gap ${objective.gap}, is ${gap}`);
  if (result.status === 'optimal' && objective.gap > 1e-9) court.accuse('objective', 'plan', 'optimal with a gap');
}

const problemText = (one: PlanProblem): string =>
  [one.rule, one.outing, one.step ?? '', one.id, Number(one.quantity.toPrecision(9)), one.place ?? ''].join(' ');

function judgeProblems(court: Court, result: BagResult): void {
  const wanted = problemsOf(court.plan, court.broken).map(problemText).toSorted();
  const said = result.problems.map(problemText).toSorted();
  if (wanted.join('\n') !== said.join('\n')) {
    court.accuse('problems', 'plan', `says [${said.join('; ')}], are [${wanted.join('; ')}]`);
  }
}

/** An item without size lies in a bag with `sizeMax` only with a word about it. */
function judgeUnchecked(court: Court, result: BagResult): void {
  for (const { items } of result.outings) {
    for (const { id, bag } of items) {
      const limited = (court.stock.bags.find((one) => one.id === bag)?.sizeMaxMm ?? Infinity) < Infinity;
      const listed = result.unchecked.some((one) => one.items?.includes(id) === true);
      if (limited && court.stock.carried.get(id)?.sizeMm === null && !listed) {
        court.accuse('unchecked', id, `has no size and passes ${bag}`);
      }
    }
  }
}

/** Everything in an answer that the plan does not bear out; an empty list is a right answer as far as it goes. */
export function judge(plan: Plan, asked: Ask | Minimised, result: BagResult, broken?: BreakName): Violation[] {
  const ask = askOf(asked);
  const found: Violation[] = [];
  const accuse: Accuse = (rule, where, says) => found.push({ rule, where, says });
  const court: Court = { plan, stock: readStock(plan), ask, broken, accuse };
  judgeProblems(court, result);
  if (result.singleLoss !== (ask.tolerance === 'piece'))
    accuse('singleLoss', 'plan', `says ${result.singleLoss}, asked for is the loss of ${ask.tolerance}`);
  if (result.status === 'infeasible') {
    judgeInfeasible(plan, court.stock, ask, { result, accuse, broken });
    return found;
  }
  if (result.infeasible.length > 0) accuse('infeasible', 'plan', 'reasons for a plan that is feasible');
  if (plan.outings.map(({ id }) => id).join('\n') !== result.outings.map(({ id }) => id).join('\n')) {
    accuse('outings', 'plan', 'not the outings of the plan in their order');
  }
  for (const outing of result.outings) judgeOuting(court, outing);
  judgeConsumed(court);
  judgeObjective(court, result);
  judgeUnchecked(court, result);
  return found;
}
