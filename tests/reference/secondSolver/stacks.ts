/**
 * The stacks of a job as bare counts of pieces: one for each multiset of pieces, less those that hold another's and
 * more. The search follows the squares from the socket outwards; what it meets is judged by the reference's rules.
 */
import { failedRules } from '../rules.ts';
import type { Job } from '../rules.ts';
import type { Extension, Socket, Stock, Tool } from '../stock.ts';

/** Thrown where there would be more than asked for. */
export class TooLargeError extends Error {}

/** Pieces by id. */
export type Counts = ReadonlyMap<string, number>;

const strong = (ratedNm: number, { demandNm }: Job): boolean => ratedNm >= demandNm * (1 - 1e-9);

export function pieceStacks(stock: Stock, job: Job, stacksMax = Infinity): Counts[] {
  const tools = stock.tools.filter((one) => one.onHand > 0 && strong(one.maxNm, job));
  const extensions = stock.extensions.filter((one) => one.onHand > 0 && strong(one.ratedNm, job));
  const toolsBySquare = bySquare(tools, (one) => one.drive);
  const extensionsBySquare = bySquare(extensions, (one) => one.driveOut);
  const found: Counts[] = [];
  for (const socket of stock.sockets.filter((one) => one.onHand > 0 && goesOn(one, job))) {
    const kept = new Map<string, Counts[]>();
    const close = (chain: readonly Extension[], square: string): void => {
      for (const tool of toolsBySquare.get(square) ?? []) {
        if (failedRules({ tool, extensions: chain.toReversed(), socket }, job).length > 0) continue;
        const known = kept.get(tool.id) ?? [];
        kept.set(tool.id, known);
        const counts = countsOf(tool, chain, socket);
        // Shorter chains come first, so that what includes another comes after it.
        if (!known.some((less) => includes(counts, less))) known.push(counts);
      }
    };
    let chains: { chain: Extension[]; square: string }[] = [{ chain: [], square: socket.drive }];
    for (let length = 0; length <= 3; length++) {
      for (const { chain, square } of chains) close(chain, square);
      if (length === 3) break;
      chains = chains.flatMap(({ chain, square }) =>
        (extensionsBySquare.get(square) ?? [])
          .filter((next) => chain.filter((one) => one.id === next.id).length < next.onHand)
          .map((next) => ({ chain: [...chain, next], square: next.driveIn })),
      );
    }
    for (const stacks of kept.values()) for (const one of stacks) found.push(one);
    if (found.length > stacksMax) throw new TooLargeError(`more than ${stacksMax} stacks`);
  }
  return found;
}

/** Whether the socket could be part of any stack: rules that do not hang on the others. */
function goesOn(socket: Socket, job: Job): boolean {
  const tool: Tool = {
    id: '',
    massKg: 0,
    volumeL: null,
    sizeMm: null,
    tethers: 0,
    onHand: 1,
    family: 'driver',
    drive: socket.drive,
    maxNm: Infinity,
    leverMm: null,
    stepDeg: 1,
    loosens: true,
    settingsNm: [],
    accuracyOfReading: 0,
  };
  const own = failedRules({ tool, extensions: [], socket }, job);
  return !own.some((rule) => rule === 'opening' || rule === 'protrusion' || rule === 'strength');
}

function bySquare<T>(items: readonly T[], square: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const one of items) {
    const group = groups.get(square(one));
    if (group === undefined) groups.set(square(one), [one]);
    else group.push(one);
  }
  return groups;
}

function countsOf(tool: Tool, chain: readonly Extension[], socket: Socket): Counts {
  const counts = new Map<string, number>();
  for (const { id } of [tool, ...chain, socket]) counts.set(id, (counts.get(id) ?? 0) + 1);
  return counts;
}

const includes = (more: Counts, less: Counts): boolean =>
  [...less].every(([id, count]) => (more.get(id) ?? 0) >= count);
