import type { BagOuting } from '../../shared-types/bag.ts';
import type { Refusal } from '../../shared-types/errors.ts';
import type { CourseResult, Ledger, PieceWay } from '../../shared-types/outing.ts';

/** What the page sends the worker, once. */
export interface CourseAsked {
  plan: string;
  file?: string;
  /** The planned bags; none where none is planned. */
  outings: BagOuting[];
}

export interface CourseFollowed {
  ledger: Ledger;
  /** Of every piece, those that never leave their bags among them. */
  ways: PieceWay[];
}

/** What the worker sends back: where everything is, which comes soon; then the whole course, or why there is none. */
export type CourseMessage =
  | { kind: 'followed'; followed: CourseFollowed }
  | { kind: 'done'; course: CourseResult }
  | { kind: 'refused'; refusal: Refusal };
