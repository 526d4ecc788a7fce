import type { ResolvedExtension, ResolvedPlan, ResolvedSocket, ResolvedTool } from '../plan/resolved.ts';
import { atLeast } from '../tolerance.ts';
import type { Relaxed } from './serves.ts';
import { extensionServes, passesHole, socketServes, swings, toolServes } from './serves.ts';
import type { StackParts, StackTask } from './stackTask.ts';
import { extensionsMax } from './stackTask.ts';
import { eachStack, findWays } from './ways.ts';

export type { Relaxed } from './serves.ts';

/** Nodes a relaxed search looks at, over all sockets, before it settles for what it has. */
const relaxedNodesMax = 60_000;
const relaxedNodesMin = 2000;

interface Search {
  task: StackTask;
  relaxed: ReadonlySet<Relaxed>;
  tools: ResolvedTool[];
  extensions: ResolvedExtension[];
  found: StackParts[];
  nodesLeft: number;
}

interface Chain {
  socket: ResolvedSocket;
  /** From the socket outwards. */
  extensions: ResolvedExtension[];
  lengthMm: number;
  /** The female square that the next part's male square meets. */
  driveMm: number;
  universals: number;
  mismatched: boolean;
  /** Squares at which a shorter beginning of this chain already reaches. */
  reachedAt: readonly number[];
}

/**
 * Every stack of the catalog that does the task (rules 1 to 8, 13 and 14), written out, less those whose pieces
 * include all of another's with the same tool and socket: the smaller one needs no more of anything.
 *
 * With checks left out, stacks that nearly do: a bounded search from the socket outwards, which gives a branch up at
 * the first part that fails in anything else.
 *
 * @param relaxed - checks left out
 * @returns the stacks, each set of pieces once; with checks left out, whatever the search met
 */
export function enumerateStacks(
  plan: ResolvedPlan,
  task: StackTask,
  relaxed: ReadonlySet<Relaxed> = new Set(),
): StackParts[] {
  if (relaxed.size === 0) return [...eachStack(findWays(plan, task))];
  const search: Search = {
    task,
    relaxed,
    tools: [...plan.tools.values()].filter((tool) => toolServes(task, tool, relaxed)),
    extensions: inSearchOrder(
      [...plan.extensions.values()].filter((e) => extensionServes(task, e, relaxed)),
      relaxed,
    ),
    found: [],
    nodesLeft: Infinity,
  };
  const sockets = [...plan.sockets.values()].filter((socket) => socketServes(task, socket, relaxed));
  for (const socket of sockets) {
    search.nodesLeft = Math.max(relaxedNodesMin, relaxedNodesMax / sockets.length);
    walk(search, {
      socket,
      extensions: [],
      lengthMm: socket.lengthMm,
      driveMm: socket.driveMm,
      universals: 0,
      mismatched: false,
      reachedAt: [],
    });
  }
  return search.found;
}

/** A bounded search meets first what falls least short in the check left out. */
function inSearchOrder(extensions: ResolvedExtension[], relaxed: ReadonlySet<Relaxed>): ResolvedExtension[] {
  if (relaxed.has('reach')) return extensions.toSorted((a, b) => b.lengthMm - a.lengthMm);
  if (relaxed.has('clearance')) return extensions.toSorted((a, b) => a.outsideDiameterMm - b.outsideDiameterMm);
  return relaxed.has('strength') ? extensions.toSorted((a, b) => b.ratedNm - a.ratedNm) : extensions;
}

function walk(search: Search, chain: Chain): void {
  if (search.nodesLeft-- <= 0) return;
  const { task, relaxed } = search;
  const reaches = atLeast(chain.lengthMm, task.access.depthMm);
  if (reaches && chain.reachedAt.includes(chain.driveMm) && !relaxed.has('drive')) return;
  if (reaches || relaxed.has('reach')) close(search, chain);
  if (chain.extensions.length === extensionsMax) return;
  for (const extension of search.extensions) {
    const next = lengthen(search, chain, extension, reaches);
    if (next) walk(search, next);
  }
}

function lengthen(search: Search, chain: Chain, extension: ResolvedExtension, reaches: boolean): Chain | null {
  const { task, relaxed } = search;
  const meets = extension.driveOutMm === chain.driveMm;
  if (!meets && (chain.mismatched || !relaxed.has('drive'))) return null;
  const universals = chain.universals + (extension.form === 'universal' ? 1 : 0);
  if (universals > 1 && !relaxed.has('universal')) return null;
  if (!passesHole(task, extension.outsideDiameterMm, chain.lengthMm, relaxed)) return null;
  const pieces = chain.extensions.filter((e) => e.id === extension.id).length + 1;
  if (pieces > extension.onHand && !relaxed.has('stock')) return null;
  return {
    socket: chain.socket,
    extensions: [...chain.extensions, extension],
    lengthMm: chain.lengthMm + extension.lengthMm,
    driveMm: extension.driveInMm,
    universals,
    mismatched: chain.mismatched || !meets,
    reachedAt: reaches ? [...chain.reachedAt, chain.driveMm] : chain.reachedAt,
  };
}

/** Puts every tool that meets the chain's outer end on it. */
function close(search: Search, chain: Chain): void {
  const { task, relaxed } = search;
  for (const tool of search.tools) {
    const meets = tool.driveMm === chain.driveMm;
    if (!meets && (chain.mismatched || !relaxed.has('drive'))) continue;
    if (!swings(task, tool, chain.socket) && !relaxed.has('swing')) continue;
    search.found.push({ tool, extensions: chain.extensions.toReversed(), socket: chain.socket });
  }
}
