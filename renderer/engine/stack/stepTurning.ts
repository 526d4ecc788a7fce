import type { ResolvedStep } from '../plan/resolved.ts';
import { leadMm, turnsToRun } from '../thread/index.ts';
import { strokesInSwing } from '../turning/index.ts';
import type { StackParts } from './stackTask.ts';
import { stepAngleDeg } from './stackTask.ts';

/**
 * Turns to run a step's fastener to its seat, and the tool's whole strokes for them.
 *
 *   turns = length ÷ lead, lead = pitch × starts;  strokes = turns·360/(⌊φ/step⌋·step)
 *
 * @param step - with its fastener's length to run [mm] and its free swing [deg]
 * @param parts - the tool's step, or the socket's reset angle [deg]
 * @returns nulls where the plan gives no length to run; strokes null where no swing is given or no step fits in it
 * @throws RefusedError unreadable-thread, which a plan's reading has refused before
 * @source turnsToRun, strokesInSwing
 * @validity single-start threads
 * @example 12 mm of M10 in a swing of 63° with steps of 5°: 8 turns, 48 strokes
 */
export function stepTurning(
  step: ResolvedStep,
  { tool, socket }: Pick<StackParts, 'tool' | 'socket'>,
): { turns: number | null; strokes: number | null } {
  const runMm = step.fastener?.threadRunMm ?? null;
  if (runMm === null || !step.fastener) return { turns: null, strokes: null };
  const turns = turnsToRun({ lengthMm: runMm, leadMm: leadMm(step.fastener.thread) });
  const { swingDeg } = step.access;
  if (swingDeg === null) return { turns, strokes: null };
  const made = strokesInSwing({ turns, swingDeg, stepDeg: stepAngleDeg(tool, socket) });
  return { turns, strokes: made?.wholeStrokes ?? null };
}
