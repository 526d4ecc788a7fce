import type { Minimised } from '../../../../shared-types/bag.ts';
import type { ResolvedExtension, ResolvedSocket, ResolvedTool } from '../../plan/resolved.ts';
import type { StackTask } from '../../stack/stackTask.ts';
import { extensionServes, socketServes, strict, swings, toolServes } from '../../stack/serves.ts';
import { extensionsMax } from '../../stack/stackTask.ts';
import { stretchesOf } from '../../stack/stretches.ts';
import { atMost } from '../../tolerance.ts';
import { measured } from '../measure.ts';
import type { OutingWork } from '../outingWork.ts';

/** A piece as the outing sees it: what it can do, as bits and a length; what it costs. */
interface Piece {
  id: string;
  onHand: number;
  /** Pieces of one kind and square stand in for each other, no others. */
  kind: string;
  /** The tasks it serves at all. */
  tasks: ReadonlySet<StackTask>;
  /** Bit by bit, what it serves: more is better. */
  serves: Uint8Array;
  /** More is better; no more counts than the deepest hole asks. */
  lengthMm: number;
  /** What is minimised first, then whatever some limit counts: less is better. */
  costs: number[];
  /** So many of it one stack may use. */
  timesMost: number;
  /** Of two that cost the same, the answer prefers the lower. */
  rank: number;
}

type Part = ResolvedTool | ResolvedExtension | ResolvedSocket;

/**
 * Pieces that no least bag needs: for each of them there are others that do all it does, cost no more in what is
 * minimised and in every limit, and come first where they cost the same.
 *
 * A bag that holds such a piece p stays a bag when p is exchanged, where it lies, for a better q not yet packed: every
 * stack with p is one with q, the same losses are stood, and nothing grows. Such a q is left where more of it are on
 * hand than can be of use. Where everybody draws on all bags, and no bag is lost whole, it is enough that the better
 * ones together are as many as are used at one time: if all of them are packed, one is free whenever p is used.
 *
 * @returns their ids
 */
export function dominatedPieces(work: OutingWork, minimise: Minimised): Set<string> {
  const shared = work.tolerance !== 'bag' && work.bags.every(({ role }) => role === null);
  const idle = (piece: Piece, alike: readonly Piece[]): boolean => {
    const needed = enough(work, piece);
    let better = 0;
    for (const other of alike) {
      if (other === piece || !isBetter(other, piece)) continue;
      if (other.onHand > usefulMost(work, other)) return true;
      better += other.onHand;
      if (shared && better >= needed) return true;
    }
    return false;
  };
  return new Set(
    [...piecesByKind(work, minimise).values()].flatMap((alike) =>
      alike.filter((piece) => idle(piece, alike)).map(({ id }) => id),
    ),
  );
}

function isBetter(q: Piece, p: Piece): boolean {
  if (q.lengthMm < p.lengthMm) return false;
  let same = true;
  for (const [index, cost] of q.costs.entries()) {
    const other = p.costs[index] ?? 0;
    if (cost > other) return false;
    if (index === 0 && cost < other) same = false;
  }
  if (same && (q.rank > p.rank || (q.rank === p.rank && q.id > p.id))) return false;
  for (let index = 0; index < p.serves.length; index += 1)
    if ((p.serves[index] ?? 0) > (q.serves[index] ?? 0)) return false;
  return true;
}

/** No more of a piece can be of use: what its steps use at one time, and as much again where it may be lost. */
function usefulMost(work: OutingWork, piece: Piece): number {
  const { groups, tolerance, bags } = work;
  const roles = new Map<string, number>();
  for (const { role, ways, holds } of groups) {
    const uses = [ways, holds].filter((one) => one && piece.tasks.has(one.task)).length * piece.timesMost;
    roles.set(role, Math.max(roles.get(role) ?? 0, uses));
  }
  const inAStep = Math.max(0, ...roles.values());
  const apart = bags.some(({ role }) => role !== null) || groups.some(({ slot }) => slot !== null);
  const atOnce = apart ? [...roles.values()].reduce((sum, uses) => sum + uses, 0) : inAStep;
  if (tolerance === 'nothing') return atOnce;
  return tolerance === 'bag' ? atOnce + inAStep : Math.max(atOnce, inAStep + 1);
}

/**
 * How many pieces of its kind are in use at one time when a piece may be: its own and all that stand in for it, in the
 * stack, in the hold and in other roles' hands; and one more to stand a loss.
 */
function enough({ groups, tolerance }: OutingWork, piece: Piece): number {
  const inAStack = piece.kind.startsWith('extension') ? extensionsMax : 1;
  const roles = new Map<string, number>();
  let inAStep = 0;
  for (const { role, slot, ways, holds } of groups) {
    const uses = holds ? 2 * inAStack : inAStack;
    if (piece.tasks.has(ways.task) || (holds && piece.tasks.has(holds.task))) inAStep = Math.max(inAStep, uses);
    if (slot !== null) roles.set(role, Math.max(roles.get(role) ?? 0, uses));
  }
  const atOnce = Math.max(
    inAStep,
    [...roles.values()].reduce((sum, count) => sum + count, 0),
  );
  return tolerance === 'nothing' ? atOnce : Math.max(atOnce, inAStep + 1);
}

function piecesByKind(work: OutingWork, minimise: Minimised): Map<string, Piece[]> {
  const tasks = [...new Set(work.groups.flatMap(({ ways, holds }) => (holds ? [ways, holds] : [ways])))].map(
    (ways) => ways.task,
  );
  const deepestMm = Math.max(0, ...tasks.map(({ access }) => access.depthMm));
  const costsOf = costing(work, minimise);
  const kinds = new Map<string, Piece[]>();
  const add = (part: Part, kind: string, bits: (task: StackTask) => number[], further: Partial<Piece> = {}): void => {
    const served = new Set<StackTask>();
    const serves: number[] = [];
    for (const task of tasks) {
      const ones = bits(task);
      for (const bit of ones) serves.push(bit);
      if (ones.includes(1)) served.add(task);
    }
    const piece: Piece = {
      id: part.id,
      onHand: part.onHand,
      kind,
      tasks: served,
      serves: Uint8Array.from(serves),
      lengthMm: 0,
      costs: costsOf(part),
      rank: 0,
      timesMost: 1,
      ...further,
    };
    const known = kinds.get(kind);
    if (known) known.push(piece);
    else kinds.set(kind, [piece]);
  };
  const loosens = tasks.some(({ action }) => action !== 'tighten');
  const { tools, sockets, extensions } = work.stock;
  const bars = [...tools.values()].filter(({ stepDeg }) => stepDeg === null);
  const barOf = (task: StackTask): ResolvedTool | undefined => bars.find((bar) => toolServes(task, bar, strict));
  for (const tool of tools.values()) add(tool, `tool ${tool.driveMm}`, (task) => toolBits(task, tool));
  for (const socket of sockets.values()) {
    const rank = Number(loosens && socket.openingForm === 'hex12');
    const lengthMm = Math.min(socket.lengthMm, deepestMm);
    add(socket, `socket ${socket.driveMm}`, (task) => socketBits(task, socket, barOf(task)), { lengthMm, rank });
  }
  for (const extension of extensions.values()) {
    const { driveInMm, driveOutMm, form } = extension;
    const lengthMm = Math.min(extension.lengthMm, deepestMm);
    // A universal joint is one of at most one: what is none stands in for it, not the other way round.
    const rank = Number(form === 'universal');
    add(extension, `extension ${driveInMm} ${driveOutMm}`, (task) => extensionBits(task, extension), {
      lengthMm,
      rank,
      timesMost: Math.min(extension.onHand, timesMostOf(extension)),
    });
  }
  return kinds;
}

/** At most one universal joint; between two that change the square one way another changes it back. */
function timesMostOf({ form, driveInMm, driveOutMm }: ResolvedExtension): number {
  if (form === 'universal') return 1;
  return driveInMm === driveOutMm ? extensionsMax : Math.ceil(extensionsMax / 2);
}

const openings = ['hex6', 'hex12', 'square'] as const;

function toolBits(task: StackTask, tool: ResolvedTool): number[] {
  if (!toolServes(task, tool, strict)) return openings.map(() => 0);
  return openings.map((openingForm) => Number(swings(task, tool, { openingForm })));
}

/** By the angle between its seats a socket lets tools without a ratchet swing, all of them or none. */
function socketBits(task: StackTask, socket: ResolvedSocket, bar: ResolvedTool | undefined): number[] {
  if (!socketServes(task, socket, strict)) return [0, 0];
  return [1, Number(bar === undefined || swings(task, bar, socket))];
}

function extensionBits(task: StackTask, extension: ResolvedExtension): number[] {
  const serves = extensionServes(task, extension, strict);
  let passes = true;
  // Stretch by stretch, from the mouth inwards: the further in it comes, the nearer the head it may begin.
  const passed = stretchesOf(task.access).map(({ clearMm }) => {
    passes &&= clearMm === null || atMost(extension.outsideDiameterMm, clearMm);
    return passes;
  });
  return [true, ...passed, extension.form !== 'universal'].map((bit) => Number(serves && bit));
}

/** What counts against a piece in this outing. */
function costing({ bags }: OutingWork, minimise: Minimised): (part: Part) => number[] {
  const limited = (has: (bag: OutingWork['bags'][number]) => boolean): boolean => bags.some(has);
  const mass = limited(({ massMaxKg }) => massMaxKg !== null);
  const volume = limited(({ volumeMaxL }) => volumeMaxL !== null);
  const tethers = limited(({ tetherPoints }) => tetherPoints !== null);
  const size = limited(({ sizeMaxMm }) => sizeMaxMm !== null);
  return (part) => [
    measured(part, minimise),
    mass ? part.massKg : 0,
    volume ? measured(part, 'volume') : 0,
    tethers ? part.tethers : 0,
    // Without a size it passes any limit.
    size ? (part.sizeMm ?? 0) : 0,
  ];
}
