import type { Refusal } from '../../shared-types/errors.ts';

/** The engine's only exception: an input it will not compute with, said so that a person can mend it. */
export class RefusedError extends Error {
  override readonly name = 'RefusedError';
  readonly refusal: Refusal;

  constructor(refusal: Refusal) {
    super(refusal.message);
    this.refusal = refusal;
  }

  /** The same refusal with what only an outer reader knows: file, row, field. Nothing already said is replaced. */
  within(outer: Partial<Refusal>): RefusedError {
    return new RefusedError({ ...outer, ...this.refusal });
  }
}
