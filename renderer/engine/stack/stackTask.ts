import type {
  BandNm,
  ResolvedAccess,
  ResolvedExtension,
  ResolvedFastener,
  ResolvedPlan,
  ResolvedSocket,
  ResolvedStep,
  ResolvedTool,
  ShownUnits,
} from '../plan/resolved.ts';
import { resetAngleDeg } from '../turning/index.ts';

/** What one stack is asked to do: a step's own work, or holding its second fastener against turning. */
export interface StackTask {
  action: 'tighten' | 'loosen' | 'hold';
  fastener: ResolvedFastener;
  access: ResolvedAccess;
  demandNm: number;
  /** Tightening only. */
  aim: BandNm | null;
  rangeShareMin: number;
  shown: ShownUnits;
}

/** One string of parts; the extensions in order from the tool to the socket. */
export interface StackParts {
  tool: ResolvedTool;
  extensions: ResolvedExtension[];
  socket: ResolvedSocket;
}

/** Rule 1: at most three extensions. */
export const extensionsMax = 3;

/** A step's own work; null for a step by hand or with gear. */
export function stackTask(plan: ResolvedPlan, step: ResolvedStep): StackTask | null {
  if (step.action === 'use' || !step.fastener || step.demandNm === null) return null;
  return {
    action: step.action,
    fastener: step.fastener,
    access: step.access,
    demandNm: step.demandNm,
    aim: step.aim,
    rangeShareMin: plan.rangeShareMin,
    shown: step.shown,
  };
}

/** Holding a step's second fastener; null where nothing is held. */
export function holdTask(plan: ResolvedPlan, step: ResolvedStep): StackTask | null {
  if (step.action === 'use' || !step.hold || step.demandNm === null) return null;
  return {
    action: 'hold',
    fastener: step.hold.fastener,
    access: step.hold.access,
    demandNm: step.demandNm,
    aim: null,
    rangeShareMin: plan.rangeShareMin,
    shown: step.shown,
  };
}

/** Rules 1 and 12: what may turn in this task. */
export function mayTurn(task: StackTask, tool: ResolvedTool): boolean {
  if (task.action === 'tighten') return tool.torque !== null;
  if (task.action === 'hold') return tool.torque === null;
  return tool.torque === null || tool.torque.loosens;
}

/** The ids from the tool to the socket, as a plan's answer lists them. */
export function stackIds({ tool, extensions, socket }: StackParts): string[] {
  return [tool.id, ...extensions.map((e) => e.id), socket.id];
}

/** The parts that ids name; null where one names none. */
export function stackParts(plan: ResolvedPlan, ids: readonly string[]): StackParts | null {
  const tool = plan.tools.get(ids[0] ?? '');
  const socket = plan.sockets.get(ids.at(-1) ?? '');
  const extensions = ids.slice(1, -1).map((id) => plan.extensions.get(id));
  if (!tool || !socket || !extensions.every((e) => e !== undefined)) return null;
  return { tool, extensions, socket };
}

/**
 * How far a stack reaches down a hole.
 *
 *   L = socket + Σ extensions
 *
 * @returns L [mm], from the head to the tool's drive
 * @throws nothing
 * @source rule 3 of command `bag`
 * @validity lengths as the plan gives them, drives fully engaged
 * @example stackLengthMm of a 38 mm socket on a 150 mm extension // 188
 */
export function stackLengthMm({ extensions, socket }: StackParts): number {
  return extensions.reduce((sum, e) => sum + e.lengthMm, socket.lengthMm);
}

/**
 * The least swing that moves the fastener on.
 *
 * @returns the tool's own step angle [deg], or the angle between the seats of the opening where it has no ratchet
 * @throws nothing
 * @source rule 13 of command `bag`; symmetry of the opening
 * @validity hand tools; a hexalobular opening counts as six seats
 * @example stepAngleDeg of a breaker bar with a hex12 socket // 30
 */
export function stepAngleDeg(tool: ResolvedTool, socket: Pick<ResolvedSocket, 'openingForm'>): number {
  return tool.stepDeg ?? resetAngleDeg(socket.openingForm);
}
