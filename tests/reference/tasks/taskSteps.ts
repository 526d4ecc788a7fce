/** The steps of a generated task in their order: places of work opened and closed again, gear used, slots of two roles. */
import type { Plan, PlanStep } from '../../../shared-types/plan.ts';
import type { Dice } from '../dice.ts';
import { shuffled } from './families.ts';
import type { GearItem, Item, TaskStock } from './items.ts';
import type { HeadSize } from './sizes.ts';
import { drawInterface } from './witness.ts';
import type { Interface, Witness } from './witness.ts';

export interface StepsAsked {
  steps: number;
  /** Distinct interfaces where they repeat; null: every step its own. */
  interfaces: number | null;
  outings: string[];
  roles: string[];
  heads: readonly HeadSize[];
}

/** A step with the stacks it was drawn around; none where it uses gear alone. */
export interface DrawnStep {
  step: PlanStep;
  witness: Witness | null;
}

export const piecesOf = ({ witness }: DrawnStep): Item[] =>
  witness === null ? [] : [...witness.stack, ...(witness.hold ?? [])];

const bare = (id: string, outing: string, role: string, action: PlanStep['action']): PlanStep => ({
  id,
  outing,
  role,
  action,
});

/** Fasteners are listed once for each head, so that interfaces may share one. */
export class FastenerList {
  readonly fasteners: Plan['catalog']['fasteners'] = [];

  idOf({ head, form }: Pick<Interface, 'head' | 'form'>): string {
    const id = `${form}-${head.text.replaceAll(/[ /]/g, '-')}`;
    if (!this.fasteners.some((one) => one.id === id)) {
      this.fasteners.push({ id, thread: head.thread, head: { form, acrossFlats: head.text } });
    }
    return id;
  }
}

function turn(at: Interface, step: PlanStep, list: FastenerList): DrawnStep {
  const { hold, access, callout, demandNm } = at;
  step.fastener = list.idOf(at);
  step.access = access;
  if (step.action === 'tighten') step.callout = { min: `${callout.minNm} N·m`, max: `${callout.maxNm} N·m` };
  else step.demand = `${demandNm} N·m`;
  if (hold !== null) step.hold = { fastener: list.idOf(hold), access: hold.access };
  const witness = step.action === 'tighten' ? at.tighten : at.loosen;
  if (witness === null) throw new Error(`reference: ${step.id} does work its interface was not drawn for`);
  return { step, witness };
}

function useStep(dice: Dice, step: PlanStep, gear: readonly GearItem[]): DrawnStep {
  step.gear = shuffled(dice, gear)
    .slice(0, dice.pick([1, 1, 2, 3]))
    .map(({ id }) => ({ id, quantity: dice.pick([1, 1, 2, 4]) }));
  return { step, witness: null };
}

/** The work of one outing on its interfaces: all loosened, gear used between, all tightened the other way round. */
function outingSteps(
  dice: Dice,
  stock: TaskStock,
  asked: { outing: string; roles: string[]; steps: number; interfaces: Interface[] },
  list: FastenerList,
): DrawnStep[] {
  const { outing, roles, steps, interfaces } = asked;
  const used = Math.round(steps * 0.1);
  const turns = steps - used;
  const roleOf = new Map(interfaces.map((at) => [at, dice.pick(roles)]));
  const rounds: { at: Interface; action: 'loosen' | 'tighten' }[] = [];
  for (let n = 0; rounds.length < turns; n++) {
    const at = interfaces[n % interfaces.length];
    if (at === undefined) throw new Error('reference: an outing without an interface');
    const action = Math.floor(n / interfaces.length) % 2 === 0 ? 'loosen' : 'tighten';
    if ((action === 'loosen' ? at.loosen : at.tighten) !== null) rounds.push({ at, action });
  }
  const opened = rounds.filter(({ action }) => action === 'loosen');
  const closed = rounds.filter(({ action }) => action === 'tighten').toReversed();
  let number = 0;
  const drawn = (at: Interface, action: 'loosen' | 'tighten'): DrawnStep => {
    number += 1;
    const role = dice.chance(0.85) ? (roleOf.get(at) ?? roles[0]) : dice.pick(roles);
    const step = bare(`${outing}-${number}`, outing, role ?? '', action);
    step.count = dice.whole(2, 12);
    if (dice.chance(0.7)) step.minutes = dice.whole(4, 30);
    if (dice.chance(0.04)) step.contingency = true;
    if (dice.chance(0.15)) step.gear = [{ id: dice.pick(stock.gear).id, quantity: dice.pick([1, 1, 2]) }];
    return turn(at, step, list);
  };
  return [
    ...opened.map(({ at, action }) => drawn(at, action)),
    ...Array.from({ length: used }, () => {
      number += 1;
      return useStep(dice, bare(`${outing}-${number}`, outing, dice.pick(roles), 'use'), stock.gear);
    }),
    ...closed.map(({ at, action }) => drawn(at, action)),
  ];
}

/** Neighbours of different roles are now and then at work at once. */
function pairInSlots(dice: Dice, drawn: readonly DrawnStep[]): void {
  let slots = 0;
  for (const [index, { step }] of drawn.entries()) {
    const next = drawn[index + 1]?.step;
    if (next === undefined || step.slot !== undefined || next.role === step.role || next.outing !== step.outing)
      continue;
    if (!dice.chance(0.25)) continue;
    slots += 1;
    step.slot = `slot-${slots}`;
    next.slot = step.slot;
  }
}

function splitOver<T>(list: readonly T[], parts: number): T[][] {
  return Array.from({ length: parts }, (_, part) => list.filter((_one, index) => index % parts === part));
}

export function drawSteps(dice: Dice, stock: TaskStock, asked: StepsAsked, list: FastenerList): DrawnStep[] {
  const { steps, interfaces, outings, roles, heads } = asked;
  const all = Array.from({ length: interfaces ?? steps }, (_, index): Interface => {
    const both = interfaces !== null && dice.chance(0.85);
    const tightens = both || (interfaces === null ? dice.chance(0.5) : false);
    return drawInterface(dice, stock, heads, {
      loosens: both || !tightens,
      tightens,
      holds: index % 9 === 4,
      rounded: interfaces !== null,
    });
  });
  const byOuting = splitOver(all, outings.length);
  const drawn = outings.flatMap((outing, index) => {
    const share = Math.floor(((index + 1) * steps) / outings.length) - Math.floor((index * steps) / outings.length);
    const own = byOuting[index] ?? [];
    return interfaces === null
      ? onceEach(dice, stock, { outing, roles, interfaces: own }, list)
      : outingSteps(dice, stock, { outing, roles, steps: share, interfaces: own }, list);
  });
  pairInSlots(dice, drawn);
  return drawn;
}

/** Every interface worked on once. */
function onceEach(
  dice: Dice,
  stock: TaskStock,
  { outing, roles, interfaces }: { outing: string; roles: string[]; interfaces: Interface[] },
  list: FastenerList,
): DrawnStep[] {
  return interfaces.map((at, index) => {
    const step = bare(`${outing}-${index + 1}`, outing, dice.pick(roles), at.tighten === null ? 'loosen' : 'tighten');
    if (dice.chance(0.1)) step.gear = [{ id: dice.pick(stock.gear).id, quantity: 1 }];
    return turn(at, step, list);
  });
}
