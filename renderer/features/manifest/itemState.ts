import type { BagOuting } from '../../../shared-types/bag.ts';
import { convertValue, showNumber, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { squareName } from '../../engine/plan/squares.ts';
import type { ResolvedExtension, ResolvedPlan, ResolvedSocket, ResolvedTool } from '../../engine/plan/resolved.ts';
import { shownOpening } from '../../engine/stack/shown.ts';
import { numbersText } from '../steps/words.ts';
import type { StepNumbers } from './stepNumbers.ts';

/**
 * The state an item is packed in, as a value that can be read off it: a torque tool's setting, a square, an opening, a
 * length. What the plan does not hold (a cap on a mirror, a clean jaw) is not made up here.
 */
export function itemState(
  plan: ResolvedPlan,
  outing: BagOuting,
  id: string,
  quantity: number,
  numbers: StepNumbers,
  units: UnitsShown,
): string {
  const tool = plan.tools.get(id);
  if (tool !== undefined)
    return tool.torque === null ? driverState(tool) : torqueToolState(plan, outing, tool, numbers, units);
  const extension = plan.extensions.get(id);
  if (extension !== undefined) return extensionState(plan, extension, units);
  const socket = plan.sockets.get(id);
  if (socket !== undefined) return socketState(plan, socket, units);
  const gear = plan.gear.get(id);
  const whole = quantity === 1 ? 'one' : String(quantity);
  return gear?.consumed === true ? `${whole} unused, to be used up` : `${whole} whole`;
}

function driverState(tool: ResolvedTool): string {
  return `${squareName(tool.driveMm)} square`;
}

function torqueToolState(
  plan: ResolvedPlan,
  outing: BagOuting,
  tool: ResolvedTool,
  numbers: StepNumbers,
  units: UnitsShown,
): string {
  const used = outing.steps.filter((step) => step.stack[0] === tool.id);
  const set = used.filter((step) => step.setting !== null);
  const first = set[0]?.setting;
  const square = `${squareName(tool.driveMm)} square`;
  if (first === undefined || first === null) {
    const loosens = numbersText(used.map((step) => numbers.of(step.id)));
    const range = toolRange(plan, tool, units);
    return used.length === 0
      ? `range ${range}, ${square}`
      : `range ${range}, no setting: loosens at ${loosens}; ${square}`;
  }
  const same = set.every((step) => step.setting?.value === first.value && step.setting.unit === first.unit);
  const steps = numbersText(set.map((step) => numbers.of(step.id)));
  const text = `${showNumber(first.value, 6)} ${first.unit}`;
  const firstStep = numbers.of(set[0]?.id ?? '');
  return same
    ? `on ${text} for ${steps}; ${square}`
    : `on ${text} for ${firstStep}, then as each step says (${steps}); ${square}`;
}

function toolRange(plan: ResolvedPlan, tool: ResolvedTool, units: UnitsShown): string {
  const source = plan.source.catalog.torqueTools.find(({ id }) => id === tool.id);
  if (source !== undefined) return `${showQuantity(source.min, units)} to ${showQuantity(source.max, units)}`;
  return `to ${showNumber(convertValue(tool.maxNm, 'N·m', 'N·m'))} N·m`;
}

function extensionState(plan: ResolvedPlan, extension: ResolvedExtension, units: UnitsShown): string {
  const source = plan.source.catalog.extensions.find(({ id }) => id === extension.id);
  const length = showQuantity(source?.length ?? `${extension.lengthMm} mm`, units);
  const squares =
    extension.driveInMm === extension.driveOutMm
      ? `${squareName(extension.driveInMm)} square`
      : `${squareName(extension.driveInMm)} in, ${squareName(extension.driveOutMm)} out`;
  return `${extension.form === 'universal' ? 'joint, ' : ''}${length} long, ${squares}`;
}

function socketState(plan: ResolvedPlan, socket: ResolvedSocket, units: UnitsShown): string {
  const source = plan.source.catalog.sockets.find(({ id }) => id === socket.id);
  const length = showQuantity(source?.length ?? `${socket.lengthMm} mm`, units);
  return `${shownOpening(socket.openingForm, socket.size)}, ${length} long, ${squareName(socket.driveMm)} square`;
}
