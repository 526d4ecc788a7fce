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

/**
 * Reads one field; what is refused there names it, where it does not name a nearer one.
 *
 * @throws RefusedError as `read` does, with the field; anything else as it came
 */
export function inField<T>(field: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof RefusedError ? error.within({ field }) : error;
  }
}
