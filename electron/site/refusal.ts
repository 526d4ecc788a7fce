import type { Refusal } from '../../shared-types/errors.ts';

/** What either host will not do, in the shape the page shows. */
export class HostRefusal extends Error {
  override readonly name = 'HostRefusal';
  readonly refusal: Refusal;

  constructor(refusal: Refusal) {
    super(refusal.message);
    this.refusal = refusal;
  }
}

/** Anything else that goes wrong is ours, and says so without a stack. */
export function refusalOf(cause: unknown): Refusal {
  if (cause instanceof HostRefusal) return cause.refusal;
  return {
    code: 'internal',
    message: `The program failed at this: ${cause instanceof Error ? cause.message : 'unknown'}`,
  };
}
