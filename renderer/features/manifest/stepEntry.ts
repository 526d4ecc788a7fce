import type { BagStep } from '../../../shared-types/bag.ts';
import { gravestFirst } from '../../engine/cards/index.ts';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import { isRightWay } from '../../engine/stack/otherWay.ts';
import { torqueTexts } from '../../engine/torque/torqueParts.ts';
import { allUnits, convertValue, kindOf, showNumber, showQuantity } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { fastenerText, itemName, placeText } from '../steps/words.ts';
import type { ManifestStep, StackLine } from './manifest.ts';

/** One step of the outing as the sheet says it: what turns what, set to what, and where the band comes from. */
export function stepEntry(
  plan: ResolvedPlan,
  step: ResolvedStep,
  answer: BagStep | undefined,
  number: number,
  units: UnitsShown,
): ManifestStep {
  const source = plan.source.steps.find(({ id }) => id === step.id);
  const count = source?.count ?? 1;
  const line = (id: string): StackLine => ({ id, name: itemName(plan, id) });
  const onHead =
    step.fastener === null
      ? []
      : [{ id: step.fastener.id, name: `${count > 1 ? `${count} × ` : ''}${fastenerText(step.fastener)}` }];
  const stack = answer?.stack ?? [];
  return {
    number,
    id: step.id,
    name: step.name,
    who: [step.role, step.action, ...(step.contingency ? ['only if it fails'] : [])].join(', '),
    cautions: gravestFirst(source?.cautions ?? []),
    watchOuts: source?.watchOuts ?? [],
    stack: stack.length === 0 ? [] : [...stack.map(line), ...onHead],
    hold:
      answer?.hold === null || answer?.hold === undefined
        ? null
        : [
            ...answer.hold.map(line),
            ...(step.hold === null ? [] : [{ id: step.hold.fastener.id, name: fastenerText(step.hold.fastener) }]),
          ],
    byHand: stack.length > 0 ? null : step.action === 'use' ? 'by hand, nothing to turn' : 'no stack planned',
    gear: [
      ...step.gear.map(({ id, quantity }) => `${quantity} × ${id} ${itemName(plan, id)}`),
      ...step.moves.map(
        ({ id, quantity, from, to }) =>
          `move ${quantity} × ${id} from ${placeText(plan, from)} to ${placeText(plan, to)}`,
      ),
    ],
    // What the tool cannot measure gets no setting.
    setting: isRightWay(plan, step, stack) ? settingOf(plan, step, answer, units) : null,
    torque: torqueTexts(step, source, units),
    source: step.callout === null ? null : (source?.calloutSource ?? 'The plan names no source for this callout.'),
  };
}

/** The tool's own unit first; beside it the callout's where that is another, else the other system's. */
function settingOf(
  plan: ResolvedPlan,
  step: ResolvedStep,
  answer: BagStep | undefined,
  units: UnitsShown,
): ManifestStep['setting'] {
  const setting = answer?.setting;
  const unit = allUnits.find((known) => known === setting?.unit);
  if (setting === null || setting === undefined || unit === undefined || kindOf(unit) !== 'torque') return null;
  const text = `${showNumber(setting.value, 6)} ${unit}`;
  const calloutUnit: Unit = step.shown.torque;
  const both = showQuantity(text, units === 'as-written' ? 'as-written' : 'both');
  const beside =
    calloutUnit === unit
      ? both.slice(text.length).trim()
      : `(${showNumber(convertValue(setting.value, unit, calloutUnit))} ${calloutUnit})`;
  const accuracy = plan.tools.get(answer?.stack[0] ?? '')?.torque?.accuracyOfReading ?? null;
  const applied =
    accuracy === null
      ? ''
      : `applies ${showNumber(setting.value * (1 - accuracy))}–${showNumber(setting.value * (1 + accuracy))} ${unit} at ± ${showNumber(accuracy * 100)} % of reading`;
  return { text, beside, applied };
}
