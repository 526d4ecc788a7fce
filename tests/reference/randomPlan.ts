/**
 * A random small plan from a seed: at most 12 pieces of parts, several outings, roles, slots and bags, values at their
 * limits, units mixed; with what is asked of it. The same seed gives the same plan on every machine.
 */
import type { Minimised, Tolerance } from '../../shared-types/bag.ts';
import type { Plan, PlanStep } from '../../shared-types/plan.ts';
import type { Ask } from './ask.ts';
import { dice as diceOf } from './dice.ts';
import type { Dice } from './dice.ts';
import { driveText, lengthText, massText, torqueText, volumeText } from './quantityText.ts';
import { randomTolerance, randomWishes, wantForLoss } from './randomAsk.ts';
import { randomStep } from './randomSteps.ts';
import type { StepFrame, Target } from './randomSteps.ts';
import { fillShelf, piecesMax, randomStock, wantedPieces } from './randomStock.ts';
import type { DraftStock, Pieces } from './randomStock.ts';

export interface GeneratedPlan {
  seed: number;
  plan: Plan;
  minimise: Minimised;
  /** What is asked, of which `minimise` is a part: as the planner takes it. */
  options: Ask;
}

function frames(dice: Dice, outings: string[], roles: string[]): StepFrame[] {
  let number = 0;
  return outings.flatMap((outing) => {
    const count = dice.pick(outings.length > 2 ? [0, 1, 1, 2] : outings.length > 1 ? [1, 2, 2, 3] : [1, 2, 3, 3, 4]);
    const slotted = roles.length > 1 && dice.chance(0.6);
    return Array.from({ length: count }, (_, index): StepFrame => {
      number += 1;
      return {
        id: `step-${number}`,
        outing,
        role: slotted && index < roles.length ? (roles[index] ?? '') : dice.pick(roles),
        slot: slotted && (index < 2 || dice.chance(0.4)) ? 'together' : null,
        action: dice.pick(['tighten', 'tighten', 'tighten', 'loosen', 'loosen', 'loosen', 'use'] as const),
      };
    });
  });
}

type CatalogBag = Plan['catalog']['bags'][number];

function bags(dice: Dice, roles: string[], stock: DraftStock, tolerance: Tolerance): CatalogBag[] {
  const all: Pieces[] = [...stock.tools, ...stock.sockets, ...stock.extensions, ...stock.gear].filter(
    (one) => one.onHand > 0,
  );
  const some = (of: (item: Pieces) => number): number => {
    const most = dice.whole(3, 8);
    return all
      .toSorted(() => dice.roll() - 0.5)
      .slice(0, most)
      .reduce((sum, one) => sum + of(one), 0);
  };
  const each = 'r'.repeat(roles.length);
  const drawn = dice.pick(['s', 'ss', 'ss', 'rs', 'rs', 'rrs', 'rss', each, dice.chance(0.2) ? 'r' : 'rrs']);
  const pattern = tolerance === 'bag' && !drawn.includes('ss') ? dice.pick(['ss', 'ss', 'rss', drawn]) : drawn;
  const tightness = dice.pick([0, 0.15, 0.3]);
  return [...pattern].map((kind, index): CatalogBag => {
    const bag: CatalogBag = { id: `bag-${index + 1}` };
    if (kind === 'r') bag.role = roles[index % roles.length] ?? roles[0] ?? '';
    if (dice.chance(0.65)) bag.mass = massText(dice, dice.pick([0.03, 0.1, 0.25, 0.45359237]));
    if (dice.chance(tightness))
      bag.massMax = massText(
        dice,
        some((item) => item.kg),
      );
    if (dice.chance(tightness * 0.9))
      bag.volumeMax = volumeText(
        dice,
        some((item) => item.litres),
      );
    if (dice.chance(tightness)) bag.itemsMax = dice.whole(2, 8);
    if (dice.chance(tightness)) bag.sizeMax = lengthText(dice, dice.pick([120, 203.2, 203.2, 300, 300]));
    if (dice.chance(tightness)) bag.tetherPoints = dice.whole(1, 7);
    return bag;
  });
}

/** Gear needs, moves, minutes and contingency marks, laid over the steps. */
function dress(dice: Dice, steps: PlanStep[], stock: DraftStock, withPlaces: boolean): void {
  for (const step of steps) {
    const gear = stock.gear.filter(() => dice.chance(step.action === 'use' ? 0.7 : 0.2));
    const spent = stock.gear.find((item) => item.consumed);
    if (spent !== undefined && !gear.includes(spent) && dice.chance(0.3)) gear.push(spent);
    if (gear.length > 0) step.gear = gear.map((item) => ({ id: item.id, quantity: dice.pick([1, 1, 1, 2]) }));
    if (withPlaces && stock.gear.length > 0 && dice.chance(0.6)) {
      step.moves = Array.from({ length: dice.pick([1, 1, 2]) }, () => {
        const [from, to] = dice.pick([
          ['bag', 'foot'],
          ['bag', 'top'],
          ['foot', 'top'],
          ['foot', 'bag'],
          ['top', 'bag'],
          ['top', 'foot'],
        ] as [string, string][]);
        return {
          id: dice.pick(stock.gear).id,
          quantity: from === 'bag' ? dice.pick([1, 2, 2]) : dice.pick([1, 1, 2]),
          from: from ?? 'bag',
          to: to ?? 'foot',
        };
      });
    }
    if (dice.chance(0.7)) step.minutes = dice.pick([4, 7.5, 10, 12, 25]);
    if (dice.chance(0.12)) step.contingency = true;
    if (dice.chance(0.2)) step.count = dice.whole(1, 8);
  }
}

/** What the stacks around which the steps were built need at once: a step alone, or mostly all steps of a slot together. */
function countWanted(dice: Dice, stock: DraftStock, built: { step: PlanStep; pieces: Pieces[] }[]): void {
  const moments = new Map<string, Map<Pieces, number>>();
  for (const one of [...stock.sockets, ...stock.extensions, ...stock.tools]) one.wanted = 0;
  for (const { step, pieces } of built) {
    const key = step.slot !== undefined && dice.chance(0.9) ? `${step.outing} ${step.slot}` : step.id;
    const counts = moments.get(key) ?? new Map<Pieces, number>();
    for (const piece of pieces) counts.set(piece, (counts.get(piece) ?? 0) + 1);
    moments.set(key, counts);
  }
  for (const counts of moments.values())
    for (const [piece, count] of counts) piece.wanted = Math.max(piece.wanted, count);
}

/** The gear that outings need, of consumed gear over all of them, is wanted too; now and then one piece less. */
function countGear(dice: Dice, steps: PlanStep[], stock: DraftStock): void {
  for (const item of stock.gear) {
    const byOuting = new Map<string, number>();
    for (const { outing, gear, moves } of steps) {
      const moved = moves?.filter((move) => move.from === 'bag') ?? [];
      const count = [...(gear ?? []), ...moved].reduce((sum, one) => sum + (one.id === item.id ? one.quantity : 0), 0);
      byOuting.set(outing, (byOuting.get(outing) ?? 0) + count);
    }
    const counts = [...byOuting.values()];
    const sharedOver = dice.chance(0.2);
    item.wanted = item.consumed && !sharedOver ? counts.reduce((sum, one) => sum + one, 0) : Math.max(0, ...counts);
    if (dice.chance(0.06)) item.wanted = Math.max(0, item.wanted - 1);
    item.onHand = item.wanted + (dice.chance(0.3) ? 1 : 0);
  }
}

/** Now and then a part is exactly as strong as a step demands. */
function meetDemands(dice: Dice, stock: DraftStock, demandsNm: number[]): void {
  const rated = [...stock.sockets, ...stock.extensions];
  if (demandsNm.length === 0 || rated.length === 0 || !dice.chance(0.35)) return;
  const chosenNm = stock.harsh || dice.chance(0.08) ? dice.pick(demandsNm) : Math.max(...demandsNm);
  dice.pick(rated).ratedNm = chosenNm;
  const driver = stock.tools.find((tool) => tool.torque === null);
  if (driver !== undefined && dice.chance(0.5)) driver.maxNm = chosenNm;
}

function catalog(dice: Dice, stock: DraftStock, bagList: CatalogBag[], volumes: boolean): Plan['catalog'] {
  const carried = (
    item: Pieces,
  ): { id: string; mass: string; volume?: string; size?: string; tethers?: number; onHand: number } => ({
    id: item.id,
    mass: massText(dice, item.kg),
    ...(volumes || dice.chance(0.5) ? { volume: volumeText(dice, item.litres) } : {}),
    ...(item.sizeMm === null ? {} : { size: lengthText(dice, item.sizeMm) }),
    ...(item.tethers === 0 ? {} : { tethers: item.tethers }),
    onHand: item.onHand,
  });
  const turning = (
    tool: DraftStock['tools'][number],
  ): { drive: string; max: string; lever?: string; stepDeg?: number } => ({
    drive: driveText(dice, tool.square),
    max: torqueText(dice, tool.maxNm),
    ...(tool.leverMm === null ? {} : { lever: lengthText(dice, tool.leverMm) }),
    ...(tool.stepDeg === null ? {} : { stepDeg: tool.stepDeg }),
  });
  return {
    fasteners: stock.heads.map(({ id, thread, form, size }) => ({ id, thread, head: { form, acrossFlats: size } })),
    sockets: stock.sockets.map((part) => ({
      ...carried(part),
      drive: driveText(dice, part.square),
      opening: { form: part.form, size: part.size },
      length: lengthText(dice, part.mm),
      ...(part.innerMm === null ? {} : { innerDepth: lengthText(dice, part.innerMm) }),
      outsideDiameter: lengthText(dice, part.outsideMm),
      ratedTorque: torqueText(dice, part.ratedNm),
    })),
    extensions: stock.extensions.map((part) => ({
      ...carried(part),
      kind: part.kind,
      driveIn: driveText(dice, part.squareIn),
      driveOut: driveText(dice, part.squareOut),
      length: lengthText(dice, part.mm),
      outsideDiameter: lengthText(dice, part.outsideMm),
      ratedTorque: torqueText(dice, part.ratedNm),
    })),
    drivers: stock.tools.filter((tool) => tool.torque === null).map((tool) => ({ ...carried(tool), ...turning(tool) })),
    torqueTools: stock.tools.flatMap((tool) => {
      if (tool.torque === null) return [];
      const { minNm, settingsNm, incrementNm, accuracy, loosens } = tool.torque;
      return [
        {
          ...carried(tool),
          ...turning(tool),
          min: torqueText(dice, minNm),
          ...(incrementNm === null
            ? { settings: settingsNm.map((setNm) => torqueText(dice, setNm)) }
            : { increment: torqueText(dice, incrementNm) }),
          accuracyOfReading: accuracy,
          ...(loosens ? { loosens } : {}),
        },
      ];
    }),
    carryGear: stock.gear.map((item) => ({ ...carried(item), ...(item.consumed ? { consumed: true } : {}) })),
    bags: bagList,
  };
}

export function randomPlan(seed: number): GeneratedPlan {
  const dice = diceOf(seed);
  // Dice of their own, so that what is asked changes no plan but where it must.
  const askDice = diceOf(seed + 0.5e9);
  const tolerance = randomTolerance(askDice);
  const minimise = dice.pick(['mass', 'mass', 'count', 'volume'] as const);
  const outingIds = ['first', 'second', 'third'].slice(0, dice.pick([1, 1, 1, 2, 2, 3]));
  const roles = ['Lead', 'Second', 'Base'].slice(0, dice.pick([1, 2, 2, 2, 3]));
  const framed = frames(dice, outingIds, roles);
  const turn = framed.some((frame) => frame.action === 'loosen') || dice.chance(0.4);
  const gear = framed.some((frame) => frame.action === 'use') || dice.chance(0.5);
  const stock = randomStock(dice, { tighten: framed.some((frame) => frame.action === 'tighten'), turn, gear });
  const known: Target[] = [];
  const built = framed.map((frame) => randomStep(dice, stock, frame, known));
  const steps = built.map(({ step }) => step);
  const withPlaces = gear && dice.chance(0.45);
  dress(dice, steps, stock, withPlaces);
  const overfull = dice.chance(0.05);
  for (;;) {
    countWanted(dice, stock, built);
    wantForLoss(askDice, tolerance, built);
    countGear(dice, steps, stock);
    // What the shelf cannot hold at all is mostly not asked for.
    if (steps.length < 2 || wantedPieces(stock) <= piecesMax || overfull) break;
    steps.pop();
    built.pop();
  }
  fillShelf(dice, stock);
  const demandsNm = built.flatMap(({ demandsNm: each }) => each);
  meetDemands(dice, stock, demandsNm);
  const wishes = randomWishes(askDice, stock, outingIds);
  const bagList = bags(dice, roles, stock, tolerance);
  const bagIds = bagList.map((bag) => bag.id);
  const outings = outingIds.map((id) => ({
    id,
    roles,
    bags: bagIds.length > 1 && dice.chance(0.1) ? bagIds.slice(1) : bagIds,
    ...(dice.chance(0.5) ? { minutesMax: dice.pick([10, 20, 25, 40]) } : {}),
  }));
  const volumes = minimise === 'volume' || bagList.some((bag) => bag.volumeMax !== undefined);
  const plan: Plan = { catalog: catalog(dice, stock, bagList, volumes), outings, steps };
  if (withPlaces) plan.places = [{ id: 'foot' }, { id: 'top', final: true }];
  if (dice.chance(0.25)) plan.rangeShareMin = dice.pick([0.2, 0.25, 0.3, stock.harsh ? 0.5 : 0.4]);
  return { seed, plan, minimise, options: { minimise, tolerance, ...wishes } };
}
