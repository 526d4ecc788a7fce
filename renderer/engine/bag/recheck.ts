import type { BagOuting, BagStep, BagWishes, Minimised, Tolerance } from '../../../shared-types/bag.ts';
import type { Carried, ResolvedBag, ResolvedOuting, ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { checkStack } from '../stack/checkStack.ts';
import type { StackTask } from '../stack/stackTask.ts';
import { extensionsMax, holdTask, mayTurn, stackParts, stackTask } from '../stack/stackTask.ts';
import { atMost } from '../tolerance.ts';
import { chooseSetting } from '../torque/chooseSetting.ts';
import { carriedItem, volumeL } from './measure.ts';
import type { Line } from './recheck/line.ts';
import { piecesOf, quantityOf } from './recheck/line.ts';
import { recheckLosses } from './recheck/losses.ts';
import { possiblePieces } from '../stack/possible.ts';
import { noWishes } from './wishes.ts';

/**
 * Goes through a finished answer line by line and counts again, with none of the search or the program that made it.
 * Whatever it finds wrong is said; nothing found is the empty list.
 */
export function recheckOuting(
  plan: ResolvedPlan,
  outing: ResolvedOuting,
  answer: BagOuting,
  asked: { tolerance: Tolerance; wishes: BagWishes } = { tolerance: 'nothing', wishes: noWishes },
): string[] {
  const wrong: string[] = [];
  const lines = answer.items.flatMap((line): Line[] => {
    const item = plan.carried.get(line.id);
    const bag = outing.bags.includes(line.bag) ? plan.bags.get(line.bag) : undefined;
    if (item && bag && Number.isInteger(line.quantity) && line.quantity > 0)
      return [{ item, bag, quantity: line.quantity }];
    wrong.push(`${line.quantity} × ${line.id} in ${line.bag} is no line of this outing`);
    return [];
  });
  const steps = plan.steps.filter((step) => step.outing === outing.id);
  const answers = new Map(answer.steps.map((step) => [step.id, step]));
  for (const step of steps) wrong.push(...recheckStep(plan, step, answers.get(step.id)));
  wrong.push(...recheckStock(plan, lines), ...recheckGear(plan, outing.id, lines, asked.wishes));
  wrong.push(...recheckWishes(outing.id, lines, asked.wishes), ...recheckBags(plan, steps, answers, lines));
  wrong.push(...recheckSupply(steps, answers, lines), ...recheckLosses(plan, steps, answers, lines, asked.tolerance));
  const massKg =
    lines.reduce((sum, l) => sum + l.item.massKg * l.quantity, 0) +
    usedBags(lines).reduce((sum, b) => sum + b.massKg, 0);
  if (!same(massKg, answer.massKg)) wrong.push(`mass adds up to ${massKg} kg, not ${answer.massKg} kg`);
  return wrong;
}

/** The objective over all outings, added up from the printed lines alone. */
export function readdObjective(plan: ResolvedPlan, outings: readonly BagOuting[], minimise: Minimised): number {
  if (minimise === 'mass') return outings.reduce((sum, outing) => sum + outing.massKg, 0);
  const each = (id: string): number => (minimise === 'count' ? 1 : volumeL(carriedItem(plan.carried, id)));
  return outings.flatMap((outing) => outing.items).reduce((sum, { id, quantity }) => sum + each(id) * quantity, 0);
}

function same(a: number, b: number): boolean {
  return atMost(a, b) && atMost(b, a);
}

function recheckStep(plan: ResolvedPlan, step: ResolvedStep, answer: BagStep | undefined): string[] {
  if (!answer) return [`step ${step.id} has no answer`];
  const task = stackTask(plan, step);
  if (!task) return answer.stack.length === 0 && answer.hold === null ? [] : [`step ${step.id} needs no stack`];
  const holding = holdTask(plan, step);
  const wrong = recheckStack(plan, task, answer.stack);
  if (holding) wrong.push(...recheckStack(plan, holding, answer.hold ?? []));
  else if (answer.hold !== null) wrong.push('nothing is to be held');
  if (task.action === 'tighten') wrong.push(...recheckSetting(plan, task, answer));
  return wrong.map((what) => `step ${step.id}: ${what}`);
}

function recheckStack(plan: ResolvedPlan, task: StackTask, ids: readonly string[]): string[] {
  const parts = stackParts(plan, ids);
  if (!parts) return [`${ids.join(' + ') || 'nothing'} is no stack`];
  const wrong = checkStack(task, parts)
    .filter(({ passes }) => !passes)
    .map(({ check, have, need }) => `${ids.join(' + ')} fails ${check}: has ${have}, needs ${need}`);
  if (!mayTurn(task, parts.tool)) wrong.push(`${parts.tool.id} may not ${task.action}`);
  if (parts.extensions.length > extensionsMax) wrong.push(`${parts.extensions.length} extensions`);
  return wrong;
}

function recheckSetting(plan: ResolvedPlan, { aim }: StackTask, { stack, setting }: BagStep): string[] {
  const torque = plan.tools.get(stack[0] ?? '')?.torque;
  const chosen = torque && aim && chooseSetting({ torque, aim, rangeShareMin: plan.rangeShareMin });
  if (!chosen || !setting) return ['has no setting'];
  return same(chosen.setting.value, setting.value) && chosen.setting.unit === setting.unit
    ? []
    : ['is set elsewhere than chosen'];
}

function recheckStock(plan: ResolvedPlan, lines: readonly Line[]): string[] {
  return [...plan.carried.values()]
    .filter(({ id, onHand }) => quantityOf(lines, id) > onHand)
    .map(({ id, onHand }) => `${quantityOf(lines, id)} × ${id} taken, ${onHand} on hand`);
}

function recheckGear(
  plan: ResolvedPlan,
  outing: string,
  lines: readonly Line[],
  { spares, keep }: BagWishes,
): string[] {
  const steps = plan.steps.filter((step) => step.outing === outing);
  return [...plan.gear.keys()].flatMap((id) => {
    const listed = steps.flatMap((s) => s.gear).filter((g) => g.id === id);
    const moved = steps.flatMap((s) => s.moves).filter((m) => m.id === id && m.from === 'bag');
    const used = [...listed, ...moved].reduce((sum, { quantity }) => sum + quantity, 0);
    const here = <T extends { id: string; outing?: string }>(wishes: readonly T[]): T[] =>
      wishes.filter((wish) => wish.id === id && (wish.outing === undefined || wish.outing === outing));
    const spare = here(spares).filter((wish) => used > 0 || wish.outing !== undefined);
    const packed = used + spare.reduce((sum, { quantity }) => sum + quantity, 0);
    const need = Math.max(packed, ...here(keep).map(({ quantity }) => quantity));
    const have = quantityOf(lines, id);
    return have === need ? [] : [`${have} × ${id} packed, ${need} needed`];
  });
}

function recheckWishes(outing: string, lines: readonly Line[], { keep, forbid }: BagWishes): string[] {
  const here = <T extends { outing?: string }>(wishes: readonly T[]): T[] =>
    wishes.filter((wish) => wish.outing === undefined || wish.outing === outing);
  return [
    ...here(keep)
      .filter(({ id, quantity }) => quantityOf(lines, id) < quantity)
      .map(({ id, quantity }) => `${quantityOf(lines, id)} × ${id} packed, ${quantity} to be kept`),
    ...here(forbid)
      .filter(({ id }) => quantityOf(lines, id) > 0)
      .map(({ id }) => `${id} is packed, and forbidden`),
  ];
}

function recheckBags(
  plan: ResolvedPlan,
  steps: readonly ResolvedStep[],
  answers: ReadonlyMap<string, BagStep>,
  lines: readonly Line[],
): string[] {
  return usedBags(lines).flatMap((bag) => {
    const inside = lines.filter((l) => l.bag === bag);
    const said = (what: string, value: number, limit: number): string[] =>
      atMost(value, limit) ? [] : [`bag ${bag.id}: ${value} ${what}, at most ${limit}`];
    const over = (what: string, each: (item: Carried) => number, limit: number | null): string[] => {
      if (limit === null) return [];
      const total = inside.reduce((sum, l) => sum + each(l.item) * l.quantity, 0);
      return said(what, total, limit);
    };
    const { sizeMaxMm } = bag;
    const long = ({ id, sizeMm }: Carried): string[] =>
      sizeMm === null || sizeMaxMm === null ? [] : said(`mm long, ${id}`, sizeMm, sizeMaxMm);
    const strangers =
      bag.role === null ? [] : inside.filter(({ item }) => !servesRole(plan, bag.role ?? '', item, steps, answers));
    return [
      ...over('kg', (item) => item.massKg, bag.massMaxKg),
      ...over('L', volumeL, bag.volumeMaxL),
      ...over('items', () => 1, bag.itemsMax),
      ...over('tethers', (item) => item.tethers, bag.tetherPoints),
      ...inside.flatMap(({ item }) => long(item)),
      ...strangers.map(({ item }) => `bag ${bag.id} of ${bag.role} holds ${item.id}, which no step of that role uses`),
    ];
  });
}

/** Chosen for a step of the role, or possible for one. */
function servesRole(
  plan: ResolvedPlan,
  role: string,
  item: Carried,
  steps: readonly ResolvedStep[],
  answers: ReadonlyMap<string, BagStep>,
): boolean {
  const own = steps.filter((step) => step.role === role);
  if (item.kind === 'gear') {
    return own.some((step) =>
      [...step.gear, ...step.moves.filter((m) => m.from === 'bag')].some((g) => g.id === item.id),
    );
  }
  if (own.some((step) => piecesOf(answers.get(step.id)).includes(item.id))) return true;
  return own
    .flatMap((step) => [stackTask(plan, step) ?? [], holdTask(plan, step) ?? []].flat())
    .some((task) => possiblePieces(plan, task).has(item.id));
}

/** Rule 8 and the supply of rule 9: each step alone, and the roles of a slot together. */
function recheckSupply(
  steps: readonly ResolvedStep[],
  answers: ReadonlyMap<string, BagStep>,
  lines: readonly Line[],
): string[] {
  const needed = (step: ResolvedStep, id: string): number =>
    piecesOf(answers.get(step.id)).filter((piece) => piece === id).length;
  const supply = (id: string, role: string | null): number =>
    quantityOf(
      lines.filter((l) => l.bag.role === role),
      id,
    );
  const short: string[] = [];
  for (const id of new Set(steps.flatMap((step) => piecesOf(answers.get(step.id))))) {
    for (const step of steps) {
      const need = needed(step, id);
      if (need > supply(id, step.role) + supply(id, null))
        short.push(`step ${step.id} needs ${need} × ${id}, its bags hold fewer`);
    }
    for (const slot of new Set(steps.flatMap((step) => step.slot ?? []))) {
      const inSlot = steps.filter((step) => step.slot === slot);
      const drawn = [...new Set(inSlot.map((step) => step.role))].map((role) => {
        const most = Math.max(...inSlot.filter((step) => step.role === role).map((step) => needed(step, id)));
        return Math.max(0, most - supply(id, role));
      });
      const total = drawn.reduce((sum, n) => sum + n, 0);
      if (total > supply(id, null))
        short.push(`slot ${slot} draws ${total} × ${id} from shared bags, which hold fewer`);
    }
  }
  return short;
}

function usedBags(lines: readonly Line[]): ResolvedBag[] {
  return [...new Set(lines.map((l) => l.bag))];
}
