/**
 * The stacks of a job as bare counts of pieces: one for each multiset of pieces, less those that hold another's and
 * more. The search follows the squares from the socket outwards; what it meets is judged by the reference's rules, each
 * as soon as what it looks at is there: the tool alone, the chain on its socket, tool and socket.
 */
import { stackRules } from '../rules.ts';
import type { Job, Stack, StackRuleName } from '../rules.ts';
import type { Extension, Socket, Stock, Tool } from '../stock.ts';

/** Thrown where there would be more than asked for. */
export class TooLargeError extends Error {}

/** Pieces by id. */
export type Counts = ReadonlyMap<string, number>;

const ofTool: StackRuleName[] = ['tool', 'strength', 'accuracy', 'handle'];
const ofSocket: StackRuleName[] = ['opening', 'protrusion', 'strength'];
const ofChain: StackRuleName[] = ['extensions', 'reach', 'clearance', 'strength', 'universal'];

const passes = (names: readonly StackRuleName[], stack: Stack, job: Job): boolean =>
  names.every((name) => stackRules[name](stack, job));

/** Parts that fail nothing of themselves, to look at others alone. */
const anyTool: Tool = {
  id: '',
  massKg: 0,
  volumeL: null,
  sizeMm: null,
  tethers: 0,
  onHand: 1,
  family: 'driver',
  drive: '',
  maxNm: Infinity,
  leverMm: null,
  stepDeg: 1,
  loosens: true,
  settingsNm: [],
  accuracyOfReading: 0,
};

const anySocket: Socket = {
  id: '',
  massKg: 0,
  volumeL: null,
  sizeMm: null,
  tethers: 0,
  onHand: 1,
  drive: '',
  form: 'hex6',
  size: '0',
  lengthMm: 0,
  innerDepthMm: null,
  outsideDiameterMm: 0,
  ratedNm: Infinity,
};

interface Chain {
  /** From the socket outwards. */
  parts: Extension[];
  /** The square that the next part meets. */
  square: string;
}

export function pieceStacks(stock: Stock, job: Job, stacksMax = Infinity): Counts[] {
  const tools = bySquare(
    stock.tools.filter((tool) => tool.onHand > 0 && passes(ofTool, { tool, extensions: [], socket: anySocket }, job)),
    (one) => one.drive,
  );
  const extensions = bySquare(
    stock.extensions.filter(
      (part) =>
        part.onHand > 0 &&
        passes(['strength', 'universal'], { tool: anyTool, extensions: [part], socket: anySocket }, job),
    ),
    (one) => one.driveOut,
  );
  const sockets = stock.sockets.filter(
    (socket) => socket.onHand > 0 && passes(ofSocket, { tool: anyTool, extensions: [], socket }, job),
  );
  const found: Counts[] = [];
  for (const socket of sockets) {
    const chains = chainsOn(socket, extensions, job);
    for (const [square, list] of chains) {
      for (const tool of tools.get(square) ?? []) {
        if (!passes(['swing'], { tool, extensions: [], socket }, job)) continue;
        for (const parts of list) found.push(countsOf(tool, parts, socket));
      }
    }
    if (found.length > stacksMax) throw new TooLargeError(`more than ${stacksMax} stacks`);
  }
  return found;
}

/** Chains that reach and pass on a socket, by the square at their outer end, none with all the parts of another. */
function chainsOn(socket: Socket, extensions: ReadonlyMap<string, Extension[]>, job: Job): Map<string, Extension[][]> {
  const kept = new Map<string, Extension[][]>();
  let chains: Chain[] = [{ parts: [], square: socket.drive }];
  for (let length = 0; length <= 3; length++) {
    for (const { parts, square } of chains) {
      if (!passes(ofChain, { tool: anyTool, extensions: parts.toReversed(), socket }, job)) continue;
      const known = kept.get(square) ?? [];
      kept.set(square, known);
      // Shorter chains come first, so that what includes another comes after it.
      if (!known.some((less) => includes(parts, less))) known.push(parts);
    }
    if (length === 3) break;
    chains = chains.flatMap(({ parts, square }) =>
      (extensions.get(square) ?? [])
        .filter((next) => parts.filter((one) => one.id === next.id).length < next.onHand)
        .map((next) => ({ parts: [...parts, next], square: next.driveIn })),
    );
  }
  return kept;
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

/** Whether a chain has all the parts of another, each as often. */
function includes(more: readonly Extension[], less: readonly Extension[]): boolean {
  const left = [...more];
  return less.every((part) => {
    const at = left.indexOf(part);
    if (at < 0) return false;
    left.splice(at, 1);
    return true;
  });
}
