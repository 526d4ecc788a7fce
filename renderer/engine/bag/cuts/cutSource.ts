import type { Highs } from 'highs';
import type { Solution } from '../model/integerProgram.ts';
import type { Loss } from '../model/losses.ts';
import { isNetwork } from '../model/flow.ts';
import type { ReducedWork } from '../presolve/reduceWork.ts';
import type { Covering } from '../search/covering.ts';
import { likelyLosses } from '../search/toldLosses.ts';
import { unserving } from './unserving.ts';
import type { DemandProgram } from './demandProgram.ts';
import { demandProgram } from './demandProgram.ts';
import { demandAfter, demandsOf } from '../model/demands.ts';
import type { Master, SharesWithSlack } from './master.ts';
import { liesBy, masterInShares, mostOfItem, rowOf, thereColumn } from './master.ts';
import type { Missed } from './unmet.ts';
import { unservingRow } from './unservingRow.ts';

/** Rounds of cuts in shares at most. */
const roundsInShares = 40;
/** So near to each other the two programs in shares agree. */
const agreement = 1e-6;
/** Cuts further from being tight in shares are left out of the whole program. */
const slackKept = 0.1;
/** A cut that is less off is none. */
const violated = 1e-6;
/** Where the cut is looked for: between what is called least and a bag in shares that serves, a little less of it. */
const halfway = 0.5;
const justInside = 0.9999;

export interface CutSource {
  /** Tells the master cuts until it agrees with the program of flows in shares. */
  gather: (options: {
    /** The least in shares of the program with flows. */
    until: number;
    timeLimitS: number | undefined;
    have: Int32Array | null;
  }) => SharesWithSlack | null;
  /** Leaves out pieces that no bag of at most this cost holds. */
  ruleOut: (shares: SharesWithSlack, cost: number) => void;
  /** Tells cuts that an answer in whole pieces breaks. */
  tell: (missed: Missed, answer: Solution) => void;
  seconds: () => number;
  dispose: () => void;
}

/**
 * Where cuts come from: for each demand a program of its own.
 *
 * @param core - a bag in shares that serves every demand in shares, by the columns of the master
 */
export function cutSource(
  highs: Highs,
  reduced: ReducedWork,
  cover: Covering,
  master: Master,
  core: Float64Array,
): CutSource {
  const { work, standing } = reduced;
  const programs: { program: DemandProgram; lost: string | null }[] = [];
  const lossPrograms = new Map<string, DemandProgram>();
  let masterS = 0;
  // Programs of likely losses stand in both.
  const everyProgram = (): Set<DemandProgram> =>
    new Set([...programs.map(({ program }) => program), ...lossPrograms.values()]);
  const demandsS = (): number => [...everyProgram()].reduce((sum, program) => sum + program.seconds(), 0);
  const inCore = (column: number): number => core[column] ?? 0;

  /** Tells the cuts of a demand near a point; whether the point itself is cut off by one. */
  const cutNear = (program: DemandProgram, lost: string | null, at: (column: number) => number): boolean => {
    const between = (column: number): number => halfway * at(column) + (1 - halfway) * justInside * inCore(column);
    let off = false;
    for (const point of [between, at]) {
      const cut = program.cut(liesBy(master, lost, point));
      if (!cut) continue;
      const row = rowOf(master, cut);
      const value = row.terms.reduce((sum, [column, weight]) => sum + weight * at(column), 0);
      if (point === at || value < 1 - violated) master.cuts.push(row);
      off ||= value < 1 - violated;
      if (off && point === between) break;
    }
    return off;
  };

  const lossProgram = (loss: Loss): DemandProgram => {
    const key = JSON.stringify([standing.indexOf(loss.group), loss.piece]);
    const found = lossPrograms.get(key) ?? demandProgram(highs, demandAfter(loss));
    lossPrograms.set(key, found);
    return found;
  };

  return {
    gather: ({ until, timeLimitS, have }) => {
      for (const demand of demandsOf(reduced)) {
        programs.push({ program: demandProgram(highs, demand), lost: demand.lost });
      }
      const likely = have && work.tolerance === 'piece' ? likelyLosses(cover, have) : [];
      for (const loss of likely) {
        if (isNetwork(loss.group)) continue;
        if (mostOfItem(master, loss.piece) > 1) thereColumn(master, loss.piece);
        programs.push({ program: lossProgram(loss), lost: loss.piece });
      }
      const shares = masterInShares(highs, master);
      const leftS = (): number | undefined =>
        timeLimitS === undefined ? undefined : Math.max(0.01, timeLimitS - shares.seconds() - demandsS());
      try {
        for (const { program, lost } of programs) cutNear(program, lost, (column) => justInside * inCore(column));
        let found = shares.solve(leftS());
        for (let round = 0; round < roundsInShares && found; round += 1) {
          if (timeLimitS !== undefined && shares.seconds() + demandsS() >= timeLimitS) break;
          if (likely.length === 0 && found.value >= until * (1 - agreement)) break;
          const { columns } = found;
          const off = programs.filter(({ program, lost }) => cutNear(program, lost, (column) => columns[column] ?? 0));
          if (off.length === 0) break;
          found = shares.solve(leftS());
        }
        if (found) {
          const { slack } = found;
          master.cuts = master.cuts.filter((_, index) => (slack[index] ?? 0) <= slackKept);
        }
        return found;
      } finally {
        masterS += shares.seconds();
        shares.dispose();
      }
    },

    ruleOut: ({ value, columns, reducedCosts }, cost) => {
      for (const { column } of master.model.lying) {
        const beyond = (reducedCosts[column] ?? 0) - (cost - value);
        if ((columns[column] ?? 0) < violated && beyond > violated * cost) master.model.program.fixAtZero(column);
      }
    },

    tell: ({ groups, losses }, { columns }) => {
      const at = (column: number): number => columns?.[column] ?? 0;
      for (const { program, lost } of programs) if (lost === null) cutNear(program, lost, at);
      for (const loss of losses) if (!isNetwork(loss.group)) cutNear(lossProgram(loss), loss.piece, at);
      for (const unmet of groups) {
        for (const bag of unserving(unmet.tables, cover.table, unmet.have)) {
          master.cuts.push(unservingRow(master, cover.table, unmet, bag));
        }
      }
    },

    seconds: () => masterS + demandsS(),

    dispose: () => {
      for (const program of everyProgram()) program.dispose();
    },
  };
}
