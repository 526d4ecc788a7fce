import type { Highs } from 'highs';
import loadHighs from 'highs';

let loading: Promise<Highs> | undefined;

/** HiGHS, loaded once. A page says where its program file lies; on a command line it lies beside its module. */
export function loadSolver(locateFile?: (file: string) => string): Promise<Highs> {
  loading ??= loadHighs(locateFile ? { locateFile } : undefined);
  return loading;
}
