import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { RefusedError } from '../errors.ts';
import {
  orderFaultWords,
  orderRules,
  pointsSeen,
  positionNames,
  positionsOf as positionsOfInterface,
  proposeOrder,
  readPattern,
} from '../pattern/index.ts';
import type { PatternPoint } from '../pattern/index.ts';

/** What a card says of a step that its plan does not hold. */
export interface StepFacts {
  /** "B, azimuth flange". */
  where: string | null;
  /** The step's own words for its positions. */
  positions: string | null;
  passes: readonly string[];
  ifFails: TaskStep['ifFails'];
  /** What was learned and is carried to this step, beyond its own watch-outs and its interface's. */
  carried: readonly string[];
  at: InterfaceFacts | null;
}

export interface InterfaceFacts {
  count: number;
  pattern: string | null;
  /** Positions in the order they are tightened in; null where the interface gives none. */
  order: readonly string[] | null;
  mirrored: boolean;
  quarterTurns: number | null;
  /** How it is when it is done. */
  desired: string | null;
}

/** The facts of a task's steps by their code. */
export function stepFacts(
  steps: readonly TaskStep[],
  interfaces: ReadonlyMap<string, Interface>,
  carried: ReadonlyMap<string, readonly string[]> = new Map(),
): Map<string, StepFacts> {
  return new Map(
    steps.map((step) => {
      const at = interfaces.get(step.interface ?? '');
      return [
        step.code,
        {
          where: at === undefined ? null : at.name === undefined ? at.code : `${at.code}, ${at.name}`,
          positions: step.positions ?? null,
          passes: step.passes ?? [],
          ifFails: step.ifFails,
          carried: carried.get(step.code) ?? [],
          at: at === undefined ? null : interfaceFacts(at),
        },
      ];
    }),
  );
}

function interfaceFacts(at: Interface): InterfaceFacts {
  return {
    count: at.count,
    pattern: at.pattern ?? null,
    order: at.order ?? null,
    mirrored: at.mirrored ?? false,
    quarterTurns: at.quarterTurns ?? null,
    desired: at.desired ?? null,
  };
}

export interface Positions {
  order: string[];
  orderFrom: string | null;
  /** What is wrong with the interface's own order, which then is not used, nor is another put in its place. */
  orderFault: string | null;
  points: PatternPoint[] | null;
  mirrored: boolean;
}

/** The positions a step turns, in their order, and where each lies as the worker sees it. */
export function positionsOf(facts: StepFacts | undefined, count: number): Positions {
  const at = facts?.at ?? null;
  const all = at === null ? positionNames(count) : namesOf(at);
  const named = facts?.positions == null ? null : namedAmong(facts.positions, all);
  // Words that name no numbers ("upper row") say how many there are, and not which.
  const own = named ?? (all.length === count ? all : positionNames(count));
  const mirrored = at?.mirrored ?? false;
  const isNamed = named !== null || (facts?.positions == null && all.length === count);
  const points = at?.pattern == null || !isNamed ? null : placesOf(at.pattern, all, own);
  const seen = points === null ? null : pointsSeen(points, { mirrored });
  const given = at?.order ?? null;
  if (given !== null && isNamed) {
    // Of some positions it is their part of the order; a name that is none of the interface's is a fault of all of it.
    const order = given.filter((position) => own.includes(position) || !all.includes(position));
    const fault = orderFaultWords(order, own);
    return fault === null
      ? { order, orderFrom: 'The interface’s own order.', orderFault: null, points: seen, mirrored }
      : { order: own, orderFrom: null, orderFault: fault, points: seen, mirrored };
  }
  if (points !== null && own.length > 1)
    return {
      order: proposeOrder('star', points),
      orderFrom: `Proposed, as the interface gives none. ${orderRules.star} Common practice, no source.`,
      orderFault: null,
      points: seen,
      mirrored,
    };
  return { order: own, orderFrom: null, orderFault: null, points: seen, mirrored };
}

/** "1–6, 8" among the interface's numbers; null where the words say something else. */
function namedAmong(text: string, all: readonly string[]): string[] | null {
  const known = new Set(all);
  const named: string[] = [];
  for (const part of text.split(/[\s,;]+|\band\b/).filter((one) => one !== '')) {
    const [, from, to] = /^(\d{1,6})\s*[-–]\s*(\d{1,6})$/.exec(part) ?? [];
    if (from === undefined || to === undefined) {
      if (!known.has(part)) return null;
      named.push(part);
      continue;
    }
    const [first, last] = [Number(from), Number(to)];
    if (first > last || !known.has(String(first)) || !known.has(String(last))) return null;
    for (let number = first; number <= last; number += 1) named.push(String(number));
  }
  return named.length === 0 ? null : [...new Set(named)];
}

function placesOf(pattern: string, all: readonly string[], own: readonly string[]): PatternPoint[] | null {
  try {
    const points = readPattern(pattern, all).filter(({ position }) => own.includes(position));
    return points.length === own.length ? points : null;
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}

/** The names of its positions; the numbers where its pattern cannot be read, as it is then not drawn either. */
function namesOf({ pattern, count }: InterfaceFacts): string[] {
  try {
    return positionsOfInterface({ pattern: pattern ?? '', count });
  } catch (error) {
    if (error instanceof RefusedError) return positionNames(count);
    throw error;
  }
}
