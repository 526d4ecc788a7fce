import type { CheckName } from '../../../shared-types/bag.ts';
import type { ResolvedExtension, ResolvedPlan, ResolvedSocket, ResolvedTool } from '../plan/resolved.ts';
import { openingGoesOnHead } from '../socket/index.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { chooseSetting } from '../torque/chooseSetting.ts';
import { dropDominated } from './dropDominated.ts';
import type { StackParts, StackTask } from './stackTask.ts';
import { extensionsMax, mayTurn, stepAngleDeg } from './stackTask.ts';

/** Checks that a search for closest fits may leave out, one at a time. */
export type Relaxed = Exclude<CheckName, 'hold' | 'bag'>;

/** Nodes a relaxed search looks at, over all sockets, before it settles for what it has; a strict search looks at all. */
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
 * Every stack of the catalog that does the task (rules 1 to 7, 13 and 14), less those whose pieces include all of
 * another's: the smaller one needs no more of anything.
 *
 * The search goes from the socket outwards and gives a branch up at the first part that is too weak, too wide for
 * where it lies, or of another square.
 *
 * @returns the stacks, lightest first
 * @param relaxed - checks left out, to find stacks that nearly do; the search is then bounded
 */
export function enumerateStacks(
  plan: ResolvedPlan,
  task: StackTask,
  relaxed: ReadonlySet<Relaxed> = new Set(),
): StackParts[] {
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
    if (relaxed.size > 0) search.nodesLeft = Math.max(relaxedNodesMin, relaxedNodesMax / sockets.length);
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
  // Where a check is left out, more pieces may fail it by less.
  return relaxed.size === 0 ? dropDominated(search.found) : search.found;
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
  const beginsInside = !atLeast(chain.lengthMm, task.access.depthMm);
  if (beginsInside && !passesHole(task, extension.outsideDiameterMm, relaxed)) return null;
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

function swings({ access }: StackTask, tool: ResolvedTool, socket: ResolvedSocket): boolean {
  return access.swingDeg === null || atMost(stepAngleDeg(tool, socket), access.swingDeg);
}

function passesHole({ access }: StackTask, outsideDiameterMm: number, relaxed: ReadonlySet<Relaxed>): boolean {
  return (
    access.clearDiameterMm === null || atMost(outsideDiameterMm, access.clearDiameterMm) || relaxed.has('clearance')
  );
}

function bears(task: StackTask, ratedNm: number, relaxed: ReadonlySet<Relaxed>): boolean {
  return atLeast(ratedNm, task.demandNm) || relaxed.has('strength');
}

function onHand(piece: { onHand: number }, relaxed: ReadonlySet<Relaxed>): boolean {
  return piece.onHand > 0 || relaxed.has('stock');
}

function toolServes(task: StackTask, tool: ResolvedTool, relaxed: ReadonlySet<Relaxed>): boolean {
  const { handleRadiusMm } = task.access;
  if (!mayTurn(task, tool) || !onHand(tool, relaxed) || !bears(task, tool.maxNm, relaxed)) return false;
  const fitsRoom = handleRadiusMm === null || tool.leverMm === null || atMost(tool.leverMm, handleRadiusMm);
  if (!fitsRoom && !relaxed.has('swing')) return false;
  const { aim, rangeShareMin } = task;
  if (!aim || relaxed.has('accuracy')) return true;
  const chosen = tool.torque && chooseSetting({ torque: tool.torque, aim, rangeShareMin });
  return chosen?.conforms ?? false;
}

function extensionServes(task: StackTask, extension: ResolvedExtension, relaxed: ReadonlySet<Relaxed>): boolean {
  if (extension.form === 'universal' && task.action === 'tighten' && !relaxed.has('universal')) return false;
  return onHand(extension, relaxed) && bears(task, extension.ratedNm, relaxed);
}

function socketServes(task: StackTask, socket: ResolvedSocket, relaxed: ReadonlySet<Relaxed>): boolean {
  const { access, fastener } = task;
  if (!onHand(socket, relaxed) || !bears(task, socket.ratedNm, relaxed)) return false;
  const covers =
    access.protrusionMm === null || (socket.innerDepthMm !== null && atLeast(socket.innerDepthMm, access.protrusionMm));
  if (!covers && !relaxed.has('protrusion')) return false;
  if (access.depthMm > 0 && !passesHole(task, socket.outsideDiameterMm, relaxed)) return false;
  const goesOn = openingGoesOnHead({
    headForm: fastener.headForm,
    acrossFlats: fastener.acrossFlats,
    openingForm: socket.openingForm,
    size: socket.size,
  });
  return goesOn || relaxed.has('opening');
}
