import type { BagObjective, BagOuting, BagResult } from '../../../shared-types/bag.ts';
import { pocketsIn } from '../../engine/bagMap/pocketsIn.ts';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';
import { labelledThings } from '../../engine/record/tagClashes.ts';
import type { ResolvedBag, ResolvedOuting, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { objectiveWords } from '../bag/amounts.ts';
import { countOf, itemName } from '../steps/words.ts';
import { assumptions, notesOf } from './assumptions.ts';
import { itemState } from './itemState.ts';
import type { Manifest, ManifestBag, ManifestLine, NoManifest } from './manifest.ts';
import { kgText, massLimitText, massText } from './massText.ts';
import { thingWords } from './printedRevision.ts';
import type { PrintedRevision } from './printedRevision.ts';
import { otherWayTexts, problemText, uncheckedTexts } from './openPoints.ts';
import { stepEntry } from './stepEntry.ts';
import { stepNumbers, type StepNumbers } from './stepNumbers.ts';

export interface ManifestRequest {
  plan: ResolvedPlan;
  result: BagResult;
  /** Id of the outing. */
  outing: string;
  units: UnitsShown;
  fileName: string;
  /** What is carried to each step beyond the plan's own words, by the step's code. */
  carried?: ReadonlyMap<string, readonly string[]> | undefined;
  /** How the bags of the outing are laid out. */
  map?: MapLayout | undefined;
  /** The frozen manifest that plan and answer are of. */
  frozen?: PrintedRevision | undefined;
}

const unitWords: Record<UnitsShown, string> = {
  'as-written': 'Units as written',
  si: 'Units: SI',
  'inch-pound': 'Units: inch-pound',
  both: 'Units as written, the other in brackets',
};

/** Which units stand on a sheet, and how its numbers are rounded. */
export function unitsNote(units: UnitsShown): string {
  return `${unitWords[units]}. Nominal values rounded half to even, limits inward, applied bands to four digits.`;
}

/** The sheet's content for one outing of an answer, or the sheet that says why there is none. */
export function manifestOf(request: ManifestRequest): Manifest | NoManifest {
  const { plan, result, outing: outingId, units, fileName, carried } = request;
  const numbers = stepNumbers(plan);
  const outing = plan.outings.find(({ id }) => id === outingId);
  const answer = result.outings.find(({ id }) => id === outingId);
  const { task } = plan.source;
  const frame = {
    name: task?.name ?? fileName,
    title: `${task?.name ?? fileName}, ${outing?.name ?? outingId}`,
    task: task === undefined ? fileName : `${task.id}, ${task.name}`,
    site: task?.site ?? null,
    outing: outing?.name ?? outingId,
    units: unitsNote(units),
  };
  const steps = plan.steps.filter((step) => step.outing === outingId);
  const stepIds = new Set(steps.map(({ id }) => id));
  const itemIds = new Set(answer?.items.map(({ id }) => id) ?? []);
  const open = {
    unchecked: uncheckedTexts(result, stepIds, itemIds, numbers),
    problems: [
      ...result.problems
        .filter((problem) => problem.outing === outingId)
        .map((problem) => problemText(plan, problem, numbers)),
      ...(answer === undefined ? [] : otherWayTexts(plan, answer, numbers)),
    ],
  };
  if (answer === undefined) {
    return { ...frame, ...open, why: whyNone(result, outing), faults: faultsOf(plan, result, numbers) };
  }
  const rows = bagRows(request, answer, numbers);
  const contentsKg = answer.items.reduce(
    (sum, { id, quantity }) => sum + quantity * (plan.carried.get(id)?.massKg ?? 0),
    0,
  );
  const used = new Set([
    ...itemIds,
    ...rows.map(({ id }) => id),
    ...stepIds,
    outingId,
    ...steps.flatMap(({ fastener, hold }) => [fastener?.id ?? '', hold?.fastener.id ?? '']),
  ]);
  return {
    ...frame,
    ...open,
    rows,
    lineCount: answer.items.length,
    pieceCount: answer.items.reduce((sum, { quantity }) => sum + quantity, 0),
    contentsMass: massText(contentsKg),
    wholeMass: Math.abs(answer.massKg - contentsKg) < 5e-7 ? null : massText(answer.massKg),
    stepCount: steps.length,
    proof: proofTexts(result, plan.outings.length),
    steps: steps.map((step) => {
      const planned = answer.steps.find(({ id }) => id === step.id);
      const entry = stepEntry(plan, step, planned, numbers.of(step.id), units);
      return { ...entry, watchOuts: [...new Set([...entry.watchOuts, ...(carried?.get(step.id) ?? [])])] };
    }),
    notes: notesOf(plan, used),
    assumptions: assumptions(plan),
  };
}

function bagRows(
  { plan, units, frozen, map }: ManifestRequest,
  answer: BagOuting,
  numbers: StepNumbers,
): ManifestBag[] {
  const which = new Map(
    frozen === undefined ? [] : labelledThings(frozen).map((thing) => [thing.id, thingWords(thing)]),
  );
  return [...plan.bags.values()].flatMap((bag) => {
    const items = answer.items.filter((item) => item.bag === bag.id);
    if (items.length === 0) return [];
    const massKg = ({ id, quantity }: { id: string; quantity: number }): number =>
      quantity * (plan.carried.get(id)?.massKg ?? 0);
    return [
      {
        id: bag.id,
        name: bagName(plan, bag),
        lines: inPockets(bag, items, map).map(({ item, pocket }) => ({
          ...pocket,
          id: item.id,
          what: itemName(plan, item.id),
          which: which.get(item.id) || null,
          state: itemState(plan, answer, item.id, item.quantity, numbers, units),
          needed: numbers.text(item.because),
          pieces: item.quantity,
          kg: kgText(massKg(item)),
        })),
        pieceCount: items.reduce((sum, { quantity }) => sum + quantity, 0),
        contentsKg: kgText(items.reduce((sum, item) => sum + massKg(item), 0)),
        own: bag.massKg === 0 ? null : `the bag itself ${massText(bag.massKg)}`,
      },
    ];
  });
}

/** Lines of a bag pocket by pocket, each in the one that has most of it; as they are where the pockets have no names. */
function inPockets<I extends { id: string }>(
  { id: bag, pockets }: ResolvedBag,
  items: readonly I[],
  map: MapLayout | undefined,
): { item: I; pocket: Pick<ManifestLine, 'pocket' | 'apart'> }[] {
  const lines = items.map((item) => {
    const lies = map === undefined ? [] : pocketsIn(map, bag, item.id);
    const [most] = lies.toSorted((a, b) => b.pieces - a.pieces);
    const apart = lies.filter((one) => one !== most).map(({ pocket, pieces }) => `${pieces} of them in ${pocket}`);
    return {
      item,
      pocket: {
        ...(most === undefined ? {} : { pocket: most.pocket }),
        ...(apart.length === 0 ? {} : { apart: apart.join(', ') }),
      },
    };
  });
  return lines.toSorted((a, b) => pockets.indexOf(a.pocket.pocket ?? '') - pockets.indexOf(b.pocket.pocket ?? ''));
}

function bagName(plan: ResolvedPlan, bag: ResolvedBag): string {
  const name = bag.name === bag.id ? bag.id : `${bag.name} (${bag.id})`;
  const limit = plan.source.catalog.bags.find(({ id }) => id === bag.id)?.massMax;
  return limit === undefined ? name : `${name}, limit ${massLimitText(limit)}`;
}

function amount({ unit }: BagObjective, value: number): string {
  return unit === 'kg' ? massText(value) : unit === 'L' ? `${showNumber(value)} L` : countOf(value, 'piece');
}

/** Whether less is possible, in the words of the proof; a bag that was not proved is never called least. */
function proofTexts({ status, objective, singleLoss, tolerance }: BagResult, outings: number): string[] {
  const over = outings > 1 ? ` over all ${outings} outings together` : '';
  if (status === 'infeasible') return ['The plan cannot be done as a whole: this outing only.'];
  const texts: string[] = [];
  if (objective !== null) {
    const { minimised, value, bound, gap } = objective;
    texts.push(
      status === 'optimal'
        ? `Proved ${objectiveWords[minimised]}${over}: ${amount(objective, value)}, and nothing below it does all steps.`
        : `Not proved least: stopped by its time limit. Best found ${amount(objective, value)}${over}; no bag is below ${amount(objective, bound)}, bound ${showNumber(gap * 100, 2)} %.`,
    );
  }
  texts.push(lossText(singleLoss, tolerance));
  return texts;
}

function lossText(singleLoss: boolean, tolerance: BagResult['tolerance']): string {
  if (tolerance === 'bag')
    return 'Bag-loss tolerant: with any one bag lost, or any one tool piece, every step still has a stack.';
  return singleLoss
    ? 'Single-loss tolerant: with any one tool piece lost, every step still has a stack.'
    : 'Not single-loss tolerant: one lost tool piece may stop a step.';
}

function whyNone(result: BagResult, outing: ResolvedOuting | undefined): string {
  if (outing === undefined) return 'The plan has no such outing.';
  if (result.status === 'infeasible') return 'No bag does every step of this plan with this stock and these limits.';
  if (result.status === 'stopped') return 'Planning was stopped before it found a bag for this outing.';
  return 'The answer holds no bag for this outing.';
}

function faultsOf(plan: ResolvedPlan, result: BagResult, numbers: StepNumbers): NoManifest['faults'] {
  return result.infeasible.map(({ step, outing, reason, closest }) => {
    const found = plan.steps.find(({ id }) => id === step);
    const what =
      step === undefined
        ? `Outing ${plan.outings.find(({ id }) => id === outing)?.name ?? outing ?? ''}`
        : `Step ${numbers.of(step)}, ${found?.name ?? step}`;
    return { what, reason, closest };
  });
}
