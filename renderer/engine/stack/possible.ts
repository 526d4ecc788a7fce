import type { ResolvedExtension, ResolvedSocket } from '../plan/resolved.ts';
import { atLeast } from '../tolerance.ts';
import { extensionServes, passesHole, socketServes, strict, toolServes } from './serves.ts';
import { leastBeginMm } from './stretches.ts';
import type { StackTask } from './stackTask.ts';
import { extensionsMax } from './stackTask.ts';
import type { StackStock } from './ways.ts';
import { findWays } from './ways.ts';

/**
 * Every piece that appears in some stack for the task, least or not: what a bag of the step's role may hold (rule 9).
 *
 * @returns their ids: the tools and sockets that have a stack with the longest extensions, and whatever extension has
 *   one beside those
 */
export function possiblePieces(stock: StackStock, task: StackTask): Set<string> {
  const serving = [...stock.extensions.values()].filter((e) => extensionServes(task, e, strict));
  const longest = longestOfEach(task, serving);
  const { tools, ladders } = findWays({ ...stock, extensions: new Map(longest.map((e) => [e.id, e])) }, task);
  const ids = new Set([...tools, ...ladders.flatMap(({ rungs }) => rungs.flat())].map(({ id }) => id));
  const search: Search = {
    task,
    sockets: longestSockets([...stock.sockets.values()].filter((socket) => socketServes(task, socket, strict))),
    turned: new Set([...stock.tools.values()].filter((tool) => toolServes(task, tool, strict)).map((t) => t.driveMm)),
  };
  for (const extension of serving) {
    if (fitsSomewhere(search, extension, longest)) ids.add(extension.id);
  }
  return ids;
}

/** Of each square: what a shorter one reaches with some extensions, the longest reaches with the same. */
function longestSockets(sockets: readonly ResolvedSocket[]): ResolvedSocket[] {
  const longest = new Map<number, ResolvedSocket>();
  for (const socket of sockets) {
    if (socket.lengthMm > (longest.get(socket.driveMm)?.lengthMm ?? 0)) longest.set(socket.driveMm, socket);
  }
  return [...longest.values()];
}

interface Search {
  task: StackTask;
  sockets: { driveMm: number; lengthMm: number }[];
  turned: ReadonlySet<number>;
}

/** Longer never hurts: beside one extension that must be in the stack, the longest of each pair of squares are enough. */
function longestOfEach(task: StackTask, serving: readonly ResolvedExtension[]): ResolvedExtension[] {
  const kinds = new Map<string, ResolvedExtension[]>();
  for (const extension of serving) {
    const { driveInMm, driveOutMm, form, outsideDiameterMm } = extension;
    const key = [driveInMm, driveOutMm, form === 'universal', leastBeginMm(task.access, outsideDiameterMm)].join(' ');
    const list = kinds.get(key);
    if (list) list.push(extension);
    else kinds.set(key, [extension]);
  }
  return [...kinds.values()].flatMap((list) =>
    list.toSorted((a, b) => b.lengthMm - a.lengthMm).slice(0, extensionsMax),
  );
}

function fitsSomewhere(search: Search, wanted: ResolvedExtension, others: readonly ResolvedExtension[]): boolean {
  const beside = [wanted, ...others.filter((e) => e !== wanted)];
  return search.sockets.some((socket) => reachesTool(search, { ...socket, chain: [] }, wanted, beside));
}

interface At {
  driveMm: number;
  lengthMm: number;
  chain: ResolvedExtension[];
}

function reachesTool(search: Search, at: At, wanted: ResolvedExtension, beside: readonly ResolvedExtension[]): boolean {
  const { depthMm } = search.task.access;
  const inside = !atLeast(at.lengthMm, depthMm);
  if (!inside && at.chain.includes(wanted) && search.turned.has(at.driveMm)) return true;
  const left = extensionsMax - at.chain.length;
  if (left === 0 || (left === 1 && !at.chain.includes(wanted) && wanted.driveOutMm !== at.driveMm)) return false;
  return beside.some((extension) => {
    if (extension.driveOutMm !== at.driveMm) return false;
    if (!passesHole(search.task, extension.outsideDiameterMm, at.lengthMm)) return false;
    if (at.chain.filter((e) => e === extension).length >= extension.onHand) return false;
    const chain = [...at.chain, extension];
    if (chain.filter((e) => e.form === 'universal').length > 1) return false;
    const next = { driveMm: extension.driveInMm, lengthMm: at.lengthMm + extension.lengthMm, chain };
    return reachesTool(search, next, wanted, beside);
  });
}
