/** Cases of what is asked beside the plan (rule 10, a bag lost, keep, forbid, spares), answered by hand: the least mass in kg. */
import type { Plan, PlanStep } from '../../shared-types/plan.ts';
import { plainAsk } from './ask.ts';
import type { Ask } from './ask.ts';
import { extension, fastener, gear, handPlan, loosen, ratchet, socket, tighten, wrench } from './handPlan.ts';
import type { HandCase } from './stackCases.ts';

export interface AskCase extends HandCase {
  ask: Ask;
}

const asks = (bend: Partial<Ask>): Ask => plainAsk('mass', bend);
const piece = asks({ tolerance: 'piece' });
const bag = asks({ tolerance: 'bag' });

const two = { sockets: [socket({ onHand: 2 })], drivers: [ratchet({ onHand: 2 })] };
const three = { sockets: [socket({ onHand: 3 })], drivers: [ratchet({ onHand: 3 })] };
const sacks = [
  { id: 'sack', mass: '200 g' },
  { id: 'net', mass: '50 g' },
];
const byRole = [
  { id: 'mine', role: 'Lead' },
  { id: 'theirs', role: 'Second' },
];
const hold = { hold: { fastener: 'bolt' } };
const inSlot = (): PlanStep[] => [loosen({ slot: 's' }), loosen({ id: 'off-2', role: 'Second', slot: 's' })];
const capped = (quantity: number, bend: Partial<PlanStep> = {}): PlanStep =>
  loosen({
    action: 'use',
    fastener: undefined,
    demand: undefined,
    access: undefined,
    gear: [{ id: 'cap', quantity }],
    ...bend,
  });
const twice = (bags = ['sack']): Partial<Plan> => ({
  outings: ['out', 'back'].map((id) => ({ id, roles: ['Lead', 'Second'], bags })),
});
const onBack = (bend: Partial<PlanStep> = {}): PlanStep => loosen({ id: 'again', outing: 'back', ...bend });

/** Ratchet 300 g, socket 100 g. */
const kit = 0.4;
const sack = 0.2;

export const askCases: AskCase[] = [
  { says: 'rule 10: two of each', plan: handPlan([loosen()], two), ask: piece, kg: 2 * kit + sack },
  {
    says: 'rule 10: the last socket lost is the end',
    plan: handPlan([loosen()], { drivers: two.drivers }),
    ask: piece,
    kg: null,
  },
  {
    says: 'rule 10: another stack does as well as a second of the same',
    plan: handPlan([loosen()], {
      sockets: [socket({ onHand: 2 })],
      torqueTools: [wrench({ loosens: true })],
    }),
    ask: piece,
    kg: 0.3 + 0.6 + 0.2 + sack,
  },
  {
    says: 'rule 10: two extensions of one need a third, of which there is none',
    plan: handPlan([loosen({ access: { depth: '250 mm' } })], { ...two, extensions: [extension({ onHand: 2 })] }),
    ask: piece,
    kg: null,
  },
  {
    says: 'rule 10: with the third it stands',
    plan: handPlan([loosen({ access: { depth: '250 mm' } })], { ...two, extensions: [extension({ onHand: 3 })] }),
    ask: piece,
    kg: 2 * kit + 3 * 0.15 + sack,
  },
  {
    says: 'rule 10: of three extensions on hand two are enough where one is used',
    plan: handPlan([loosen({ access: { depth: '150 mm' } })], { ...two, extensions: [extension({ onHand: 3 })] }),
    ask: piece,
    kg: 2 * kit + 2 * 0.15 + sack,
  },
  {
    says: 'rule 10: after a loss a slot may run one after another',
    plan: handPlan(inSlot(), two),
    ask: piece,
    kg: 2 * kit + sack,
  },
  {
    says: 'rule 10: a hold needs its own pieces after a loss too',
    plan: handPlan([loosen(hold)], two),
    ask: piece,
    kg: null,
  },
  {
    says: 'rule 10: with three of each a hold stands a loss',
    plan: handPlan([loosen(hold)], three),
    ask: piece,
    kg: 3 * kit + sack,
  },
  {
    says: 'rule 10: pieces change hands: one of each in each role’s bag does',
    plan: handPlan([loosen(), loosen({ id: 'off-2', role: 'Second' })], { ...two, bags: byRole }),
    ask: piece,
    kg: 2 * kit,
  },
  { says: 'rule 10: gear is not counted', plan: handPlan([capped(1)]), ask: piece, kg: 0.02 + sack },
  {
    says: 'rule 10: limits hold for what is spare',
    plan: handPlan([loosen()], { ...two, bags: [{ id: 'sack', mass: '200 g', massMax: '799 g' }] }),
    ask: piece,
    kg: null,
  },
  { says: 'a bag lost: one bag is none', plan: handPlan([loosen()], two), ask: bag, kg: null },
  {
    says: 'a bag lost: all of it in each of two',
    plan: handPlan([loosen()], { ...two, bags: sacks }),
    ask: bag,
    kg: 2 * kit + 0.25,
  },
  {
    says: 'a bag lost: three bags, each holding a part of two kits, need a third of some',
    plan: handPlan([loosen()], { ...two, bags: [...sacks, { id: 'can', mass: '10 g' }] }),
    ask: bag,
    kg: 2 * kit + 0.06,
  },
  {
    says: 'a bag lost: limits that let no bag hold a whole kit',
    plan: handPlan([loosen()], { ...two, bags: sacks.map((one) => ({ ...one, itemsMax: 1 })) }),
    ask: bag,
    kg: null,
  },
  {
    says: 'a bag lost: where only one piece may be lost, both kits go into the lighter bag',
    plan: handPlan([loosen()], { ...two, bags: sacks }),
    ask: piece,
    kg: 2 * kit + 0.05,
  },
  {
    says: 'a bag lost: roles’ bags serve whoever is left',
    plan: handPlan([loosen(), loosen({ id: 'off-2', role: 'Second' })], { ...two, bags: byRole }),
    ask: bag,
    kg: 2 * kit,
  },
  {
    says: 'a bag lost: its gear is not counted',
    plan: handPlan([capped(1)], { bags: sacks }),
    ask: bag,
    kg: 0.02 + 0.05,
  },
  {
    says: 'keep: a piece nobody uses',
    plan: handPlan([loosen()]),
    ask: asks({ keep: [{ id: 'ext', quantity: 1 }] }),
    kg: kit + 0.15 + sack,
  },
  {
    says: 'keep: what is used anyway is kept',
    plan: handPlan([loosen()]),
    ask: asks({ keep: [{ id: 'socket', quantity: 1 }] }),
    kg: kit + sack,
  },
  {
    says: 'keep: one more than is used',
    plan: handPlan([loosen()], two),
    ask: asks({ keep: [{ id: 'socket', quantity: 2 }] }),
    kg: kit + 0.1 + sack,
  },
  {
    says: 'keep: more than is on hand',
    plan: handPlan([loosen()]),
    ask: asks({ keep: [{ id: 'ext', quantity: 2 }] }),
    kg: null,
  },
  {
    says: 'keep: on every outing where none is named',
    plan: handPlan([loosen(), onBack()], {}, twice()),
    ask: asks({ keep: [{ id: 'ext', quantity: 1 }] }),
    kg: 2 * (kit + 0.15 + sack),
  },
  {
    says: 'keep: on the outing that is named',
    plan: handPlan([loosen(), onBack()], {}, twice()),
    ask: asks({ keep: [{ id: 'ext', quantity: 1, outing: 'back' }] }),
    kg: 2 * (kit + sack) + 0.15,
  },
  {
    says: 'keep: gear counts what is needed of it',
    plan: handPlan([capped(1)]),
    ask: asks({ keep: [{ id: 'cap', quantity: 3 }] }),
    kg: 0.06 + sack,
  },
  {
    says: 'keep: gear that is needed anyway',
    plan: handPlan([capped(2)]),
    ask: asks({ keep: [{ id: 'cap', quantity: 2 }] }),
    kg: 0.04 + sack,
  },
  {
    says: 'keep: a role’s bag does not take what no stack of the role can use',
    plan: handPlan([loosen()], { bags: [{ id: 'mine', role: 'Lead' }], torqueTools: [wrench()] }),
    ask: asks({ keep: [{ id: 'wrench', quantity: 1 }] }),
    kg: null,
  },
  {
    says: 'keep: what stands in for a chosen stack is chosen',
    plan: handPlan([loosen()], { torqueTools: [wrench({ loosens: true })] }),
    ask: asks({ keep: [{ id: 'wrench', quantity: 1 }] }),
    kg: 0.6 + 0.1 + sack,
  },
  {
    says: 'forbid: the next stack',
    plan: handPlan([loosen()], { torqueTools: [wrench({ loosens: true })] }),
    ask: asks({ forbid: [{ id: 'ratchet' }] }),
    kg: 0.6 + 0.1 + sack,
  },
  { says: 'forbid: the only one', plan: handPlan([loosen()]), ask: asks({ forbid: [{ id: 'ratchet' }] }), kg: null },
  {
    says: 'forbid: on one outing only',
    plan: handPlan([loosen(), onBack()], { torqueTools: [wrench({ loosens: true })] }, twice()),
    ask: asks({ forbid: [{ id: 'ratchet', outing: 'back' }] }),
    kg: kit + 0.6 + 0.1 + 2 * sack,
  },
  {
    says: 'forbid: gear that is needed',
    plan: handPlan([capped(1)]),
    ask: asks({ forbid: [{ id: 'cap' }] }),
    kg: null,
  },
  {
    says: 'forbid: what is to be kept',
    plan: handPlan([loosen()]),
    ask: asks({ keep: [{ id: 'ext', quantity: 1 }], forbid: [{ id: 'ext' }] }),
    kg: null,
  },
  {
    says: 'spares: beyond what is needed',
    plan: handPlan([capped(1)]),
    ask: asks({ spares: [{ id: 'cap', quantity: 2 }] }),
    kg: 0.06 + sack,
  },
  {
    says: 'spares: more than is on hand',
    plan: handPlan([capped(1)]),
    ask: asks({ spares: [{ id: 'cap', quantity: 3 }] }),
    kg: null,
  },
  {
    says: 'spares: only where some is needed',
    plan: handPlan([capped(1), onBack()], {}, twice()),
    ask: asks({ spares: [{ id: 'cap', quantity: 1 }] }),
    kg: 0.04 + kit + 2 * sack,
  },
  {
    says: 'spares: where they are wanted',
    plan: handPlan([capped(1), onBack()], {}, twice()),
    ask: asks({ spares: [{ id: 'cap', quantity: 1, outing: 'back' }] }),
    kg: 0.04 + kit + 2 * sack,
  },
  {
    says: 'spares: of consumed gear they are spent too',
    plan: handPlan(
      [capped(1), capped(1, { id: 'b', outing: 'back' })],
      { carryGear: [gear({ consumed: true })] },
      twice(),
    ),
    ask: asks({ spares: [{ id: 'cap', quantity: 1 }] }),
    kg: null,
  },
  {
    says: 'spares: of gear that comes home they are not',
    plan: handPlan([capped(1), capped(1, { id: 'b', outing: 'back' })], {}, twice()),
    ask: asks({ spares: [{ id: 'cap', quantity: 1 }] }),
    kg: 2 * (0.04 + sack),
  },
  {
    says: 'all at once: another head, a loss, a piece kept and one forbidden',
    plan: handPlan([loosen(), tighten()], {
      fasteners: [fastener()],
      sockets: [socket({ onHand: 2 }), socket({ id: 'light', mass: '60 g' })],
      torqueTools: [wrench({ loosens: true, onHand: 2 })],
      bags: [{ id: 'sack', mass: '200 g' }],
    }),
    ask: asks({ tolerance: 'piece', keep: [{ id: 'ext', quantity: 1 }], forbid: [{ id: 'light' }] }),
    kg: 2 * 0.6 + 2 * 0.1 + 0.15 + sack,
  },
];
