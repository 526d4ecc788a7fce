import type { CheckName } from '../../../shared-types/bag.ts';
import type { ResolvedExtension, ResolvedSocket, ResolvedTool } from '../plan/resolved.ts';
import { openingGoesOnHead } from '../socket/index.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { chooseSetting } from '../torque/chooseSetting.ts';
import { leastBeginMm } from './stretches.ts';
import type { StackTask } from './stackTask.ts';
import { mayTurn, stepAngleDeg } from './stackTask.ts';

/** Checks that a search for closest fits may leave out, one at a time. */
export type Relaxed = Exclude<CheckName, 'hold' | 'bag'>;

/** Nothing left out. */
export const strict: ReadonlySet<Relaxed> = new Set();

/** Whether a tool may be in a stack for this task at all, whatever else is in it (rules 1, 5, 6, 8 and 13). */
export function toolServes(task: StackTask, tool: ResolvedTool, relaxed: ReadonlySet<Relaxed>): boolean {
  const { handleRadiusMm } = task.access;
  if (!mayTurn(task, tool) || !onHand(tool, relaxed) || !bears(task, tool.maxNm, relaxed)) return false;
  const fitsRoom = handleRadiusMm === null || tool.leverMm === null || atMost(tool.leverMm, handleRadiusMm);
  if (!fitsRoom && !relaxed.has('swing')) return false;
  const { aim, rangeShareMin } = task;
  if (!aim || relaxed.has('accuracy')) return true;
  const chosen = tool.torque && chooseSetting({ torque: tool.torque, aim, rangeShareMin });
  return chosen?.conforms ?? false;
}

/** The same of an extension (rules 5, 7 and 8); where it lies in the hole decides the rest. */
export function extensionServes(task: StackTask, extension: ResolvedExtension, relaxed: ReadonlySet<Relaxed>): boolean {
  if (extension.form === 'universal' && task.action === 'tighten' && !relaxed.has('universal')) return false;
  return onHand(extension, relaxed) && bears(task, extension.ratedNm, relaxed);
}

/** The same of a socket (rules 2, 4, 5, 8 and 14). */
export function socketServes(task: StackTask, socket: ResolvedSocket, relaxed: ReadonlySet<Relaxed>): boolean {
  const { access, fastener } = task;
  if (!onHand(socket, relaxed) || !bears(task, socket.ratedNm, relaxed)) return false;
  const covers =
    access.protrusionMm === null || (socket.innerDepthMm !== null && atLeast(socket.innerDepthMm, access.protrusionMm));
  if (!covers && !relaxed.has('protrusion')) return false;
  if (!passesHole(task, socket.outsideDiameterMm, 0, relaxed)) return false;
  const goesOn = openingGoesOnHead({
    headForm: fastener.headForm,
    acrossFlats: fastener.acrossFlats,
    openingForm: socket.openingForm,
    size: socket.size,
  });
  return goesOn || relaxed.has('opening');
}

/** Rule 4, for a part that begins so far from the head. */
export function passesHole(
  { access }: StackTask,
  outsideDiameterMm: number,
  beginMm: number,
  relaxed: ReadonlySet<Relaxed> = strict,
): boolean {
  return relaxed.has('clearance') || atLeast(beginMm, leastBeginMm(access, outsideDiameterMm));
}

/** Rule 13: the tool moves on within the free angle. */
export function swings(
  { access }: StackTask,
  tool: ResolvedTool,
  socket: Pick<ResolvedSocket, 'openingForm'>,
): boolean {
  return access.swingDeg === null || atMost(stepAngleDeg(tool, socket), access.swingDeg);
}

function bears(task: StackTask, ratedNm: number, relaxed: ReadonlySet<Relaxed>): boolean {
  return atLeast(ratedNm, task.demandNm) || relaxed.has('strength');
}

function onHand(piece: { onHand: number }, relaxed: ReadonlySet<Relaxed>): boolean {
  return piece.onHand > 0 || relaxed.has('stock');
}
