/** Holes that change their width on the way in, laid over a random plan: at the limits of its own parts, or just past them. */
import type { PlanStep } from '../../shared-types/plan.ts';
import { dice as diceOf } from './dice.ts';
import type { Dice } from './dice.ts';
import { lengthMm } from './quantity.ts';
import { lengthText } from './quantityText.ts';
import type { GeneratedPlan } from './randomPlan.ts';

type Access = NonNullable<PlanStep['access']>;

interface Parts {
  /** Lengths that may lie between the head and where a part begins. */
  beginsMm: number[];
  socketsMm: number[];
  allMm: number[];
}

/** Every third plan gets such holes; the others, and all that is asked of them, stay what they are. */
export function withProfiles(generated: GeneratedPlan): GeneratedPlan {
  const { seed, plan } = generated;
  const dice = diceOf(seed + 1_000_000);
  const { sockets, extensions } = plan.catalog;
  if (seed % 3 !== 1 || sockets.length === 0 || extensions.length === 0) return generated;
  const short = sockets.map(({ length }) => lengthMm(length));
  const parts: Parts = {
    beginsMm: [...short, ...short.flatMap((mm) => extensions.map(({ length }) => mm + lengthMm(length)))],
    socketsMm: sockets.map(({ outsideDiameter }) => lengthMm(outsideDiameter)),
    allMm: [...sockets, ...extensions].map(({ outsideDiameter }) => lengthMm(outsideDiameter)),
  };
  const steps = plan.steps.map((step): PlanStep => {
    const hold = step.hold === undefined ? {} : { hold: { ...step.hold, ...shaped(dice, step.hold.access, parts) } };
    return { ...step, ...shaped(dice, step.access, parts), ...hold };
  });
  return { ...generated, plan: { ...plan, steps } };
}

function shaped(dice: Dice, access: Access | undefined, { beginsMm, socketsMm, allMm }: Parts): { access?: Access } {
  const depthMm = access === undefined ? 0 : lengthMm(access.depth);
  if (access === undefined || depthMm === 0 || dice.chance(0.25)) return {};
  const ends = [...beginsMm.map((mm) => depthMm - mm), depthMm / 3, depthMm].filter((mm) => mm > 0.5 && mm <= depthMm);
  const drawn = [dice.pick(ends), dice.pick(ends)].toSorted((a, b) => a - b);
  const [first = depthMm, second = depthMm] = drawn;
  const toMm = second - first < 0.5 || dice.chance(0.5) ? [first] : [first, second];
  const [widestMm, socketMm] = [Math.max(...allMm), Math.max(...socketsMm)];
  const profile = toMm.map((mm) => ({
    to: lengthText(dice, mm),
    clearDiameter: lengthText(dice, dice.pick([widestMm, widestMm, widestMm, widestMm, widestMm, dice.pick(allMm)])),
  }));
  const below = dice.pick([socketMm, socketMm, widestMm, widestMm, null]);
  const { clearDiameter: _before, ...rest } = access;
  return {
    access: { ...rest, profile, ...(below === null ? {} : { clearDiameter: lengthText(dice, below) }) },
  };
}
