import { useMemo } from 'react';
import type { Revision } from '../../../shared-types/records/revision.ts';
import { compareRevisions, readFrozen, sideOf } from '../../engine/frozen/index.ts';
import type { Comparison, Side, ToFreeze } from '../../engine/frozen/index.ts';
import type { Names } from './comparisonRows.ts';

export type Compared =
  | { kind: 'compared'; found: Comparison; names: Names }
  /** One of the two cannot be read, or the task's bag is not of its shelves. */
  | { kind: 'refused'; reason: string };

/** Held against each other: frozen manifests, or the task as it stands. Null while one is not there. */
export function useCompared(one: Revision | ToFreeze | null, other: Revision | ToFreeze | null): Compared | null {
  return useMemo(() => (one === null || other === null ? null : compared(one, other)), [one, other]);
}

function compared(one: Revision | ToFreeze, other: Revision | ToFreeze): Compared {
  try {
    const [was, is] = [sideFor(one), sideFor(other)];
    return { kind: 'compared', found: compareRevisions(was, is), names: namesOf(was, is) };
  } catch (error) {
    return { kind: 'refused', reason: error instanceof Error ? error.message : String(error) };
  }
}

function sideFor(one: Revision | ToFreeze): Side {
  return 'content' in one ? readFrozen(one) : sideOf(one);
}

function namesOf(was: Side, is: Side): Names {
  const sides = [is, was];
  const named = (code: string, name: string | undefined): string => (name === undefined || name === code ? code : name);
  const thing = (code: string): string =>
    named(
      code,
      sides.map(({ things }) => things.find(({ id }) => id === code)?.name).find((name) => name !== undefined),
    );
  const outing = (code: string): string =>
    named(
      code,
      sides.map(({ plan }) => plan.outings.find(({ id }) => id === code)?.name).find((name) => name !== undefined),
    );
  return { item: thing, bag: thing, outing, outings: sides.some(({ plan }) => plan.outings.length > 1) };
}
