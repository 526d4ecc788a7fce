import type {
  ResolvedExtension,
  ResolvedFastener,
  ResolvedPlan,
  ResolvedSocket,
  ResolvedStep,
  ResolvedTool,
} from '../../engine/plan/resolved.ts';
import { stepAngleDeg } from '../../engine/stack/stackTask.ts';
import { narrowestOnTheWay } from '../../engine/stack/stretches.ts';

/** One part along the stack. x runs from the mouth of the hole (0) to the head; negative is outside. */
export interface PlacedPart {
  part: ResolvedExtension | ResolvedSocket;
  startMm: number;
  endMm: number;
  /** Begins before the depth, so that its diameter must pass the hole. */
  inHole: boolean;
  /** How much its diameter exceeds the clear diameter, where it must pass; 0 where it passes. */
  tooWideMm: number;
}

/** What is drawn, in mm; nothing here is a matter of taste. */
export interface StackShape {
  tool: ResolvedTool;
  parts: PlacedPart[];
  socket: ResolvedSocket;
  fastener: ResolvedFastener;
  depthMm: number;
  clearMm: number | null;
  /** Stretches of another width, from the mouth inwards. */
  profile: readonly { toMm: number; clearMm: number }[];
  protrusionMm: number | null;
  /** Socket and extensions end to end. */
  lengthMm: number;
  /** Where the tool's face stands: at the mouth where the stack is too short, else `lengthMm` before the head. */
  faceMm: number;
  /** Above 0: reaches with so much over. Below 0: short by so much. */
  spareMm: number;
  widestMm: number;
  /** Least gap all round between a part in the hole and the narrowest it passes; below 0 it jams. */
  gapMm: number | null;
  swing: SwingShape | null;
}

export interface SwingShape {
  swingDeg: number | null;
  /** Least turn between two grips of the tool on this head. */
  stepDeg: number;
  roomMm: number | null;
  leverMm: number | null;
}

export type ShapeOrReason = { shape: StackShape } | { reason: string };

/** Lengths that differ by less are one length: the plan's inch texts have no exact doubles in mm. */
const sameLengthMm = 1e-6;

/** The step's stack as lengths and diameters, or why it has no drawing. */
export function stackShape(plan: ResolvedPlan, step: ResolvedStep, stack: readonly string[]): ShapeOrReason {
  if (step.fastener === null) return { reason: 'Nothing to turn at this step: it is done by hand or with gear.' };
  const [toolId, ...partIds] = stack;
  if (toolId === undefined) return { reason: 'No stack to draw.' };
  const tool = plan.tools.get(toolId);
  const parts = partIds.map((id) => plan.extensions.get(id) ?? plan.sockets.get(id));
  const unknown = stack.find((id) => !plan.carried.has(id));
  if (unknown !== undefined) return { reason: `Not drawn: "${unknown}" is not in this task’s catalog.` };
  const socket = parts.at(-1);
  if (tool === undefined || socket?.kind !== 'socket') {
    return { reason: `Not drawn: ${stack.join(', ')} does not run from a tool to a socket.` };
  }
  const known = parts.filter((part) => part !== undefined);
  return { shape: shapeOf(tool, known, socket, step.fastener, step) };
}

function shapeOf(
  tool: ResolvedTool,
  parts: (ResolvedExtension | ResolvedSocket)[],
  socket: ResolvedSocket,
  fastener: ResolvedFastener,
  step: ResolvedStep,
): StackShape {
  const { depthMm, clearDiameterMm: clearMm, profile, protrusionMm } = step.access;
  const lengthMm = parts.reduce((sum, part) => sum + part.lengthMm, 0);
  const differenceMm = lengthMm - depthMm;
  const spareMm = Math.abs(differenceMm) < sameLengthMm ? 0 : differenceMm;
  const faceMm = spareMm < 0 ? 0 : depthMm - lengthMm;
  const placed: PlacedPart[] = [];
  const gapsMm: number[] = [];
  let startMm = faceMm;
  let beyondMm = lengthMm;
  for (const part of parts) {
    beyondMm -= part.lengthMm;
    const inHole = beyondMm < depthMm - sameLengthMm;
    const way = inHole ? narrowestOnTheWay(step.access, beyondMm) : null;
    const overMm = way === null ? 0 : part.outsideDiameterMm - way.clearMm;
    if (way !== null) gapsMm.push(-overMm / 2);
    placed.push({
      part,
      startMm,
      endMm: startMm + part.lengthMm,
      inHole,
      tooWideMm: overMm > sameLengthMm ? overMm : 0,
    });
    startMm += part.lengthMm;
  }
  return {
    tool,
    parts: placed,
    socket,
    fastener,
    depthMm,
    clearMm,
    profile,
    protrusionMm,
    lengthMm,
    faceMm,
    spareMm,
    widestMm: Math.max(...parts.map((part) => part.outsideDiameterMm)),
    gapMm: gapsMm.length === 0 ? null : Math.min(...gapsMm),
    swing: swingOf(tool, socket, step),
  };
}

function swingOf(tool: ResolvedTool, socket: ResolvedSocket, step: ResolvedStep): SwingShape | null {
  const { swingDeg, handleRadiusMm: roomMm } = step.access;
  if (swingDeg === null && roomMm === null) return null;
  return {
    swingDeg,
    stepDeg: stepAngleDeg(tool, socket),
    roomMm,
    leverMm: tool.leverMm,
  };
}
