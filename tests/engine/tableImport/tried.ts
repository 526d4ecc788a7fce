import type { Refusal } from '../../../shared-types/errors.ts';
import { csvGrid } from '../../../renderer/engine/sheet/csvGrid.ts';
import type { Grid } from '../../../renderer/engine/sheet/grid.ts';
import {
  DryRun,
  guessMapping,
  importTargets,
  type KeptRow,
  type Mapping,
  type ReadyRow,
  type TargetName,
} from '../../../renderer/engine/tableImport/index.ts';

export interface Tried {
  ready: ReadyRow[];
  refusals: Refusal[];
  counts: DryRun['progress']['counts'];
  columns: string[];
}

/** A whole dry run of a table, by the mapping its names suggest unless told. */
export function tried(
  grid: Grid,
  x: {
    target?: TargetName;
    mapping?: Mapping;
    kept?: readonly KeptRow[];
    callouts?: readonly Record<string, string>[];
    piece?: number;
  } = {},
): Tried {
  const target = importTargets[x.target ?? 'callouts'];
  const mapping = x.mapping ?? guessMapping(grid.names, target).mapping;
  const run = new DryRun({ grid, mapping, target, context: { callouts: x.callouts ?? [] }, kept: x.kept ?? [] });
  const found: Tried = { ready: [], refusals: [], counts: run.progress.counts, columns: run.columns };
  while (run.progress.done < run.count) {
    const { ready, refusals } = run.next(x.piece ?? 100);
    found.ready.push(...ready);
    found.refusals.push(...refusals);
  }
  found.refusals.push(...run.next(0).refusals);
  found.counts = run.progress.counts;
  return found;
}

export function csv(text: string): Grid {
  return csvGrid({ content: text, file: 'list.csv', known: importTargets.callouts.columns.map(({ name }) => name) });
}
