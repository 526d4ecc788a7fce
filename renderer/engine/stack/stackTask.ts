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

export function stackIds({ tool, extensions, socket }: StackParts): string[] {
  return [tool.id, ...extensions.map((e) => e.id), socket.id];
}

export function stackParts(plan: ResolvedPlan, ids: readonly string[]): StackParts | null {
  const tool = plan.tools.get(ids[0] ?? '');
  const socket = plan.sockets.get(ids.at(-1) ?? '');
  const extensions = ids.slice(1, -1).map((id) => plan.extensions.get(id));
  if (!tool || !socket || !extensions.every((e) => e !== undefined)) return null;
  return { tool, extensions, socket };
}

export function stackLengthMm({ extensions, socket }: StackParts): number {
  return extensions.reduce((sum, e) => sum + e.lengthMm, socket.lengthMm);
}

/** Step angle of a tool without a ratchet: it is lifted and set again on the next flats (rule 13). */
const resetDeg = { hex6: 60, hexKey: 60, hexalobular: 60, hex12: 30, square: 90 } as const;

export function stepAngleDeg(tool: ResolvedTool, socket: ResolvedSocket): number {
  return tool.stepDeg ?? resetDeg[socket.openingForm];
}
