/** Stock mended until the witness stacks can all be taken twice over, and bags that have room for that. */
import type { Plan } from '../../../shared-types/plan.ts';
import type { Ask } from '../ask.ts';
import type { Dice } from '../dice.ts';
import type { Item, TaskStock } from './items.ts';
import { piecesOf } from './taskSteps.ts';
import type { DrawnStep } from './taskSteps.ts';

export interface OutingNeed {
  outing: string;
  /** Pieces by item that carry out every step, and stand the loss of any one of them or of one of two like kits. */
  pieces: Map<Item, number>;
}

function counted(pieces: readonly Item[]): Map<Item, number> {
  const counts = new Map<Item, number>();
  for (const piece of pieces) counts.set(piece, (counts.get(piece) ?? 0) + 1);
  return counts;
}

/** Adds stock where needed: a slot's roles at once, and twice what any one step takes. */
export function mendStock(drawn: readonly DrawnStep[], outings: readonly string[]): OutingNeed[] {
  return outings.map((outing) => {
    const pieces = new Map<Item, number>();
    const raise = (item: Item, count: number): void => {
      pieces.set(item, Math.max(count, pieces.get(item) ?? 0));
    };
    const slots = new Map<string, Map<string, Map<Item, number>>>();
    for (const one of drawn.filter(({ step }) => step.outing === outing)) {
      const { step } = one;
      for (const [item, count] of counted(piecesOf(one))) {
        raise(item, 2 * count);
        if (step.slot === undefined) continue;
        const roles = slots.get(step.slot) ?? new Map<string, Map<Item, number>>();
        slots.set(step.slot, roles);
        const own = roles.get(step.role) ?? new Map<Item, number>();
        roles.set(step.role, own);
        own.set(item, Math.max(count, own.get(item) ?? 0));
      }
    }
    for (const roles of slots.values()) {
      const together = new Map<Item, number>();
      for (const own of roles.values()) {
        for (const [item, count] of own) together.set(item, (together.get(item) ?? 0) + count);
      }
      for (const [item, count] of together) raise(item, count);
    }
    for (const [item, count] of pieces) item.onHand = Math.max(item.onHand, count);
    return { outing, pieces };
  });
}

/** Gear on hand covers what the steps use up, with some over. */
export function mendGear(dice: Dice, stock: TaskStock, drawn: readonly DrawnStep[]): void {
  for (const item of stock.gear) {
    const needed = drawn.reduce(
      (sum, { step }) => sum + (step.gear ?? []).reduce((all, one) => all + (one.id === item.id ? one.quantity : 0), 0),
      0,
    );
    item.onHand = Math.max(item.onHand, needed + dice.pick([4, 6, 8]));
  }
}

type Bag = Plan['catalog']['bags'][number];
type Pattern = 'pack' | 'pouch and pack' | 'two packs' | 'light and pack' | 'two pouches and pack';

const patterns: Pattern[] = [
  'pack',
  'pouch and pack',
  'pouch and pack',
  'two packs',
  'light and pack',
  'two pouches and pack',
];

/** What the witness and the gear weigh and fill, with the packer's own wishes on top. */
function load(
  stock: TaskStock,
  need: OutingNeed,
  drawn: readonly DrawnStep[],
  ask: Ask,
): { grams: number; millilitres: number } {
  const all = [...stock.sockets, ...stock.extensions, ...stock.tools, ...stock.gear];
  const total = { grams: 0, millilitres: 0 };
  const add = (item: Item | undefined, count: number): void => {
    total.grams += (item?.grams ?? 0) * count;
    total.millilitres += (item?.millilitres ?? 0) * count;
  };
  for (const [item, count] of need.pieces) add(item, count);
  for (const { step } of drawn.filter((one) => one.step.outing === need.outing)) {
    for (const { id, quantity } of step.gear ?? [])
      add(
        all.find((one) => one.id === id),
        quantity,
      );
  }
  for (const { id, quantity } of [...ask.keep, ...ask.spares])
    add(
      all.find((one) => one.id === id),
      quantity,
    );
  return total;
}

/** The bags of each outing. A pack without role or limit of size is always among them; pouches are small and light. */
export function drawBags(
  dice: Dice,
  stock: TaskStock,
  roles: readonly string[],
  given: { needs: readonly OutingNeed[]; drawn: readonly DrawnStep[]; ask: Ask },
): { bags: Bag[]; byOuting: Map<string, string[]> } {
  const bags: Bag[] = [];
  const byOuting = new Map<string, string[]>();
  for (const need of given.needs) {
    const { outing } = need;
    const { grams, millilitres } = load(stock, need, given.drawn, given.ask);
    // Twice over leaves room for any way to lay it in.
    const pack = (name: string, share: number, ownGrams: number): Bag => ({
      id: `${outing}-${name}`,
      mass: `${ownGrams} g`,
      massMax: `${Math.ceil(grams * share)} g`,
      volumeMax: `${Math.ceil(millilitres * share * 1.1)} mL`,
    });
    const pouch = (index: number): Bag => ({
      id: `${outing}-pouch-${index + 1}`,
      role: roles[index % roles.length] ?? '',
      mass: `${dice.pick([180, 240, 320])} g`,
      massMax: `${dice.pick([1200, 2000, 3000])} g`,
      itemsMax: dice.whole(4, 12),
      sizeMax: `${dice.pick([180, 220, 280])} mm`,
      tetherPoints: dice.whole(1, 4),
    });
    const pattern = given.ask.tolerance === 'bag' ? 'two packs' : dice.pick(patterns);
    const own: Bag[] = {
      pack: () => [pack('pack', 1, dice.pick([1100, 1400, 1800]))],
      'pouch and pack': () => [pouch(0), pack('pack', 1, dice.pick([1100, 1400, 1800]))],
      'two pouches and pack': () => [pouch(0), pouch(1), pack('pack', 1, dice.pick([1100, 1400, 1800]))],
      'two packs': () => [
        pack('pack', given.ask.tolerance === 'bag' ? 1 : 0.7, 1300),
        pack('second-pack', given.ask.tolerance === 'bag' ? 1 : 0.7, 1000),
      ],
      'light and pack': () => [
        pack('light', dice.pick([0.12, 0.2, 0.3]), dice.pick([300, 450])),
        pack('pack', 1, 1600),
      ],
    }[pattern]();
    bags.push(...own);
    byOuting.set(
      outing,
      own.map(({ id }) => id),
    );
  }
  return { bags, byOuting };
}
