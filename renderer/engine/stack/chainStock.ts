import type { ResolvedExtension } from '../plan/resolved.ts';
import { atLeast } from '../tolerance.ts';
import { extensionServes, strict } from './serves.ts';
import { leastBeginMm } from './stretches.ts';
import type { StackTask } from './stackTask.ts';

/** Extensions that stand in for each other in a task: of the same squares and length, and as free in the hole along its depth. */
export interface Link {
  extensions: ResolvedExtension[];
}

/** A link as the search sees it. */
export interface SearchLink extends Link {
  driveInMm: number;
  driveOutMm: number;
  lengthMm: number;
  universal: boolean;
  /** It may begin so far from the head, no nearer: 0 where it passes the whole hole, the depth where it does not enter. */
  fromMm: number;
  onHand: number;
  /** From 1 on: where it stands among the links of its stock. */
  number: number;
}

/** The extensions of a catalog as one task may use them, sorted for the search. */
export interface ChainStock {
  task: StackTask;
  /**
   * Whose two squares are alike, by that square: those first that may begin nearer the head, of those the longest. Only those that enter the
   * hole. If some order of a set lets each begin where it may, this one does: of two neighbours the one that may begin nearer can always
   * come first.
   */
  lengthening: ReadonlyMap<number, SearchLink[]>;
  /** From one square to another, by the square on the socket's side. */
  adapting: ReadonlyMap<number, SearchLink[]>;
  /** Squares that some tool has. */
  turned: ReadonlySet<number>;
  /** No part inside the hole is longer. */
  longestMm: number;
  /** More than any link's number. */
  base: number;
  /** A number for every square, from 1 on. */
  squares: ReadonlyMap<number, number>;
}

/** What a task may use of the extensions given. */
export function chainStock(
  task: StackTask,
  extensions: Iterable<ResolvedExtension>,
  turned: ReadonlySet<number>,
): ChainStock {
  const links = linksOf(
    task,
    [...extensions].filter((e) => extensionServes(task, e, strict)),
  );
  const { depthMm } = task.access;
  const entering = links.filter(({ fromMm }) => fromMm === 0 || !atLeast(fromMm, depthMm));
  // One that keeps the square is of use inside the hole alone: it is there to reach.
  const lengthening = bySquare(entering.filter((link) => link.driveInMm === link.driveOutMm));
  for (const list of lengthening.values()) list.sort((a, b) => a.fromMm - b.fromMm || b.lengthMm - a.lengthMm);
  return {
    task,
    lengthening,
    adapting: bySquare(links.filter((link) => link.driveInMm !== link.driveOutMm)),
    turned,
    longestMm: Math.max(0, ...entering.map(({ lengthMm }) => lengthMm)),
    base: links.length + 1,
    squares: new Map([...turned].map((driveMm, index) => [driveMm, index + 1])),
  };
}

function linksOf(task: StackTask, extensions: readonly ResolvedExtension[]): SearchLink[] {
  const links = new Map<string, SearchLink>();
  for (const extension of extensions) {
    const { driveInMm, driveOutMm, lengthMm, form, outsideDiameterMm, onHand } = extension;
    const universal = form === 'universal';
    const fromMm = leastBeginMm(task.access, outsideDiameterMm);
    const key = [driveInMm, driveOutMm, lengthMm, universal, fromMm].join(' ');
    const known = links.get(key);
    if (known) {
      known.extensions.push(extension);
      known.onHand += onHand;
    } else {
      const number = links.size + 1;
      links.set(key, { extensions: [extension], driveInMm, driveOutMm, lengthMm, universal, fromMm, onHand, number });
    }
  }
  return [...links.values()];
}

function bySquare(links: readonly SearchLink[]): Map<number, SearchLink[]> {
  const lists = new Map<number, SearchLink[]>();
  for (const link of links) {
    const list = lists.get(link.driveOutMm);
    if (list) list.push(link);
    else lists.set(link.driveOutMm, [link]);
  }
  return lists;
}
